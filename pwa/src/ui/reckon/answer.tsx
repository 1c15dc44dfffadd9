// An answer: first what concerns people, then the figures, then what they rest on.
import type { Caution, Result, Source, Value, Working } from "../../core/api";
import { Icon } from "../parts/icon";
import { inTwo } from "./in-two";
import { Pictures, Tables, Verdicts } from "./parts-of-answer";

/** `open` shows at once how it was reckoned and where that comes from. */
export function Answer({ result, open = false }: { result: Result; open?: boolean }) {
  const others = result.cautions.filter((c) => c.about !== "people");
  return (
    <>
      <PeopleFirst of={result} />
      <Verdicts list={result.verdicts} />
      <dl class="figures">
        {result.values.map((v) => (
          <div key={v.name} data-test={`value-${v.name}`}>
            <dt>{v.title}</dt>
            <dd>
              <Figure of={v} />
            </dd>
          </div>
        ))}
        {result.unknown.map((u) => (
          <div key={u.name} class="unknown" data-test={`unknown-${u.name}`}>
            <dt>{u.title}</dt>
            <dd>
              not known <small>{u.say}</small>
            </dd>
          </div>
        ))}
      </dl>
      <Pictures list={result.pictures} />
      <Tables list={result.tables} />
      <Cautions title="For the object" list={others} />
      <details class="fold" data-test="working" open={open}>
        <summary>How it was reckoned</summary>
        <ol class="working">
          {result.working.map((w) => (
            <WorkingStep key={w.say + w.put} of={w} />
          ))}
        </ol>
      </details>
      <details class="fold" data-test="sources" open={open}>
        <summary>Where it comes from</summary>
        <ul class="sources">
          {result.sources.map((s) => (
            <li key={s.name}>
              <b>{s.name}</b> {s.where} <i>{markSays(s)}</i>
            </li>
          ))}
        </ul>
      </details>
    </>
  );
}

/** Cautions that concern people; they stand above every figure. */
export function PeopleFirst({ of }: { of: Result }) {
  return <Cautions title="For the people at work" list={of.cautions.filter((c) => c.about === "people")} />;
}

/** A figure, and in smaller letters below it what else is said of it. */
export function Figure({ of }: { of: Pick<Value, "shown"> }) {
  const [figure, more] = inTwo(of.shown);
  return (
    <>
      {figure} {more && <small class="spread">{more}</small>}
    </>
  );
}

export function Cautions({ title, list }: { title: string; list: readonly Caution[] }) {
  if (list.length === 0) return null;
  return (
    <section class="cautions" aria-label={title}>
      <h2>
        <Icon is="past" />
        {title}
      </h2>
      <ul>
        {list.map((c) => (
          <li key={c.say}>
            {c.say} {c.source && <small class="quiet">{c.source}</small>}
          </li>
        ))}
      </ul>
    </section>
  );
}

function WorkingStep({ of }: { of: Working }) {
  return (
    <li>
      <p>{of.say}</p>
      {of.formula && <p class="formula">{of.formula}</p>}
      {of.put && <p class="formula">{of.put}</p>}
      {of.source && <p class="quiet">{of.source}</p>}
    </li>
  );
}

/** How well a source is known. */
function markSays(s: Source): string {
  return (
    {
      read: "read at its source",
      memory: "from memory, source not open",
      practice: "common practice, no source",
      computed: "follows from the formula",
      ours: "our own choice, no source found",
    }[s.mark] ?? ""
  );
}
