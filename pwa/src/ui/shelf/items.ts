// What stands on the shelf, as forms: which fields each kind has, an item as the texts of its form, and the
// body of the entry that puts it there. A later item of the same kind and name takes the earlier one's place.
import type { Batch, Instrument, Water } from "../../core/api";
import { dayKey, rfc3339, timeOfDay } from "../base/words";
import { readLocal } from "../log/local-time";

export interface ItemField {
  /** A member of the body. */
  name: string;
  label: string;
  /** `time` is a day and a time of this device's place; `many` are values parted by spaces. */
  kind: "text" | "number" | "choice" | "yes" | "time" | "many";
  choices?: readonly (readonly [string, string])[];
  help?: string;
  /** Shares its line with the one before. */
  beside?: boolean;
}

export type Texts = Readonly<Record<string, string>>;

export const CHARGES = [
  ["", "not said"],
  ["nonionic", "non-ionic"],
  ["anionic", "anionic"],
  ["amphoteric", "amphoteric"],
  ["cationic", "cationic"],
  ["none", "no surfactant"],
] as const;

/** The one field that is no member of the body: when the entry happened. */
const AT = "at";

export const WATER: readonly ItemField[] = [
  {
    name: "source",
    label: "Where it comes from",
    kind: "choice",
    choices: [
      ["deionised", "deionised"],
      ["distilled", "distilled"],
      ["tap", "tap"],
      ["other", "another source"],
    ],
  },
  { name: "conductivity", label: "Conductivity", kind: "number", help: "µS/cm" },
  { name: "liquor_c", label: "Measured at", kind: "number", beside: true, help: "°C, of the water at the meter." },
  { name: "compensated", label: "The meter gave it at 25 °C by itself", kind: "yes" },
  { name: "ph", label: "pH", kind: "number", help: "In nearly pure water pH drifts: note it all the same." },
  { name: "hardness", label: "Hardness", kind: "number" },
  {
    name: "hardness_unit",
    label: "Unit",
    kind: "choice",
    beside: true,
    choices: [
      ["", "not said"],
      ["mmol/L", "mmol/L"],
      ["mg/L CaCO₃", "mg/L calcium carbonate"],
      ["°dH", "German degrees"],
      ["°fH", "French degrees"],
      ["°e", "English degrees"],
    ],
  },
  { name: "stock_l", label: "Stock", kind: "number", help: "Litres there now." },
  {
    name: "make_l_h",
    label: "Made",
    kind: "number",
    beside: true,
    help: "Litres an hour: time one can once.",
  },
  { name: AT, label: "When it was measured", kind: "time", help: "Leave it empty for now." },
];

export const INSTRUMENT: readonly ItemField[] = [
  {
    name: "measures",
    label: "It measures",
    kind: "many",
    choices: [
      ["temperature", "temperature"],
      ["ph", "pH"],
      ["conductivity", "conductivity"],
      ["mass", "mass"],
      ["air_temperature", "room temperature"],
      ["humidity", "humidity"],
    ],
  },
  {
    name: "compensates",
    label: "It gives conductivity at 25 °C by itself",
    kind: "yes",
    help: "Then its readings are not corrected a second time.",
  },
  { name: "calibrated", label: "Last calibrated", kind: "time", help: "Leave it empty if you do not know." },
  { name: "note", label: "Note", kind: "text", help: "Which buffers or standard, what it is like." },
];

export const BATCH: readonly ItemField[] = [
  { name: "product", label: "Product, by its chemical type", kind: "text" },
  { name: "charge", label: "It is", kind: "choice", choices: CHARGES },
  { name: "lot", label: "Lot", kind: "text" },
  { name: "ph", label: "pH of the solution", kind: "number" },
  { name: "expires", label: "Good until", kind: "time", help: "Leave it empty if nobody set an end." },
  { name: "gone", label: "It is used up or poured away", kind: "yes" },
];

/** "2026-03-04T10:02", for an input of type datetime-local. */
export function localText(ms: number): string {
  return `${dayKey(ms)}T${timeOfDay(ms)}`;
}

export function blankTexts(fields: readonly ItemField[]): Texts {
  const out: Record<string, string> = {};
  for (const f of fields) out[f.name] = f.kind === "choice" ? (f.choices?.[0]?.[0] ?? "") : "";
  return out;
}

export function waterTexts(w: Water): Texts {
  return {
    source: w.source,
    conductivity: w.conductivity,
    liquor_c: w.liquor_c,
    compensated: yes(w.compensated),
    ph: w.ph,
    hardness: w.hardness,
    hardness_unit: w.hardness_unit,
    stock_l: w.stock_l,
    make_l_h: w.make_l_h,
  };
}

export function instrumentTexts(i: Instrument): Texts {
  return {
    measures: i.measures.join(" "),
    compensates: yes(i.compensates),
    calibrated: i.calibrated_ms === null ? "" : localText(i.calibrated_ms),
    note: i.note,
  };
}

export function batchTexts(b: Batch): Texts {
  return {
    product: b.product,
    charge: b.charge,
    lot: b.lot,
    ph: b.ph,
    expires: b.expires_ms === null ? "" : localText(b.expires_ms),
    gone: yes(b.gone),
  };
}

/** What a batch's form does not ask again and its next entry must still say. */
export function batchRest(b: Batch): Record<string, unknown> {
  const all = {
    active_pct: b.active_pct,
    cmc_g_l: b.cmc_g_l,
    target: b.target,
    unit: b.unit,
    litres: b.litres,
    product_g: b.product_g,
    water: b.water,
  };
  return { ...filled(all), made: rfc3339(b.made_ms) };
}

function yes(b: boolean): string {
  return b ? "yes" : "";
}

/** Members that have a text. */
export function filled(texts: Texts): Record<string, unknown> {
  return Object.fromEntries(Object.entries(texts).filter(([, v]) => v.trim() !== ""));
}

/** The body of an item's entry. What is empty is left out: it stays not said. */
export function itemBody(
  what: string,
  name: string,
  fields: readonly ItemField[],
  texts: Texts,
  rest: Readonly<Record<string, unknown>> = {},
): Record<string, unknown> {
  const body: Record<string, unknown> = { what, name: name.trim(), ...rest };
  for (const f of fields) {
    const text = (texts[f.name] ?? "").trim();
    if (f.name === AT) continue;
    if (f.kind === "yes") {
      if (text === "yes") body[f.name] = true;
    } else if (text === "") continue;
    else if (f.kind === "many") body[f.name] = text.split(" ");
    else if (f.kind === "time") body[f.name] = readLocal(text, 0) ?? text;
    else body[f.name] = text;
  }
  return body;
}

/** When the item was as the form says: nothing for now; null where what was typed is no time. */
export function itemAt(texts: Texts): { at?: string } | null {
  const text = texts[AT] ?? "";
  if (text === "") return {};
  const at = readLocal(text, 0);
  return at === null ? null : { at };
}

/** One of `many` put in or taken out; they keep the order of the choices. */
export function toggled(f: ItemField, text: string, value: string): string {
  const now = text.split(" ").filter(Boolean);
  const next = now.includes(value) ? now.filter((v) => v !== value) : [...now, value];
  const order = (f.choices ?? []).map(([v]) => v);
  return next.sort((a, b) => order.indexOf(a) - order.indexOf(b)).join(" ");
}
