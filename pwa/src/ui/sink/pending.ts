// The conductivity that was just kept: drawn into the curve at once, from the core's own value at 25 °C, until
// the fold brings it. It goes when its entry is there, or when keeping it failed.
import { signal } from "@preact/signals";
import type { Rinse } from "../../core/api";

export interface Kept {
  job: string;
  place: number;
  k25: number;
  /** Points that the curve had before. */
  before: number;
}

export const pendingPoint = signal<Kept | null>(null);

/** The point to draw beside those of the fold; null once the fold has it. */
export function pendingFor(job: string, rinse: Rinse | null, kept: Kept | null): Kept | null {
  if (!kept || kept.job !== job) return null;
  return (rinse?.points.length ?? 0) > kept.before ? null : kept;
}
