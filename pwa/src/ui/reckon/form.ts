// A reckoning's form as data: what is filled in, which fields are asked, what is sent to the library.
import type { Input, Reckoning } from "../../core/api";
import { isTextMap, keep, recall } from "../base/remember";

/** One form, or one row of a table. */
export interface Cells {
  /** By the input's name; text as typed. */
  values: Record<string, string>;
  /** The unit chosen for an input. */
  units: Record<string, string>;
}

export interface Filled extends Cells {
  /** The rows of an input that is a table. */
  rows?: Record<string, Cells[]>;
}

export function startForm(r: Pick<Reckoning, "inputs">, before: Filled | null): Filled {
  const cells = startCells(r.inputs, before);
  const tables = r.inputs.filter((i) => i.kind === "rows");
  if (tables.length === 0) return cells;
  const rows: Record<string, Cells[]> = {};
  for (const i of tables) {
    const kept = before?.rows?.[i.name] ?? [];
    rows[i.name] = (kept.length > 0 ? kept : [null]).map((row) => startCells(i.columns, row));
  }
  return { ...cells, rows };
}

export function startCells(inputs: readonly Input[], before: Cells | null): Cells {
  const values: Record<string, string> = {};
  const units: Record<string, string> = {};
  for (const i of inputs) {
    if (i.kind === "rows") continue;
    const kept = before?.values[i.name];
    const first = i.default || (i.kind === "choice" ? (i.choices[0]?.value ?? "") : "");
    // What another version offered to choose may be gone.
    const there = i.kind !== "choice" || i.choices.some((c) => c.value === kept);
    values[i.name] = kept !== undefined && there ? kept : first;
    const unit = before?.units[i.name] ?? usualUnit(i);
    units[i.name] = i.units.includes(unit) ? unit : i.unit;
  }
  return { values, units };
}

/** Whether an input is asked, given the choices that have been made. */
export function isAsked(i: Input, inputs: readonly Input[], f: Cells): boolean {
  if (i.of) {
    const of = inputs.find((x) => x.name === i.of);
    if (of && !isAsked(of, inputs, f)) return false;
  }
  return !i.when || i.is.includes(f.values[i.when] ?? "");
}

/**
 * A form after a change to it, where another change came first that the screen had not drawn yet: a browser that fills
 * several fields at once makes them from one and the same form.
 */
export function together(drawn: Filled, changed: Filled, now: Filled): Filled {
  const out: Filled = {
    values: { ...now.values, ...news(drawn.values, changed.values) },
    units: { ...now.units, ...news(drawn.units, changed.units) },
  };
  const rows = { ...now.rows, ...news(drawn.rows ?? {}, changed.rows ?? {}) };
  return now.rows || changed.rows ? { ...out, rows } : out;
}

const news = <T>(before: Record<string, T>, after: Record<string, T>): Record<string, T> =>
  Object.fromEntries(Object.entries(after).filter(([k, v]) => before[k] !== v));

/** What the library is asked: values with their units, empty fields left out. */
export function askedInputs(r: Pick<Reckoning, "inputs">, f: Filled): Record<string, unknown> {
  const out = askedCells(r.inputs, f);
  for (const i of r.inputs) {
    if (i.kind !== "rows" || !isAsked(i, r.inputs, f)) continue;
    const rows = sentRows(i, f).map((row) => askedCells(i.columns, row.cells));
    if (rows.length > 0) out[i.name] = rows;
  }
  return out;
}

function askedCells(inputs: readonly Input[], f: Cells): Record<string, unknown> {
  const out: Record<string, unknown> = {};
  for (const i of inputs) {
    if (i.kind === "rows") continue;
    const value = (f.values[i.name] ?? "").trim();
    if (value === "" || !isAsked(i, inputs, f)) continue;
    out[i.name] = i.units.length > 0 && !i.of ? { value, unit: f.units[i.name] } : value;
  }
  return out;
}

/** The rows in which something is typed, with their places in the table. */
export function sentRows(i: Input, f: Filled): { at: number; cells: Cells }[] {
  return (f.rows?.[i.name] ?? [])
    .map((cells, at) => ({ at, cells }))
    .filter(({ cells }) => isTypedIn(i.columns, cells));
}

/** Something is in a row that was not there from the start. */
export const isTypedIn = (columns: readonly Input[], row: Cells): boolean => columns.some((c) => isTyped(c, row));

/** The same of one field. */
function isTyped(i: Input, f: Cells): boolean {
  const v = (f.values[i.name] ?? "").trim();
  return i.kind !== "choice" && v !== "" && v !== i.default;
}

/** Inputs that must be filled and are not. A table lacks its first row, or what a row of it lacks. */
export function missing(r: Pick<Reckoning, "inputs">, f: Filled): Input[] {
  return r.inputs.filter((i) => {
    if (!isAsked(i, r.inputs, f)) return false;
    if (i.kind !== "rows") return lacks(i, f);
    const rows = sentRows(i, f);
    if (rows.length === 0) return !i.optional;
    return rows.some(({ cells }) => i.columns.some((c) => isAsked(c, i.columns, cells) && lacks(c, cells)));
  });
}

const lacks = (i: Input, f: Cells) => !i.optional && (f.values[i.name] ?? "").trim() === "";

/**
 * The field of this form that a problem is about: rows are told of by their number among those that were sent, and
 * shown by their place.
 */
export function fieldOf(r: Pick<Reckoning, "inputs">, f: Filled, told: string): string {
  const [table = "", n, column] = told.split(".");
  const i = r.inputs.find((x) => x.name === table && x.kind === "rows");
  if (!i || n === undefined) return told;
  const at = sentRows(i, f)[Number(n) - 1]?.at;
  if (at === undefined) return table;
  return column === undefined ? table : `${table}.${at}.${column}`;
}

/** "0.01 to 5000 L", in the unit that is chosen. */
export function rangeSays(i: Input, unit: string): string {
  const range = i.ranges.find((x) => x.unit === unit);
  if (!range || (range.min === 0 && range.max === 0)) return "";
  return `${grouped(range.min)} to ${grouped(range.max)}${unit ? ` ${unit}` : ""}`;
}

/** Long numbers in groups of three: 1 000 000. */
export function grouped(x: number): string {
  const text = String(x);
  return Math.abs(x) >= 10_000 && /^-?\d+$/.test(text) ? text.replace(/\B(?=(\d{3})+$)/g, "\u00a0") : text;
}

/** The ± fields of a form that something is typed in. */
export function uncertainOf(r: Pick<Reckoning, "inputs">, f: Cells): string[] {
  return r.inputs.filter((i) => i.of && (f.values[i.name] ?? "").trim() !== "").map((i) => i.name);
}

/** A form whose figures are taken as they are: nothing in its ± fields. */
export function withoutPlusMinus(r: Pick<Reckoning, "inputs">, f: Filled): Filled {
  const none = Object.fromEntries(r.inputs.filter((i) => i.of).map((i) => [i.name, ""]));
  return { ...f, values: { ...f.values, ...none } };
}

/** An answer of a form that is kept as JSON: an example, or what was asked before. */
export function fillFrom(r: Pick<Reckoning, "inputs">, asked: Readonly<Record<string, unknown>>): Filled {
  const filled = startForm(r, null);
  for (const i of r.inputs) {
    const v = asked[i.name];
    if (i.kind !== "rows") put(filled, i, v);
    else if (Array.isArray(v) && filled.rows) {
      filled.rows[i.name] = v.map((row: unknown) => {
        const cells = startCells(i.columns, null);
        if (isObject(row)) for (const c of i.columns) put(cells, c, row[c.name]);
        return cells;
      });
    }
  }
  return filled;
}

function put(f: Cells, i: Input, v: unknown): void {
  if (v === undefined || v === null) {
    if (i.optional && i.default === "") f.values[i.name] = "";
    return;
  }
  const { value, unit } = isObject(v) ? v : apart(v, i);
  f.units[i.name] = typeof unit === "string" && i.units.includes(unit) ? unit : i.unit;
  if (typeof value === "string" || typeof value === "number") f.values[i.name] = String(value);
}

/** "24 in" as its number and its unit, where that is one of the input's. */
function apart(v: unknown, i: Input): { value: unknown; unit?: string } {
  const [, value, unit = ""] = (typeof v === "string" && /^(.*\d)\s*(\D.*)$/.exec(v.trim())) || [];
  return i.units.includes(unit) ? { value, unit } : { value: v };
}

const isObject = (v: unknown): v is Record<string, unknown> => typeof v === "object" && v !== null && !Array.isArray(v);

// Units are remembered over all reckonings: by what kind of input they were chosen for, which the list of its units
// tells, and by its own unit, so that a dose in mL does not make a bath be asked for in mL.
const unitKey = (i: Input): string => `${i.unit}|${[...i.units].sort().join(" ")}`;

function usualUnit(i: Input): string {
  return i.units.length > 1 ? (recall("reckonUnits", {}, isTextMap)[unitKey(i)] ?? i.unit) : i.unit;
}

export function rememberUnit(i: Input, unit: string): void {
  keep("reckonUnits", { ...recall("reckonUnits", {}, isTextMap), [unitKey(i)]: unit });
}

function isCells(v: unknown): v is Cells {
  return isObject(v) && isTextMap(v["values"]) && isTextMap(v["units"]);
}

export function isFilled(v: unknown): v is Filled {
  if (!isCells(v)) return false;
  const rows = (v as Filled).rows;
  return (
    rows === undefined || (isObject(rows) && Object.values(rows).every((r) => Array.isArray(r) && r.every(isCells)))
  );
}
