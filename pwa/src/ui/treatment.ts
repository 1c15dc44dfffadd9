// Small readings of a dossier that several screens need.
import type { State, Step } from "../core/api";
import { bathWord } from "./base/words";

/** A treatment's name. Where two people gave two, the later one until somebody has chosen. */
export function nameOf(s: State): string {
  return s.fields["name"]?.at(-1)?.value ?? "Treatment without a name";
}

/** Milliseconds that the object has been immersed, all baths added, the running one until now. */
export function immersedMs(s: State, nowMs: number): number {
  return s.immersed_ms + (s.running_since_ms === null ? 0 : Math.max(0, nowMs - s.running_since_ms));
}

/** "12 L deionised water", as far as it was said. */
export function bathSays(s: Step): string {
  return [s.litres && `${s.litres} L`, s.liquid].filter(Boolean).join(" ");
}

/** "Rinse 2" */
export function stepName(s: Step): string {
  return `${bathWord(s.what)} ${s.ordinal}`;
}
