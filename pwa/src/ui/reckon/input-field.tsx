import type { Input } from "../../core/api";
import { Field, type FieldIds } from "../parts/field";
import { rangeSays, rememberUnit, type Cells } from "./form";

interface InputFieldProps {
  input: Input;
  /** The field that says how far this one may be off. */
  plusMinus?: Input | undefined;
  /** What a test finds it by; its name where nothing else is said. */
  hook?: string;
  filled: Cells;
  onChange: (f: Cells) => void;
  onLeave: (field: string) => void;
  fault: (field: string) => string;
}

export function InputField({ input, plusMinus, hook = input.name, filled, onChange, onLeave, fault }: InputFieldProps) {
  const setValue = (name: string, v: string) => onChange({ ...filled, values: { ...filled.values, [name]: v } });
  const unit = filled.units[input.name] ?? input.unit;
  const said = fault(input.name) || (plusMinus ? fault(plusMinus.name) : "");
  return (
    <Field
      label={<Title input={input} />}
      fault={said}
      help={<Help input={input} unit={unit} value={filled.values[input.name] ?? ""} />}
    >
      {(ids) => (
        <div class="with-unit">
          {input.kind === "choice" ? (
            <Choose
              ids={ids}
              input={input}
              hook={hook}
              value={filled.values[input.name] ?? ""}
              onValue={(v) => setValue(input.name, v)}
            />
          ) : (
            <input
              {...ids}
              type="text"
              inputMode={keyboardFor(input, unit)}
              maxLength={MOST_LETTERS}
              aria-required={!input.optional}
              autocomplete="off"
              data-test={`input-${hook}`}
              value={filled.values[input.name] ?? ""}
              onInput={(e) => setValue(input.name, e.currentTarget.value)}
              onBlur={() => onLeave(input.name)}
            />
          )}
          {plusMinus && (
            <PlusMinus
              input={plusMinus}
              value={filled.values[plusMinus.name] ?? ""}
              onValue={(v) => setValue(plusMinus.name, v)}
            />
          )}
          <UnitPick
            input={input}
            hook={hook}
            unit={unit}
            onUnit={(u) => {
              rememberUnit(input, u);
              onChange({ ...filled, units: { ...filled.units, [input.name]: u } });
            }}
          />
        </div>
      )}
    </Field>
  );
}

function PlusMinus({ input, value, onValue }: { input: Input; value: string; onValue: (v: string) => void }) {
  return (
    <label class="plus-minus">
      <span aria-hidden="true">±</span>
      <span class="unseen">{input.title}</span>
      <input
        type="text"
        inputMode="decimal"
        maxLength={MOST_LETTERS}
        autocomplete="off"
        data-test={`input-${input.name}`}
        value={value}
        onInput={(e) => onValue(e.currentTarget.value)}
      />
    </label>
  );
}

function Title({ input }: { input: Input }) {
  return (
    <>
      {input.title} {input.optional && <small class="optional">may be left empty</small>}
    </>
  );
}

/** More is no figure, no name and no row of them; a whole file that is pasted would fill what this device can
 * remember. */
const MOST_LETTERS = 4000;

/** Some phones have no minus on their keys for figures, and none the strokes of 12 3/8 and 5' 6". */
const keyboardFor = (i: Input, unit: string): "text" | "decimal" =>
  i.kind === "text" || i.kind === "series" || i.min < 0 || unit === "in" || unit === "ft" ? "text" : "decimal";

function Help({ input, unit, value }: { input: Input; unit: string; value: string }) {
  const range = rangeSays(input, unit);
  const chosen = input.kind === "choice" ? input.choices.find((c) => c.value === value)?.title : undefined;
  return (
    <>
      <WholeChoice title={chosen} />
      {input.help} {range && <span class="range">From {range}.</span>}
    </>
  );
}

interface ChooseProps {
  ids: FieldIds;
  input: Input;
  hook: string;
  value: string;
  onValue: (v: string) => void;
}

function Choose({ ids, input, hook, value, onValue }: ChooseProps) {
  return (
    <select {...ids} data-test={`input-${hook}`} value={value} onChange={(e) => onValue(e.currentTarget.value)}>
      {input.choices.map((c) => (
        <option key={c.value} value={c.value}>
          {c.title}
        </option>
      ))}
    </select>
  );
}

function UnitPick({
  input,
  hook,
  unit,
  onUnit,
}: {
  input: Input;
  hook: string;
  unit: string;
  onUnit: (u: string) => void;
}) {
  if (input.units.length === 0) return input.unit ? <span class="unit">{input.unit}</span> : null;
  if (input.units.length === 1) return <span class="unit">{input.units[0]}</span>;
  return (
    <select
      class="unit"
      aria-label={`Unit of ${input.title}`}
      data-test={`unit-${hook}`}
      value={unit}
      onChange={(e) => onUnit(e.currentTarget.value)}
    >
      {input.units.map((u) => (
        <option key={u} value={u}>
          {u}
        </option>
      ))}
    </select>
  );
}

/** A field on a phone shows no more letters of a choice. */
const LONG_CHOICE = 30;

/** What is chosen, where its field is too narrow to show it. A screen reader has it from the field. */
export function WholeChoice({ title = "" }: { title?: string | undefined }) {
  if (title.length <= LONG_CHOICE) return null;
  return (
    <span class="whole-choice" aria-hidden="true">
      {title}
    </span>
  );
}
