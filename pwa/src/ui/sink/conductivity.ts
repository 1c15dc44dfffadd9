// What a conductivity reading starts from. No value is reckoned here: that is the core's.
import type { Reading, Shelf, State, Step } from "../../core/api";

/** How old a temperature may be to stand for the liquor at the meter, ms. */
const FRESH_MS = 5 * 60_000;
/** How long before its target a bath counts as near its end, ms. */
const NEAR_END_MS = 2 * 60_000;

/** The liquor's temperature from the last reading of it, if that is of this bath and fresh; else empty. */
export function liquorOf(state: State, shown: Step | null, nowMs: number): string {
  const last: Reading | undefined = state.last["temperature"];
  if (!last || nowMs - last.at.ms > FRESH_MS) return "";
  return last.of === (shown?.entry ?? "") ? last.value : "";
}

/** Whether a reading now is likely meant as the one at the bath's end: in its last 2 minutes, or past its target. */
export function nearEnd(step: Step | null, nowMs: number): boolean {
  return step !== null && step.target_s > 0 && nowMs >= step.begun.ms + step.target_s * 1000 - NEAR_END_MS;
}

/** Instruments on the shelf that measure it. */
export function metersFor(shelf: Shelf, q: string): string[] {
  return shelf.instruments.filter((i) => i.measures.includes(q)).map((i) => i.name);
}

/** Inputs of the reckoning that brings it to 25 °C in a treatment's way; null while it cannot be asked. */
export function k25Inputs(
  value: string,
  liquor: string,
  compensated: boolean,
  way = "linear",
): Record<string, string> | null {
  if (value === "") return null;
  if (compensated) return { way: "compensated", value };
  return liquor === "" ? null : { way, value, temp: liquor };
}

/** The body of a conductivity reading. */
export function conductivityBody(r: {
  value: string;
  of: string;
  liquor: string;
  compensated: boolean;
  source: boolean;
  atEnd: boolean;
  instrument: string;
}): Record<string, unknown> {
  return {
    q: "conductivity",
    value: r.value,
    unit: "uS/cm",
    ...(r.source ? { source: true } : r.of ? { of: r.of } : {}),
    ...(r.liquor ? { liquor_c: r.liquor } : {}),
    ...(r.compensated ? { compensated: true } : {}),
    ...(r.atEnd && r.of && !r.source ? { at_end: true } : {}),
    ...(r.instrument ? { instrument: r.instrument } : {}),
  };
}
