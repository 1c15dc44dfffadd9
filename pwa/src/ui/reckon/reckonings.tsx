// The list of reckonings, by what a person wants to know.
import { useEffect, useState } from "preact/hooks";
import type { Reckoning } from "../../core/api";
import { useCore } from "../base/core";
import { Icon } from "../parts/icon";
import { Page } from "../parts/page";

export function Reckonings() {
  const { list, say } = useReckonings();
  return (
    <Page title="What do you want to know?" back={{ to: "#/", say: "Now" }}>
      {!list && (
        <p class="quiet" role="status">
          {say}
        </p>
      )}
      <ul class="cards tight">
        {list?.map((r) => (
          <li key={r.name}>
            <a class="card asks" href={`#/reckon/${r.name}`} data-test={`reckon-${r.name}`}>
              <Icon is="reckon" />
              <span>
                <b>{r.asks}</b>
                <span class="then">{r.title}</span>
              </span>
            </a>
          </li>
        ))}
      </ul>
    </Page>
  );
}

/** The registry, once the core has told it. */
export function useReckonings(): { list: readonly Reckoning[] | null; say: string } {
  const core = useCore();
  const [list, setList] = useState<readonly Reckoning[] | null>(null);
  const [say, setSay] = useState("Looking them up …");
  const ready = core.library.value;
  useEffect(() => {
    let gone = false;
    core.reckonings().then(
      (l) => gone || setList(l),
      (e: unknown) => gone || setSay(e instanceof Error ? e.message : String(e)),
    );
    return () => {
      gone = true;
    };
  }, [ready]);
  return { list, say };
}
