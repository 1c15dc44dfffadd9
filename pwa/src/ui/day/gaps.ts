// What was not written, said as such: nothing is made up between two entries.
import type { State, Step } from "../../core/api";
import { stepName } from "../treatment";
import { clock, isIn, touches, type Span } from "./span";

const MIN = 60_000;
/** As a reading may be entered late without a word. */
const SLACK_MS = 2 * MIN;

/** Sentences on what is missing in the steps of a day, in order. `now` ends what still runs. */
export function gapsOf(state: State, span: Span, now: number): string[] {
  return state.steps
    .filter((s) => touches(span, s.begun.ms, s.ended?.ms ?? null))
    .flatMap((s) => (s.what === "drying" ? unchecked(state, s, span, now) : unread(state, s, span, now)));
}

function unread(state: State, s: Step, span: Span, now: number): string[] {
  if (!s.immerses) return [];
  const every = minutesOf(state, "reading_every_min", 10);
  const read = s.readings.map((r) => r.at.ms);
  const out = holes(s, read, span, now, () => every * MIN).map(
    ([a, b]) =>
      `${stepName(s)}: no reading between ${clock(span, a)} and ${clock(span, b)}; one was asked for every ${every} min.`,
  );
  if (read.length === 0 && out.length === 0) out.push(`${stepName(s)}: no reading at all.`);
  if (!s.ended) out.push(`${stepName(s)}: no end has been written.`);
  return out;
}

function unchecked(state: State, s: Step, span: Span, now: number): string[] {
  const first = minutesOf(state, "dry_first_min", 15) * MIN;
  const later = minutesOf(state, "dry_later_min", 60) * MIN;
  const change = s.begun.ms + minutesOf(state, "dry_first_hours", 2) * 60 * MIN;
  const looks = [...s.readings, ...state.acts.filter((a) => a.of === s.entry)].map((x) => x.at.ms);
  const out = holes(s, looks, span, now, (from) => (from < change ? first : later)).map(
    ([a, b]) => `${stepName(s)}: no check and no reading between ${clock(span, a)} and ${clock(span, b)}.`,
  );
  if (!s.ended) out.push(`${stepName(s)}: no end has been written.`);
  return out;
}

/** Stretches of the day in a step that are longer than what was asked for there. */
function holes(
  s: Step,
  at: readonly number[],
  span: Span,
  now: number,
  most: (from: number) => number,
): [number, number][] {
  const begin = Math.max(s.begun.ms, span.from);
  const end = Math.min(s.ended?.ms ?? now, span.to, now);
  const stops = [begin, ...at.filter((ms) => ms > begin && ms < end && isIn(span, ms)).sort((a, b) => a - b), end];
  return stops
    .slice(1)
    .map((to, i): [number, number] => [stops[i] ?? begin, to])
    .filter(([from, to]) => to - from > most(from) + SLACK_MS);
}

/** A number of the treatment's settings; common practice where nobody set it. */
function minutesOf(state: State, field: string, otherwise: number): number {
  const n = Number(state.fields[field]?.at(-1)?.value);
  return n > 0 ? n : otherwise;
}
