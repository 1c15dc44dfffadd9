// One reckoning: its form drawn from the registry, its answer as one types.
import { useState } from "preact/hooks";
import type { Problem, Reckoning } from "../../core/api";
import { keep, recall } from "../base/remember";
import { Icon } from "../parts/icon";
import { Page } from "../parts/page";
import { Answer } from "./answer";
import { FillIn } from "./fill-in";
import { askedInputs, fieldOf, fillFrom, isAsked, isFilled, missing, startForm, type Filled } from "./form";
import { InputField } from "./input-field";
import { Keep } from "./keep";
import { useLately, useReckonings } from "./reckonings";
import { RowsField } from "./rows-field";
import { useReckoned } from "./use-reckoned";

/** `job` is the treatment that the person comes from; empty where none. */
export function Reckon({ name, job }: { name: string; job: string }) {
  const { list, say } = useReckonings();
  const r = list?.find((x) => x.name === name);
  const back = { to: job ? `#/t/${job}/reckon` : "#/reckon", say: "Reckonings" };
  return (
    <Page title={r?.title ?? "Reckoning"} back={back} wide>
      {r ? (
        <Form r={r} job={job} />
      ) : (
        <p class="quiet" role="status">
          {list ? "This version has no such reckoning." : say}
        </p>
      )}
    </Page>
  );
}

interface FormProps {
  r: Reckoning;
  job: string;
  /** What the form begins with, in place of what this device remembers; then it is not remembered either. */
  first?: Filled;
}

export function Form({ r, job, first }: FormProps) {
  const key = `reckon.${r.name}`;
  const [filled, setFilled] = useState<Filled>(() => first ?? startForm(r, recall<Filled | null>(key, null, isFilled)));
  const [touched, setTouched] = useState<ReadonlySet<string>>(new Set());
  useLately(r.name);
  const asked = askedInputs(r, filled);
  const { result, problems, current } = useReckoned(r.name, asked);

  const change = (next: Filled) => {
    setFilled(next);
    if (!first) keep(key, next);
  };
  const touch = (field: string) => setTouched((before) => new Set([...before, field]));
  // An empty field is told only once a person has been there; a wrong one at once.
  const fault = (field: string): string => {
    const p = problems.find((x) => fieldOf(r, filled, x.field) === field);
    return p && (!isEmptyAt(filled, field) || touched.has(field)) ? p.say : "";
  };
  const shown = r.inputs.filter((i) => !i.of && isAsked(i, r.inputs, filled));
  return (
    <div class="reckon">
      <form class="form" aria-label={r.title} onSubmit={(e) => e.preventDefault()}>
        <p class="asks">{r.asks}</p>
        <FillIn r={r} job={job} filled={filled} onFill={change} />
        {shown.map((i) =>
          i.kind === "rows" ? (
            <RowsField key={i.name} input={i} filled={filled} onChange={change} onLeave={touch} fault={fault} />
          ) : (
            <InputField
              key={i.name}
              input={i}
              plusMinus={r.inputs.find((x) => x.of === i.name)}
              filled={filled}
              onChange={(next) => change({ ...filled, ...next })}
              onLeave={touch}
              fault={fault}
            />
          ),
        )}
        <div class="row">
          <button type="button" class="key" data-test="reckon-clear" onClick={() => change(startForm(r, null))}>
            <Icon is="erase" />
            Start over
          </button>
          <button
            type="button"
            class="key"
            data-test="reckon-example"
            onClick={() => change(fillFrom(r, JSON.parse(r.example) as Record<string, unknown>))}
          >
            <Icon is="pencil" />
            Fill in an example
          </button>
        </div>
      </form>
      <section class="answer" aria-label="Answer" aria-live="polite">
        {result ? (
          <>
            <Answer result={result} />
            {current && <Keep r={r} asked={asked} result={result} job={job} />}
          </>
        ) : (
          <p class="quiet" data-test="reckon-wants">
            {wants(r, filled, problems, fault)}
          </p>
        )}
      </section>
    </div>
  );
}

function isEmptyAt(f: Filled, field: string): boolean {
  const [table = "", at, column = ""] = field.split(".");
  const value = at === undefined ? f.values[table] : f.rows?.[table]?.[Number(at)]?.values[column];
  return (value ?? "").trim() === "";
}

/** What the answer waits for: what must be filled in, else what no field says by itself. */
function wants(r: Reckoning, filled: Filled, problems: readonly Problem[], fault: (field: string) => string): string {
  const open = missing(r, filled).map((i) => i.title.toLowerCase());
  if (open.length > 0) return `The answer comes as soon as these are filled in: ${open.join(", ")}.`;
  const unsaid = problems.filter((p) => !fault(fieldOf(r, filled, p.field))).map((p) => p.say);
  if (unsaid.length > 0) return unsaid.join(" ");
  return problems.length > 0 ? "The answer comes as soon as what is marked is put right." : "Reckoning …";
}
