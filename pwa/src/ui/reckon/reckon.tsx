// One reckoning: its form drawn from the registry, its answer as one types.
import { useState } from "preact/hooks";
import type { Problem, Reckoning } from "../../core/api";
import { keep, recall } from "../base/remember";
import { Page } from "../parts/page";
import { Answer } from "./answer";
import { askedInputs, isAsked, isFilled, missing, startForm, type Filled } from "./form";
import { InputField } from "./input-field";
import { useReckonings } from "./reckonings";
import { useReckoned } from "./use-reckoned";

export function Reckon({ name }: { name: string }) {
  const { list, say } = useReckonings();
  const r = list?.find((x) => x.name === name);
  return (
    <Page title={r?.title ?? "Reckoning"} back={{ to: "#/reckon", say: "Reckonings" }} wide>
      {r ? (
        <Form r={r} />
      ) : (
        <p class="quiet" role="status">
          {list ? "This version has no such reckoning." : say}
        </p>
      )}
    </Page>
  );
}

function Form({ r }: { r: Reckoning }) {
  const key = `reckon.${r.name}`;
  const [filled, setFilled] = useState<Filled>(() => startForm(r, recall<Filled | null>(key, null, isFilled)));
  const [touched, setTouched] = useState<ReadonlySet<string>>(new Set());
  const { result, problems } = useReckoned(r.name, askedInputs(r, filled));

  const change = (next: Filled) => {
    setFilled(next);
    keep(key, next);
  };
  const touch = (field: string) => setTouched(new Set([...touched, field]));
  // An empty field is told only once a person has been there; a wrong one at once.
  const fault = (field: string): string => {
    const p = problems.find((x) => x.field === field);
    const empty = (filled.values[field] ?? "").trim() === "";
    return p && (!empty || touched.has(field)) ? p.say : "";
  };
  const asked = r.inputs.filter((i) => !i.of && isAsked(i, r, filled));
  return (
    <div class="reckon">
      <form class="form" aria-label={r.title} onSubmit={(e) => e.preventDefault()}>
        <p class="asks">{r.asks}</p>
        {asked.map((i) => (
          <InputField
            key={i.name}
            input={i}
            plusMinus={r.inputs.find((x) => x.of === i.name)}
            filled={filled}
            onChange={change}
            onLeave={touch}
            fault={fault}
          />
        ))}
        <button type="button" class="key" data-test="reckon-clear" onClick={() => change(startForm(r, null))}>
          Start over
        </button>
      </form>
      <section class="answer" aria-label="Answer" aria-live="polite">
        {result ? (
          <Answer result={result} />
        ) : (
          <p class="quiet" data-test="reckon-wants">
            {wants(r, filled, problems, fault)}
          </p>
        )}
      </section>
    </div>
  );
}

/** What the answer waits for: what must be filled in, else what no field says by itself. */
function wants(r: Reckoning, filled: Filled, problems: readonly Problem[], fault: (field: string) => string): string {
  const open = missing(r, filled).map((i) => i.title.toLowerCase());
  if (open.length > 0) return `The answer comes as soon as these are filled in: ${open.join(", ")}.`;
  const unsaid = problems.filter((p) => !fault(p.field)).map((p) => p.say);
  if (unsaid.length > 0) return unsaid.join(" ");
  return problems.length > 0 ? "The answer comes as soon as what is marked is put right." : "Reckoning …";
}
