// An input that is a table: one card for each row, which a thumb can fill.
import { useLayoutEffect, useRef } from "preact/hooks";
import type { Input } from "../../core/api";
import { Alert } from "../parts/field";
import { Icon } from "../parts/icon";
import { isAsked, startCells, type Cells, type Filled } from "./form";
import { InputField } from "./input-field";

interface RowsFieldProps {
  input: Input;
  filled: Filled;
  onChange: (f: Filled) => void;
  onLeave: (field: string) => void;
  fault: (field: string) => string;
}

export function RowsField({ input, filled, onChange, onLeave, fault }: RowsFieldProps) {
  const rows = filled.rows?.[input.name] ?? [];
  const set = (next: Cells[]) => onChange({ ...filled, rows: { ...filled.rows, [input.name]: next } });
  const list = useRef<HTMLOListElement>(null);
  const goTo = useRef(-1);
  // Who adds a row goes on typing in it; who takes one away stays near.
  useLayoutEffect(() => {
    if (goTo.current < 0) return;
    list.current?.children[goTo.current]?.querySelector<HTMLElement>("input, select")?.focus();
    goTo.current = -1;
  }, [rows.length]);
  const add = () => {
    goTo.current = rows.length;
    set([...rows, startCells(input.columns, null)]);
  };
  const drop = (at: number) => {
    goTo.current = Math.max(0, at - 1);
    set(rows.filter((_, i) => i !== at));
  };
  const whole = fault(input.name);
  return (
    <fieldset class="table-field" data-test={`rows-${input.name}`}>
      <legend>
        {input.title} {input.optional && <small class="optional">may be left empty</small>}
      </legend>
      {input.help && <p class="help">{input.help}</p>}
      <Alert say={whole} />
      <ol ref={list}>
        {rows.map((cells, at) => (
          <li key={at} class="row-card">
            <div class="row-top">
              <b>{at + 1}</b>
              <button
                type="button"
                class="key small"
                aria-label={`Take row ${at + 1} of ${input.title} away`}
                data-test={`drop-${input.name}-${at}`}
                disabled={rows.length === 1}
                onClick={() => drop(at)}
              >
                <Icon is="cross" />
              </button>
            </div>
            <div class="row-cells">
              {input.columns
                .filter((c) => isAsked(c, input.columns, cells))
                .map((c) => (
                  <InputField
                    key={c.name}
                    input={c}
                    hook={`${input.name}-${at}-${c.name}`}
                    filled={cells}
                    onChange={(next) => set(rows.map((row, i) => (i === at ? next : row)))}
                    onLeave={() => onLeave(`${input.name}.${at}.${c.name}`)}
                    fault={() => fault(`${input.name}.${at}.${c.name}`)}
                  />
                ))}
            </div>
          </li>
        ))}
      </ol>
      <button
        type="button"
        class="key"
        data-test={`add-${input.name}`}
        disabled={rows.length >= input.max_rows}
        onClick={add}
      >
        <Icon is="more" />
        Add a row
      </button>
      {rows.length >= input.max_rows && <p class="quiet">{input.max_rows} rows at most.</p>}
    </fieldset>
  );
}
