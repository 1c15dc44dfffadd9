// What of a treatment belongs on the sheet of one day. It is taken from the state as it stands now, so that
// later corrections are in it, and from the log's lines, so that nothing that was written is left out.
import type { LogLine, Reading, Rinse, State, Step } from "../../core/api";
import { openItems, tickState } from "../ready/ticks";
import { isIn, touches, type Span } from "./span";

/** Kinds that have a part of the sheet to themselves. */
const TOLD = [
  "begin",
  "end",
  "reading",
  "act",
  "decide",
  "abort",
  "reason",
  "takeover",
  "overnight",
  "dry",
  "plan",
  "dwell",
];

/** Lines that happened or were written on that day. */
export function linesOf(lines: readonly LogLine[], span: Span): LogLine[] {
  return lines.filter((l) => isIn(span, l.at.ms) || isIn(span, l.at.recorded_ms));
}

export function stepsOf(state: State, span: Span): Step[] {
  return state.steps.filter((s) => touches(span, s.begun.ms, s.ended?.ms ?? null));
}

export interface ReadIn {
  reading: Reading;
  /** Null for a reading of no step. */
  step: Step | null;
}

/** Readings of the day by time, those of no bath among them. */
export function readingsOf(state: State, span: Span): ReadIn[] {
  return [
    ...state.steps.flatMap((step) => step.readings.map((reading): ReadIn => ({ reading, step }))),
    ...state.loose.map((reading): ReadIn => ({ reading, step: null })),
  ]
    .filter(({ reading }) => isIn(span, reading.at.ms))
    .sort((a, b) => a.reading.at.ms - b.reading.at.ms);
}

/** Lines that were struck or amended, whenever that was done. */
export function correctedOf(lines: readonly LogLine[]): LogLine[] {
  return lines.filter((l) => l.struck !== null || l.amended.length > 0);
}

/** Lines that no other part of the sheet tells: notes, facts, photographs, acknowledgements, what a newer version wrote. */
export function otherLines(lines: readonly LogLine[]): LogLine[] {
  return lines.filter((l) => !TOLD.includes(l.kind) && l.kind !== "amend" && l.kind !== "strike" && !ticks(l));
}

/** Whether a line ticks an item of the checklist. */
function ticks(l: LogLine): boolean {
  const body = l.body;
  if (l.kind !== "set" || typeof body !== "object" || body === null || !("field" in body)) return false;
  return typeof body.field === "string" && body.field.startsWith("check.");
}

/** Who went through the checklist that day, and from when to when; null where nobody did. */
export function tickedBy(lines: readonly LogLine[]): { by: string[]; from: number; to: number } | null {
  const all = lines.filter((l) => ticks(l) && !l.struck);
  if (all.length === 0) return null;
  const at = all.map((l) => l.at.ms);
  return { by: whoWrote(all), from: Math.min(...at), to: Math.max(...at) };
}

/** The curve with the day's readings only; without a fit where it rests on others too. Null where the day has none. */
export function rinseOf(rinse: Rinse | null, span: Span): { rinse: Rinse; whole: boolean } | null {
  if (!rinse) return null;
  const points = rinse.points.filter((p) => isIn(span, p.at_ms));
  if (points.length === 0) return null;
  const whole = points.length === rinse.points.length;
  return { rinse: whole ? rinse : { ...rinse, points, curve: [], say: "" }, whole };
}

/** Items of the checklist that were not done, or of which two people said something. */
export function unticked(state: State): string[] {
  return openItems(state.checklist).map((t) =>
    tickState(t) === "choose" ? `${t.title} (two answers: choose in the log)` : t.title,
  );
}

export function ticked(state: State): string[] {
  return state.checklist.filter((t) => tickState(t) === "done").map((t) => t.title);
}

/** Everybody who wrote, in the order in which they first did. */
export function whoWrote(lines: readonly LogLine[]): string[] {
  return [...new Set(lines.map((l) => l.by).filter(Boolean))];
}
