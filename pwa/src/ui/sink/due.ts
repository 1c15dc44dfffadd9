// Which reading is due.
import type { Step, Watch } from "../../core/api";

/** When the next reading of a quantity is due in a step, studio time; null where none is asked. */
export function dueOf(watch: Watch | null, step: Step | null, q: string): number | null {
  if (!watch || !step) return null;
  return watch.due.find((d) => d.q === q && d.of === step.entry)?.at_ms ?? null;
}
