// A plan of baths while it is being made: everything as typed, and what becomes of it when it is kept.
import type { Plan, PlannedBath, Shelf, State } from "../../core/api";
import { targetSeconds } from "../sink/bath";
import { isWhat, KINDS, type What } from "../sink/kinds";
import type { Wrong } from "../base/acts";

/** One planned bath as typed. */
export interface Row {
  /** Keeps its place on the screen when the rows move. */
  key: number;
  what: string;
  liquid: string;
  /** Batch on the shelf. */
  batch: string;
  /** The liquid is typed, not chosen. */
  own: boolean;
  litres: string;
  minutes: string;
  /** °C */
  temp: string;
}

export interface PlanDraft {
  /** The plans that stood when it was begun, and that it replaces. */
  over: string[];
  rows: Row[];
}

export function draftOf(plans: readonly Plan[]): PlanDraft {
  const baths = plans.length === 1 ? (plans[0]?.baths ?? []) : [];
  return { over: plans.map((p) => p.entry), rows: baths.map((b, i) => rowOf(b, i + 1)) };
}

function rowOf(b: PlannedBath, key: number): Row {
  const minutes = b.target_s > 0 ? String(b.target_s / 60) : "";
  return { key, what: b.what, liquid: b.liquid, batch: b.batch, own: false, litres: b.litres, minutes, temp: b.temp_c };
}

function nextKey(rows: readonly Row[]): number {
  return rows.reduce((most, r) => Math.max(most, r.key), 0) + 1;
}

/** A further bath, like the last of its kind in the plan; else with the litres and warmth of the last one. */
export function addRow(d: PlanDraft, what: What): PlanDraft {
  const same = d.rows.filter((r) => r.what === what).at(-1);
  const last = d.rows.at(-1);
  const blank = { what, liquid: "", batch: "", own: false, litres: "", minutes: "", temp: "" };
  const like = same ?? (last && what !== "drying" ? { ...blank, litres: last.litres, temp: last.temp } : blank);
  return { ...d, rows: [...d.rows, { ...like, key: nextKey(d.rows) }] };
}

export function changeRow(d: PlanDraft, key: number, change: Partial<Row>): PlanDraft {
  return { ...d, rows: d.rows.map((r) => (r.key === key ? { ...r, ...change } : r)) };
}

export function removeRow(d: PlanDraft, key: number): PlanDraft {
  return { ...d, rows: d.rows.filter((r) => r.key !== key) };
}

/** The same bath once more, right behind it. */
export function repeatRow(d: PlanDraft, key: number): PlanDraft {
  return {
    ...d,
    rows: d.rows.flatMap((r) => (r.key === key ? [r, { ...r, key: nextKey(d.rows) }] : [r])),
  };
}

/** One place up (-1) or down (1); at the edge it stays. */
export function moveRow(d: PlanDraft, key: number, by: -1 | 1): PlanDraft {
  const from = d.rows.findIndex((r) => r.key === key);
  const to = from + by;
  const row = d.rows[from];
  if (!row || to < 0 || to >= d.rows.length) return d;
  const rows = d.rows.filter((r) => r.key !== key);
  rows.splice(to, 0, row);
  return { ...d, rows };
}

/** Litres for one bath, or for all that lie in a tray where `key` is null. */
export function fillLitres(d: PlanDraft, key: number | null, litres: string): PlanDraft {
  const fits = (r: Row) => (key === null ? inTray(r.what) : r.key === key);
  return { ...d, rows: d.rows.map((r) => (fits(r) ? { ...r, litres } : r)) };
}

/** Whether this kind lies in a tray of liquid. */
export function inTray(what: string): boolean {
  return isWhat(what) && KINDS[what].litres === "needed";
}

/** The entry's body. Optional fields that nobody filled are left out; what is no number is the core's to judge. */
export function planBody(d: PlanDraft): Record<string, unknown> {
  return { baths: d.rows.map(bathBody), over: d.over };
}

function bathBody(r: Row): Record<string, unknown> {
  if (r.what === "drying")
    return r.minutes.trim() ? { what: r.what, target_s: targetSeconds(r.minutes) } : { what: r.what };
  const b: Record<string, unknown> = { what: r.what, liquid: r.liquid.trim() };
  if (inTray(r.what) || r.litres.trim()) b["litres"] = r.litres.trim();
  b["target_s"] = targetSeconds(r.minutes);
  if (r.temp.trim()) b["temp_c"] = r.temp.trim();
  if (r.batch) b["batch"] = r.batch;
  return b;
}

/** A plan as it stands, once more: what choosing between two of them writes. */
export function chosenBody(p: Plan, plans: readonly Plan[]): Record<string, unknown> {
  return planBody({ ...draftOf([p]), over: plans.map((x) => x.entry) });
}

/** What the core says of one field of one bath, `row` counted from 0: its faults are named "baths.0.litres". */
export function rowFault(wrong: readonly Wrong[], row: number, field: string): string {
  return wrong.find((w) => w.field === `baths.${row}.${field}`)?.say ?? "";
}

/** How the core names what a row holds. */
const NAMES = [
  ["what", "what"],
  ["liquid", "liquid"],
  ["litres", "litres"],
  ["minutes", "target_s"],
  ["temp", "temp_c"],
  ["batch", "batch"],
] as const;

/** Faults that may still hold: none of fields that were changed since, none of rows that moved. */
export function stillWrong(wrong: readonly Wrong[], before: PlanDraft, after: PlanDraft): readonly Wrong[] {
  const moved = before.rows.length !== after.rows.length || before.rows.some((r, i) => r.key !== after.rows[i]?.key);
  if (moved) return [];
  const changed = after.rows.flatMap((r, i) =>
    NAMES.filter(([name]) => r[name] !== before.rows[i]?.[name]).map(([, core]) => `baths.${i}.${core}`),
  );
  return wrong.filter((w) => !changed.includes(w.field));
}

/** Names of all fields that the rows show a fault at. */
export function rowFields(d: PlanDraft): string[] {
  return d.rows.flatMap((_, i) => NAMES.map(([, core]) => `baths.${i}.${core}`));
}

export function isDraft(v: unknown): v is PlanDraft {
  if (typeof v !== "object" || v === null) return false;
  const d = v as Record<string, unknown>;
  return isList(d["over"], (x) => typeof x === "string") && isList(d["rows"], isRow);
}

function isList(v: unknown, ok: (x: unknown) => boolean): boolean {
  return Array.isArray(v) && v.every(ok);
}

function isRow(v: unknown): boolean {
  if (typeof v !== "object" || v === null) return false;
  const r = v as Record<string, unknown>;
  const texts = ["what", "liquid", "batch", "litres", "minutes", "temp"];
  return texts.every((k) => typeof r[k] === "string") && typeof r["key"] === "number" && typeof r["own"] === "boolean";
}

/** Liquids that are known here: the shelf's, those of this treatment, the waters; batches stand apart. */
export function knownLiquids(state: State, shelf: Shelf, rows: readonly Row[]): string[] {
  const batches = shelf.batches.map((b) => b.name);
  const here = [...rows.filter((r) => !r.own).map((r) => r.liquid), ...state.steps.map((s) => s.liquid)];
  const all = [...here, ...shelf.waters.map((w) => w.name), ...shelf.liquids];
  return [...new Set(all)].filter((l) => l !== "" && !batches.includes(l));
}

/** What a chosen line of the list of liquids means for a bath: "batch:NAME", "liquid:NAME", or "own" to type it. */
export function chooseLiquid(choice: string): Pick<Row, "liquid" | "batch" | "own"> {
  if (choice.startsWith("batch:")) return { liquid: choice.slice(6), batch: choice.slice(6), own: false };
  if (choice.startsWith("liquid:")) return { liquid: choice.slice(7), batch: "", own: false };
  return { liquid: "", batch: "", own: choice === "own" };
}

/** The line of the list that a bath stands at. */
export function liquidChoice(r: Row): string {
  if (r.own) return "own";
  if (r.batch && r.batch === r.liquid) return `batch:${r.batch}`;
  return r.liquid ? `liquid:${r.liquid}` : "";
}
