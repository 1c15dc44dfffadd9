// A reckoning's form as data: what is filled in, which fields are asked, what is sent to the core.
import type { Input, Reckoning } from "../../core/api";
import { isTextMap } from "../base/remember";

export interface Filled {
  /** By the input's name; text as typed. */
  values: Record<string, string>;
  /** The unit chosen for an input. */
  units: Record<string, string>;
}

export function startForm(r: Reckoning, before: Filled | null): Filled {
  const values: Record<string, string> = {};
  const units: Record<string, string> = {};
  for (const i of r.inputs) {
    const kept = before?.values[i.name];
    const first = i.default || (i.kind === "choice" ? (i.choices[0]?.value ?? "") : "");
    values[i.name] = kept ?? first;
    const unit = before?.units[i.name];
    units[i.name] = unit !== undefined && i.units.includes(unit) ? unit : i.unit;
  }
  return { values, units };
}

/** Whether an input is asked, given the choices that have been made. */
export function isAsked(i: Input, r: Reckoning, f: Filled): boolean {
  if (i.of) {
    const of = r.inputs.find((x) => x.name === i.of);
    if (of && !isAsked(of, r, f)) return false;
  }
  return !i.when || i.is.includes(f.values[i.when] ?? "");
}

/** What the core is asked: values with their units, empty fields left out. */
export function askedInputs(r: Reckoning, f: Filled): Record<string, unknown> {
  const out: Record<string, unknown> = {};
  for (const i of r.inputs) {
    const value = (f.values[i.name] ?? "").trim();
    if (value === "" || !isAsked(i, r, f)) continue;
    out[i.name] = i.units.length > 0 && !i.of ? { value, unit: f.units[i.name] } : value;
  }
  return out;
}

/** Inputs that must be filled and are not. */
export function missing(r: Reckoning, f: Filled): Input[] {
  return r.inputs.filter((i) => !i.optional && isAsked(i, r, f) && (f.values[i.name] ?? "").trim() === "");
}

/** "0.01 to 5000 L", in the unit that is chosen. */
export function rangeSays(i: Input, unit: string): string {
  const range = i.ranges.find((x) => x.unit === unit);
  if (!range || (range.min === 0 && range.max === 0)) return "";
  return `${range.min} to ${range.max}${unit ? ` ${unit}` : ""}`;
}

export function isFilled(v: unknown): v is Filled {
  if (typeof v !== "object" || v === null) return false;
  const f = v as { values?: unknown; units?: unknown };
  return isTextMap(f.values) && isTextMap(f.units);
}
