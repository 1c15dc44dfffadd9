// One reckoning: its form drawn from the registry, its answer as one types.
import { useEffect, useRef, useState } from "preact/hooks";
import type { Problem, Reckoning, Result } from "../../core/api";
import { listed } from "../base/words";
import { Icon } from "../parts/icon";
import { Page } from "../parts/page";
import { announce } from "../parts/say";
import { useAboveKeyboard } from "./above-keyboard";
import { Answer } from "./answer";
import { FillIn } from "./fill-in";
import { askedInputs, fieldOf, isAsked, missing, uncertainOf, withoutPlusMinus, type Filled } from "./form";
import { inTwo } from "./in-two";
import { InputField } from "./input-field";
import { Keep, useKeeping } from "./keep";
import { useForgetSearch, useLately, useReckonings } from "./reckonings";
import { RowsField } from "./rows-field";
import { useForm, type FormInUse } from "./use-form";
import { useReckoned } from "./use-reckoned";

/** `job` is the treatment that the person comes from; empty where none. */
export function Reckon({ name, job }: { name: string; job: string }) {
  const { list, say } = useReckonings();
  useForgetSearch();
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
  const form = useForm(r, first);
  const { filled, change } = form;
  const [touched, setTouched] = useState<ReadonlySet<string>>(new Set());
  const answer = useRef<HTMLElement>(null);
  useLately(r.name);
  const asked = askedInputs(r, filled);
  const { result, problems, current } = useReckoned(r.name, asked);
  const keeping = useKeeping(job);
  useSaid(current ? result : null);
  const toAnswer = () => {
    answer.current?.focus({ preventScroll: true });
    answer.current?.scrollIntoView({ block: "start" });
  };

  // What stood in the form when it was judged.
  const judged = useRef(filled);
  if (current) judged.current = filled;
  // An empty field is told only once a person has been there; a wrong one at once, but not for having been empty.
  const fault = (field: string): string => {
    const p = problems.find((x) => fieldOf(r, filled, x.field) === field);
    const tells = isEmptyAt(filled, field) ? touched.has(field) : !isEmptyAt(judged.current, field);
    return p && tells ? p.say : "";
  };
  return (
    <div class="reckon">
      <form
        class="form"
        aria-label={r.title}
        onSubmit={(e) => e.preventDefault()}
        onKeyDown={(e) => {
          if (e.key !== "Enter" || e.isComposing || !(e.target instanceof HTMLInputElement)) return;
          e.preventDefault();
          if (result) toAnswer();
          else toNext(e.currentTarget);
        }}
      >
        <p class="asks">{r.asks}</p>
        <FillIn r={r} job={job} filled={filled} onFill={form.replace} />
        <Fields
          r={r}
          filled={filled}
          onChange={change}
          onLeave={(field) => setTouched((before) => new Set([...before, field]))}
          fault={fault}
        />
        <FormKeys form={form} />
        {result && <Peek of={result} onGo={toAnswer} />}
      </form>
      <section class="answer" aria-label="Answer" tabIndex={-1} ref={answer}>
        {form.example && (
          <p class="quiet" data-test="reckon-is-example">
            These are the figures of an example. Type over them, or start over.
          </p>
        )}
        {result ? (
          <>
            <Answer result={result} />
            {!form.example && <Keep r={r} asked={asked} result={result} current={current} job={job} of={keeping} />}
          </>
        ) : (
          <p class="quiet" role="status" data-test="reckon-wants">
            {wants(r, filled, problems, fault)}
          </p>
        )}
      </section>
    </div>
  );
}

interface FieldsProps {
  r: Reckoning;
  filled: Filled;
  onChange: (f: Filled) => void;
  onLeave: (field: string) => void;
  fault: (field: string) => string;
}

/** The fields that are asked. How uncertain a figure is can be said of each once somebody has asked for that. */
function Fields({ r, filled, onChange, onLeave, fault }: FieldsProps) {
  const [unsure, setUnsure] = useState(false);
  const before = useRef<Filled["values"]>({});
  const shown = r.inputs.filter((i) => !i.of && isAsked(i, r.inputs, filled));
  const canBeUnsure = r.inputs.some((i) => i.of && isAsked(i, r.inputs, filled));
  const withPlusMinus = unsure || uncertainOf(r, filled).length > 0;
  const turn = () => {
    setUnsure(!withPlusMinus);
    if (!withPlusMinus) return onChange({ ...filled, values: { ...filled.values, ...before.current } });
    before.current = Object.fromEntries(uncertainOf(r, filled).map((name) => [name, filled.values[name] ?? ""]));
    onChange(withoutPlusMinus(r, filled));
  };
  return (
    <>
      {shown.map((i) =>
        i.kind === "rows" ? (
          <RowsField key={i.name} input={i} filled={filled} onChange={onChange} onLeave={onLeave} fault={fault} />
        ) : (
          <InputField
            key={i.name}
            input={i}
            plusMinus={withPlusMinus ? r.inputs.find((x) => x.of === i.name) : undefined}
            filled={filled}
            onChange={(next) => onChange({ ...filled, ...next })}
            onLeave={onLeave}
            fault={fault}
          />
        ),
      )}
      {canBeUnsure && (
        <button type="button" class="key" data-test="plus-minus" onClick={turn}>
          {withPlusMinus ? "Take the figures as they are" : "± uncertain?"}
        </button>
      )}
    </>
  );
}

/** The first figure at the foot of a long form. Where there are cautions for people, it leads to them instead. */
function Peek({ of, onGo }: { of: Result; onGo: () => void }) {
  useAboveKeyboard();
  const first = of.values[0];
  const careful = isCareful(of);
  return (
    <button type="button" class="key peek" data-test="peek" onClick={onGo}>
      <Icon is={careful ? "past" : "reckon"} />
      {!careful && first ? (
        <span>
          {first.title} <b>{inTwo(first.shown)[0]}</b>
        </span>
      ) : (
        <span>{inShort(of)}</span>
      )}
    </button>
  );
}

const isCareful = (of: Result): boolean => of.cautions.some((c) => c.about === "people");

/** An answer in a few words, which say no figure where cautions for people come first. */
function inShort(of: Result): string {
  const first = of.values[0];
  if (isCareful(of)) return "The answer, with cautions for people";
  return first ? `${first.title}: ${first.shown}` : "The answer is there";
}

/** A screen reader says an answer in short when nobody has typed for so long. */
const SAID_AFTER_MS = 1200;

function useSaid(result: Result | null): void {
  const say = result ? inShort(result) : "";
  useEffect(() => {
    if (!say) return;
    const timer = setTimeout(() => announce(say), SAID_AFTER_MS);
    return () => clearTimeout(timer);
  }, [say]);
}

/** Enter in a form that has no answer yet leads to what it waits for. */
function toNext(form: HTMLFormElement): void {
  const next =
    form.querySelector<HTMLElement>("input[aria-invalid=true]") ??
    [...form.querySelectorAll<HTMLInputElement>("input[aria-required=true]")].find((f) => f.value === "");
  next?.focus();
}

function FormKeys({ form }: { form: FormInUse }) {
  return (
    <div class="row">
      <button type="button" class="key" data-test="reckon-clear" onClick={form.startOver}>
        <Icon is="erase" />
        Start over
      </button>
      <button type="button" class="key" data-test="reckon-example" onClick={form.showExample}>
        <Icon is="pencil" />
        Fill in an example
      </button>
      {form.putBack && (
        <button type="button" class="key" data-test="reckon-put-back" onClick={form.putBack}>
          <Icon is="back" />
          Back to what stood here
        </button>
      )}
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
  const open = listed(missing(r, filled).map((i) => i.title));
  if (open !== "") return `The answer comes as soon as these are filled in: ${open}.`;
  const unsaid = problems.filter((p) => !fault(fieldOf(r, filled, p.field))).map((p) => p.say);
  if (unsaid.length > 0) return unsaid.join(" ");
  return problems.length > 0 ? "The answer comes as soon as what is marked is put right." : "Reckoning …";
}
