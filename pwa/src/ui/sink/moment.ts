// When something was measured or done, and how that is known.
import { rfc3339, timeOfDay } from "../base/words";

export type How = "clock" | "memory" | "estimate";

export interface Moment {
  /** Minutes ago; 0 for now. */
  ago: number;
  how: How;
}

export const NOW: Moment = { ago: 0, how: "clock" };

export const HOWS: readonly [How, string][] = [
  ["clock", "by the clock"],
  ["memory", "from memory"],
  ["estimate", "an estimate"],
];

/** Minutes ago that are offered. */
export const AGOS: readonly number[] = [0, 1, 2, 3, 5, 10, 15, 20, 30, 45, 60, 90];

/** "now", "10 min ago" */
export function agoSays(ago: number): string {
  return ago <= 0 ? "now" : `${ago} min ago`;
}

/** "now", "10:02, from memory" */
export function momentSays(m: Moment, nowMs: number): string {
  const at = m.ago <= 0 ? "now" : `at ${timeOfDay(nowMs - m.ago * 60000)}`;
  return m.how === "clock" ? at : `${at}, ${HOWS.find(([h]) => h === m.how)?.[1] ?? ""}`;
}

/** What of it goes into the entry: its time beside the body, how it is known in the body. */
export function momentOf(m: Moment, nowMs: number): { at: { at?: string }; body: { how?: How } } {
  return {
    at: m.ago > 0 ? { at: rfc3339(nowMs - Math.round(m.ago * 60000)) } : {},
    body: m.ago > 0 || m.how !== "clock" ? { how: m.how } : {},
  };
}
