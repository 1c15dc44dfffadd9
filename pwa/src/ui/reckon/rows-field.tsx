// An input that is a table: one card for each row, which a thumb can fill.
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import type { Input } from "../../core/api";
import { Alert } from "../parts/field";
import { Icon } from "../parts/icon";
import { isAsked, isTypedIn, startCells, type Cells, type Filled } from "./form";
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
  const keys = useRef<HTMLDivElement>(null);
  const goTo = useRef<number | "keys">(-1);
  // The row that was taken away last, while nothing else was done to the table.
  const [gone, setGone] = useState<{ at: number; cells: Cells; left: number } | null>(null);
  const canPutBack = gone !== null && gone.left === rows.length;
  // Who adds a row goes on typing in it; who takes one away can put it back.
  useLayoutEffect(() => {
    const to = goTo.current;
    goTo.current = -1;
    if (to === "keys") keys.current?.querySelector<HTMLElement>("button:not(:disabled)")?.focus();
    else if (to >= 0) list.current?.children[to]?.querySelector<HTMLElement>("input, select")?.focus();
  }, [rows.length]);
  const add = () => {
    goTo.current = rows.length;
    setGone(null);
    set([...rows, startCells(input.columns, null)]);
  };
  const drop = (at: number) => {
    const cells = rows[at];
    goTo.current = "keys";
    setGone(cells && isTypedIn(input.columns, cells) ? { at, cells, left: rows.length - 1 } : null);
    set(rows.filter((_, i) => i !== at));
  };
  const putBack = () => {
    if (!gone) return;
    goTo.current = gone.at;
    setGone(null);
    set([...rows.slice(0, gone.at), gone.cells, ...rows.slice(gone.at)]);
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
                aria-label={`Take away row ${at + 1} of ${input.title}`}
                data-test={`drop-${input.name}-${at}`}
                disabled={rows.length === 1}
                onClick={() => drop(at)}
              >
                <Icon is="cross" />
                Take away
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
      <div class="row" ref={keys}>
        {canPutBack && (
          <button type="button" class="key" data-test={`restore-${input.name}`} onClick={putBack}>
            <Icon is="back" />
            Put row {gone.at + 1} back
          </button>
        )}
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
      </div>
      {rows.length >= input.max_rows && <p class="quiet">{input.max_rows} rows at most.</p>}
    </fieldset>
  );
}
