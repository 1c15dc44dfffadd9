// A moment in a form, in this device's local time, and back to how its author's clock would write it.
import type { LogLine } from "../../core/api";
import { dayKey, rfc3339, timeOfDay } from "../base/words";

/** Milliseconds to add to the author's clock for the times that are shown. */
export function localOffset(line: LogLine): number {
  const own = Date.parse(line.at.at);
  return line.at.corrected && Number.isFinite(own) ? line.at.ms - own : 0;
}

/** "2026-03-04T10:02:11", for an input of type datetime-local. Empty where the time cannot be read. */
export function localInput(at: string, offsetMs: number): string {
  const ms = Date.parse(at) + offsetMs;
  if (!Number.isFinite(ms)) return "";
  return `${dayKey(ms)}T${timeOfDay(ms)}:${String(new Date(ms).getSeconds()).padStart(2, "0")}`;
}

/** RFC 3339 as the author's clock would have had it; null for what is no time. */
export function readLocal(text: string, offsetMs: number): string | null {
  const ms = Date.parse(text);
  return Number.isFinite(ms) ? rfc3339(ms - offsetMs) : null;
}
