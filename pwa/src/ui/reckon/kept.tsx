// What was reckoned for a treatment and kept with it, and one of these opened again.
import { useMemo } from "preact/hooks";
import type { Kept as Line, Reckoned } from "../../core/api";
import { useCore } from "../base/core";
import { useFetched } from "../log/log";
import { useMinute } from "../base/ticking";
import { when } from "../base/words";
import { Icon } from "../parts/icon";
import { Page } from "../parts/page";
import { fillFrom } from "./form";
import { differences, PROGRAM } from "./kept-body";
import { Form } from "./reckon";
import { Figure, PeopleFirst } from "./answer";
import { useReckonings } from "./reckonings";
import { useReckoned } from "./use-reckoned";

export function KeptList({ job }: { job: string }) {
  const core = useCore();
  const now = useMinute();
  const state = core.dossier(job).value;
  const kept = state?.reckoned ?? [];
  useFetched(job, state === null);
  if (kept.length === 0) return null;
  return (
    <section aria-label="Kept with this treatment">
      <h2>Kept with this treatment</h2>
      <ul class="cards tight">
        {[...kept].reverse().map((k) => (
          <li key={k.entry}>
            <a class="card asks" href={`#/t/${job}/reckoned/${k.entry}`} data-test="kept">
              <Icon is="tick" />
              <span>
                <b>{k.title || k.name}</b>
                <span class="then">
                  {k.values
                    .slice(0, 2)
                    .map((v) => `${v.title}: ${v.shown}`)
                    .join("; ")}
                </span>
                <small class="quiet">
                  {k.by}, {when(k.at.ms, now)}
                  {k.text && `: ${k.text}`}
                </small>
              </span>
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** One that was kept: as it was, and as it is reckoned today. */
export function KeptAgain({ job, entry }: { job: string; entry: string }) {
  const core = useCore();
  const state = core.dossier(job).value;
  const kept = state?.reckoned.find((k) => k.entry === entry);
  useFetched(job, state === null);
  const { list, say } = useReckonings();
  const r = list?.find((x) => x.name === kept?.name);
  const back = { to: `#/t/${job}/reckon`, say: "Reckonings" };
  if (!kept) {
    return (
      <Page title="Reckoning" back={back}>
        <p class="quiet">It is not in this treatment's log as far as this device has it, or was struck.</p>
      </Page>
    );
  }
  return (
    <Page title={kept.title || kept.name} back={back} wide>
      {r ? (
        <Again kept={kept} r={r} job={job} />
      ) : (
        <>
          <AsKept kept={kept} />
          <p class="quiet" role="status">
            {list ? "This version has no such reckoning, so its cautions cannot be shown either." : say}
          </p>
        </>
      )}
    </Page>
  );
}

function AsKept({ kept }: { kept: Reckoned }) {
  const now = useMinute();
  return (
    <section class="as-kept" aria-label="As it was kept">
      <h2>As it was kept</h2>
      <p class="quiet">
        {kept.by}, {when(kept.at.ms, now)}, with {kept.program}.
      </p>
      {kept.text && <p>{kept.text}</p>}
      <dl class="figures">
        {kept.values.map((v: Line) => (
          <div key={v.name} class={v.value === "" ? "in-words" : undefined} data-test={`kept-${v.name}`}>
            <dt>{v.title}</dt>
            <dd>{v.value === "" ? v.shown : <Figure of={v} />}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

function Again({ kept, r, job }: { kept: Reckoned; r: Parameters<typeof Form>[0]["r"]; job: string }) {
  const inputs = useMemo(() => JSON.parse(kept.inputs) as Record<string, unknown>, [kept.inputs]);
  const { result, problems } = useReckoned(r.name, inputs);
  const differ = result && differences(kept.values, result);
  return (
    <>
      {result && <PeopleFirst of={result} />}
      <AsKept kept={kept} />
      <section aria-label="Reckoned again" data-test="again">
        <h2>Reckoned again from the same inputs</h2>
        {problems.length > 0 && (
          <p class="fault">This version refuses these inputs: {problems.map((p) => p.say).join(" ")}</p>
        )}
        {differ && differ.length === 0 && (
          <p class="agrees" data-test="again-same">
            <Icon is="tick" />
            {kept.program === PROGRAM ? "The same program" : "Today's program"} gives the same figures.
          </p>
        )}
        {differ && differ.length > 0 && (
          <>
            <p class="fault" data-test="again-differs">
              <Icon is="past" /> Today's program gives other figures. What was kept stays as it was.
            </p>
            <ul class="facts">
              {differ.map((d) => (
                <li key={d.title}>
                  {d.title}: {d.then || "was not there"} then, {d.now || "not there"} now.
                </li>
              ))}
            </ul>
          </>
        )}
      </section>
      <h2>Its form</h2>
      <Form r={r} job={job} first={fillFrom(r, inputs)} />
    </>
  );
}
