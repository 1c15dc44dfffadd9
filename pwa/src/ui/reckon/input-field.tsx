import type { Input } from "../../core/api";
import { Field, type FieldIds } from "../parts/field";
import { rangeSays, type Filled } from "./form";

interface InputFieldProps {
  input: Input;
  /** The field that says how far this one may be off. */
  plusMinus: Input | undefined;
  filled: Filled;
  onChange: (f: Filled) => void;
  onLeave: (field: string) => void;
  fault: (field: string) => string;
}

export function InputField({ input, plusMinus, filled, onChange, onLeave, fault }: InputFieldProps) {
  const setValue = (name: string, v: string) => onChange({ ...filled, values: { ...filled.values, [name]: v } });
  const unit = filled.units[input.name] ?? input.unit;
  const said = fault(input.name) || (plusMinus ? fault(plusMinus.name) : "");
  return (
    <Field label={<Title input={input} />} fault={said} help={<Help input={input} unit={unit} />}>
      {(ids) => (
        <div class="with-unit">
          {input.kind === "choice" ? (
            <Choose
              ids={ids}
              input={input}
              value={filled.values[input.name] ?? ""}
              onValue={(v) => setValue(input.name, v)}
            />
          ) : (
            <input
              {...ids}
              type="text"
              inputMode={input.kind === "text" || input.kind === "series" ? "text" : "decimal"}
              autocomplete="off"
              data-test={`input-${input.name}`}
              value={filled.values[input.name] ?? ""}
              onInput={(e) => setValue(input.name, e.currentTarget.value)}
              onBlur={() => onLeave(input.name)}
            />
          )}
          {plusMinus && (
            <label class="plus-minus">
              <span aria-hidden="true">±</span>
              <span class="unseen">{plusMinus.title}</span>
              <input
                type="text"
                inputMode="decimal"
                autocomplete="off"
                data-test={`input-${plusMinus.name}`}
                value={filled.values[plusMinus.name] ?? ""}
                onInput={(e) => setValue(plusMinus.name, e.currentTarget.value)}
              />
            </label>
          )}
          <UnitPick
            input={input}
            unit={unit}
            onUnit={(u) => onChange({ ...filled, units: { ...filled.units, [input.name]: u } })}
          />
        </div>
      )}
    </Field>
  );
}

function Title({ input }: { input: Input }) {
  return (
    <>
      {input.title} {input.optional && <small class="optional">may be left empty</small>}
    </>
  );
}

function Help({ input, unit }: { input: Input; unit: string }) {
  const range = rangeSays(input, unit);
  return (
    <>
      {input.help} {range && <span class="range">From {range}.</span>}
    </>
  );
}

interface ChooseProps {
  ids: FieldIds;
  input: Input;
  value: string;
  onValue: (v: string) => void;
}

function Choose({ ids, input, value, onValue }: ChooseProps) {
  return (
    <select {...ids} data-test={`input-${input.name}`} value={value} onChange={(e) => onValue(e.currentTarget.value)}>
      {input.choices.map((c) => (
        <option key={c.value} value={c.value}>
          {c.title}
        </option>
      ))}
    </select>
  );
}

function UnitPick({ input, unit, onUnit }: { input: Input; unit: string; onUnit: (u: string) => void }) {
  if (input.units.length === 0) return input.unit ? <span class="unit">{input.unit}</span> : null;
  if (input.units.length === 1) return <span class="unit">{input.units[0]}</span>;
  return (
    <select
      class="unit"
      aria-label={`Unit of ${input.title}`}
      data-test={`unit-${input.name}`}
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
