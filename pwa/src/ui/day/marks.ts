// Signs that stand beside a time on paper, each with its word, and the legend that explains them.
import type { Moment } from "../../core/api";

export interface Mark {
  sign: string;
  word: string;
  means: string;
}

export const LATE: Mark = { sign: "▲", word: "late", means: "entered more than two minutes after it happened" };
export const MEMORY: Mark = { sign: "◆", word: "from memory", means: "the time was given from memory" };
export const ESTIMATE: Mark = { sign: "≈", word: "estimated", means: "the time is an estimate" };
export const PUT_RIGHT: Mark = {
  sign: "○",
  word: "clock put right",
  means: "the device's clock was off; the time is put right by the studio machine's",
};
export const CORRECTED: Mark = { sign: "✎", word: "corrected", means: "stands as corrected; see Corrections" };

export const LEGEND: readonly Mark[] = [LATE, MEMORY, ESTIMATE, PUT_RIGHT, CORRECTED];

interface Timed {
  at: Moment;
  late: boolean;
  how?: string;
}

/** What must be known of an entry's time. */
export function marksOf({ at, late, how }: Timed, corrected = false): Mark[] {
  return [
    ...(late ? [LATE] : []),
    ...(how === "memory" ? [MEMORY] : how === "estimate" ? [ESTIMATE] : []),
    ...(at.corrected ? [PUT_RIGHT] : []),
    ...(corrected ? [CORRECTED] : []),
  ];
}

/** Entered more than two minutes after it happened, as the core says it of readings. */
export function isLate(m: Moment): boolean {
  return m.recorded_ms - m.ms > 120_000;
}
