// Making up a solution as it is typed: what the core is asked, and what becomes an entry once it is made.
import type { Result } from "../../core/api";
import { rfc3339 } from "../base/words";
import { readLocal } from "../log/local-time";
import { readNumber } from "../parts/pad";
import { figureOf } from "../reckon/use-reckoned";
import { filled } from "./items";

/** Everything as typed. */
export interface Making {
  product: string;
  charge: string;
  form: "paste" | "liquid" | "powder";
  lot: string;
  /** % w/w */
  active: string;
  /** g/mL */
  density: string;
  /** g/L; empty: not known. */
  cmc: string;
  target: string;
  unit: "g/L" | "% w/v" | "× CMC";
  litres: string;
  water: string;
  /** On the label; empty while nobody typed one, and the suggestion stands. */
  name: string;
  /** Local time; empty for now. */
  made: string;
  days: string;
  ph: string;
}

export const BLANK: Making = {
  product: "",
  charge: "",
  form: "paste",
  lot: "",
  active: "",
  density: "",
  cmc: "",
  target: "",
  unit: "g/L",
  litres: "",
  water: "",
  name: "",
  made: "",
  days: "",
  ph: "",
};

/** What must be filled before the core is asked; each with what it is called. */
export function lacks(m: Making): string[] {
  const need: (readonly [string, string])[] = [
    [m.litres, "litres"],
    [m.target, "strength wanted"],
    [m.active, "active content"],
  ];
  return need.filter(([v]) => v.trim() === "").map(([, say]) => say);
}

export function solutionAsked(m: Making): Record<string, unknown> {
  const out: Record<string, unknown> = {
    litres: { value: m.litres.trim(), unit: "L" },
    target: { value: m.target.trim(), unit: m.unit },
    form: m.form,
    active: { value: m.active.trim(), unit: "% w/w" },
  };
  if (m.form !== "powder" && m.density.trim()) out["density"] = { value: m.density.trim(), unit: "g/mL" };
  if (m.cmc.trim()) out["cmc"] = { value: m.cmc.trim(), unit: "g/L" };
  return out;
}

/** "non-ionic alcohol ethoxylate 0.5 g/L in deionised water" */
export function labelOf(m: Making): string {
  if (m.name.trim()) return m.name.trim();
  if (!m.product.trim() || !m.target.trim()) return "";
  const water = m.water ? ` in ${m.water}` : "";
  return `${m.product.trim()} ${m.target.trim()} ${m.unit}${water}`;
}

/** Milliseconds at which it was made; null where the time typed is none. */
export function madeMs(m: Making, now: number): number | null {
  if (m.made === "") return now;
  const at = readLocal(m.made, 0);
  return at === null ? null : Date.parse(at);
}

const DAY_MS = 86_400_000;

/** When it expires, so many days after it was made; null for no end, the text where it is no number. */
export function expiresAt(m: Making, made: number): string | null {
  if (m.days.trim() === "") return null;
  const days = readNumber(m.days);
  return days === null ? m.days.trim() : rfc3339(made + days * DAY_MS);
}

/** The entry's body. The mass weighed in is the core's, as it was shown. */
export function batchBody(m: Making, made: number, result: Result): Record<string, unknown> {
  const expires = expiresAt(m, made);
  return {
    what: "batch",
    name: labelOf(m),
    ...filled({
      product: m.product.trim(),
      charge: m.charge,
      lot: m.lot.trim(),
      active_pct: m.active.trim(),
      cmc_g_l: m.cmc.trim(),
      target: m.target.trim(),
      unit: m.unit,
      litres: m.litres.trim(),
      product_g: figureOf(result, "product_mass"),
      water: m.water,
      ph: m.ph.trim(),
    }),
    made: rfc3339(made),
    ...(expires === null ? {} : { expires }),
  };
}

export function isMaking(v: unknown): v is Making {
  if (typeof v !== "object" || v === null) return false;
  const m = v as Record<string, unknown>;
  return (
    Object.keys(BLANK).every((k) => typeof m[k] === "string") &&
    ["paste", "liquid", "powder"].includes(String(m["form"])) &&
    ["g/L", "% w/v", "× CMC"].includes(String(m["unit"]))
  );
}
