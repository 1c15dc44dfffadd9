// The list of reckonings, found by what a person wants to know.
import { useEffect, useLayoutEffect, useState } from "preact/hooks";
import { route } from "../route";
import type { Reckoning } from "../../core/api";
import { useCore } from "../base/core";
import { isTexts, remembered } from "../base/remember";
import { TextField } from "../parts/field";
import { Icon } from "../parts/icon";
import { Page } from "../parts/page";
import { find, type Found } from "./find";
import { KeptList } from "./kept";

/** Names of those used lately, latest first. */
export const lately = remembered("reckonLately", [], isTexts);

const MOST_LATELY = 3;

export function useLately(name: string): void {
  useEffect(() => {
    lately.value = [name, ...lately.value.filter((n) => n !== name)].slice(0, MOST_LATELY + 3);
  }, [name]);
}

// What was typed here, which families were open and which reckoning was looked at where on the screen, for who comes
// back for another.
const nothing = () => ({ typed: "", families: new Set<string>(), name: "", top: 0 });
let looked = nothing();

/** Forgets what was looked for when a person leaves the reckonings. */
export function useForgetSearch(): void {
  useLayoutEffect(
    () => () => {
      const { at } = route.peek();
      if (at !== "reckon" && at !== "reckonings") looked = nothing();
    },
    [],
  );
}

/** `job` is the treatment that the person comes from; empty where none. */
export function Reckonings({ job }: { job: string }) {
  const { list, say } = useReckonings();
  const [typed, setTyped] = useState(looked.typed);
  looked.typed = typed;
  useForgetSearch();
  const found = list && find(list, typed);
  useLayoutEffect(() => {
    const card = list && looked.name && document.querySelector(`[data-test="reckon-${looked.name}"]`);
    if (card) scrollBy(0, card.getBoundingClientRect().top - looked.top);
  }, [list]);
  return (
    <Page title="What do you want to know?" back={job ? { to: `#/t/${job}`, say: "Sink" } : { to: "#/", say: "Now" }}>
      {job && <KeptList job={job} />}
      <TextField
        label="Find a reckoning"
        test="find"
        type="search"
        value={typed}
        onValue={setTyped}
        help="A word or two: rinse, dew point, how heavy."
      />
      {!found && (
        <p class="quiet" role="status">
          {say}
        </p>
      )}
      {found && typed.trim() !== "" && (
        <p class="quiet" role="status" data-test="found">
          {saysFound(found)}
        </p>
      )}
      {list &&
        found &&
        (typed.trim() === "" || found.list.length === 0 ? (
          <ByFamily list={list} job={job} />
        ) : (
          <Cards list={found.list} job={job} />
        ))}
    </Page>
  );
}

/** How many fit, and what became of words that stand nowhere. */
function saysFound({ list, readAs, unknown }: Found): string {
  const n = list.length;
  const fit =
    n === 0 ? "Nothing here fits these words. All that there is stands below." : n === 1 ? "One fits." : `${n} fit.`;
  const read = readAs.map(([typed, meant]) => `“${shortened(typed)}” is read as ${meant.join(" or ")}.`);
  const no =
    n > 0 && unknown.length > 0 ? [`Nothing is found by ${unknown.map((w) => `“${shortened(w)}”`).join(", ")}.`] : [];
  return [fit, ...read, ...no].join(" ");
}

const shortened = (w: string): string => (w.length > 24 ? `${w.slice(0, 24)}…` : w);

function ByFamily({ list, job }: { list: readonly Reckoning[]; job: string }) {
  const used = lately.value.flatMap((n) => list.find((r) => r.name === n) ?? []).slice(0, MOST_LATELY);
  const families = [...new Set(list.map((r) => r.family))];
  return (
    <>
      {used.length > 0 && (
        <section aria-label="Lately">
          <h2>Lately</h2>
          <Cards list={used} job={job} again />
        </section>
      )}
      {families.map((f) => (
        <details
          key={f}
          class="fold family"
          data-test={`family-${f}`}
          open={looked.families.has(f)}
          onToggle={(e) => (e.currentTarget.open ? looked.families.add(f) : looked.families.delete(f))}
        >
          <summary>
            {f}
            <small class="quiet">{titlesOf(list.filter((r) => r.family === f))}</small>
          </summary>
          <Cards list={list.filter((r) => r.family === f)} job={job} />
        </details>
      ))}
    </>
  );
}

/** What is inside, in a line that may be cut off. */
const titlesOf = (list: readonly Reckoning[]): string => list.map((r) => r.title).join(" · ");

/** `again`: stands in the list a second time, so a test must not find it twice. */
function Cards({ list, job, again = false }: { list: readonly Reckoning[]; job: string; again?: boolean }) {
  const at = job ? `#/t/${job}/reckon` : "#/reckon";
  return (
    <ul class="cards tight">
      {list.map((r) => (
        <li key={r.name}>
          <a
            class="card asks"
            onClick={(e) => Object.assign(looked, { name: r.name, top: e.currentTarget.getBoundingClientRect().top })}
            href={`${at}/${r.name}`}
            data-test={`${again ? "lately" : "reckon"}-${r.name}`}
          >
            <Icon is="reckon" />
            <span>
              <b>{r.asks}</b>
              <span class="then">{r.title}</span>
            </span>
          </a>
        </li>
      ))}
    </ul>
  );
}

/** The registry, once the library has told it. */
export function useReckonings(): { list: readonly Reckoning[] | null; say: string } {
  const core = useCore();
  const [list, setList] = useState<readonly Reckoning[] | null>(null);
  const [say, setSay] = useState("Looking them up …");
  const ready = core.library.value;
  // Where it could not be fetched, the studio machine is asked again as soon as it is in reach.
  const again = list === null && core.status.value.link === "on";
  useEffect(() => {
    let gone = false;
    core.reckonings().then(
      (l) => gone || setList(l),
      (e: unknown) => gone || setSay(e instanceof Error ? e.message : String(e)),
    );
    return () => {
      gone = true;
    };
  }, [ready, again]);
  return { list, say };
}
