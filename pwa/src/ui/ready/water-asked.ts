// What the reckoning of the day's water is asked: how many baths of each sort the plan has, with how many
// litres, and what there is of the water that is chosen.
import type { Shelf, Water } from "../../core/api";
import { readNumber } from "../parts/pad";
import { inTray, type Row } from "./plan-draft";

export interface WaterAsked {
  /** Null while the plan has no litres to reckon with. */
  inputs: Record<string, unknown> | null;
  /** What was taken how, in sentences. */
  notes: string[];
}

const SORTS = [
  { whats: ["presoak"], count: "presoaks", litres: "presoak_litres", say: "pre-soaks" },
  { whats: ["wash", "chelating", "ph_adjust"], count: "washes", litres: "wash_litres", say: "washes" },
  { whats: ["rinse", "flowing"], count: "rinses", litres: "rinse_litres", say: "rinses" },
] as const;

export function waterAsked(rows: readonly Row[], water: Water | null, shelf: Shelf): WaterAsked {
  const notes: string[] = [];
  const trays = rows.filter((r) => inTray(r.what));
  const others = otherWaters(trays, water, shelf);
  const counted = trays.filter((r) => !others.includes(r.liquid));
  if (others.length > 0) notes.push(`Baths of ${others.join(" and ")} are left out: they take another water.`);
  if (counted.some((r) => r.what === "flowing"))
    notes.push("A flowing rinse is counted with the litres that you planned for it, however long it runs.");
  const inputs: Record<string, unknown> = {};
  for (const sort of SORTS) {
    const baths = counted.filter((r) => sort.whats.some((w) => w === r.what));
    if (baths.length === 0) continue;
    const most = largest(baths.map((r) => r.litres));
    inputs[sort.count] = baths.length;
    if (most.litres) inputs[sort.litres] = { value: most.litres, unit: "L" };
    if (most.differ) notes.push(`The ${sort.say} differ in litres: each is counted as the largest, ${most.litres} L.`);
  }
  if (water?.stock_l) inputs["stock"] = { value: water.stock_l, unit: "L" };
  if (water?.make_l_h) inputs["rate"] = { value: water.make_l_h, unit: "L/h" };
  return { inputs: counted.some((r) => r.litres.trim() !== "") ? inputs : null, notes };
}

/** Liquids of the plan that are a water of the shelf other than the chosen one. */
function otherWaters(rows: readonly Row[], water: Water | null, shelf: Shelf): string[] {
  if (!water) return [];
  const names = shelf.waters.filter((w) => w.name !== water.name).map((w) => w.name);
  const byBatch = shelf.batches.filter((b) => names.includes(b.water)).map((b) => b.name);
  return [...new Set(rows.map((r) => r.liquid).filter((l) => names.includes(l) || byBatch.includes(l)))];
}

/** The largest of litres as typed, as typed; what is no number is handed on first, for the core to say so. */
function largest(typed: readonly string[]): { litres: string; differ: boolean } {
  const given = typed.map((t) => t.trim()).filter(Boolean);
  const unread = given.find((t) => readNumber(t) === null);
  if (unread !== undefined) return { litres: unread, differ: false };
  const litres = given.reduce((most, t) => ((readNumber(t) ?? 0) > (readNumber(most) ?? 0) ? t : most), given[0] ?? "");
  return { litres, differ: given.some((t) => readNumber(t) !== readNumber(litres)) };
}
