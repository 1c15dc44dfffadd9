// The recorded day as it is played: which entries come when, and the clock that passes over them.

const MIN = 60_000;

/** One entry of the day, as the guide tells it. Times are studio milliseconds. */
export interface Cut {
  ms: number;
  job: string;
  kind: string;
  say: string;
}

export interface Reel {
  from: number;
  to: number;
  /** By time. */
  cuts: readonly Cut[];
}

/** What is played on one day begins some minutes before its first wetting, or its first entry. */
const LEAD = 6 * MIN;
/** It goes on for a while after the last entry, so that its end is seen. */
const TAIL = 2 * MIN;
/** As long nothing may happen; then the clock skips to a while before what comes next. */
export const QUIET = 20 * MIN;
export const BEFORE_NEXT = 2 * MIN;

/** The busiest day of what was recorded. Null where nothing was. `dayOf` names the day of a time. */
export function reelOf(all: readonly Cut[], dayOf: (ms: number) => string): Reel | null {
  const days = new Map<string, Cut[]>();
  for (const cut of all) {
    const day = dayOf(cut.ms);
    const held = days.get(day);
    if (held) held.push(cut);
    else days.set(day, [cut]);
  }
  let cuts: Cut[] = [];
  for (const list of days.values()) if (list.length > cuts.length) cuts = list;
  cuts.sort((a, b) => a.ms - b.ms);
  const [first] = cuts;
  const last = cuts.at(-1);
  if (!first || !last) return null;
  const wet = cuts.find((c) => c.kind === "begin") ?? first;
  return { from: wet.ms - LEAD, to: last.ms + TAIL, cuts };
}

/** The clock of a playing: what it showed at a real time, and how fast it goes. */
export interface Tape {
  real: number;
  played: number;
  /** 0 while it stands. */
  rate: number;
}

export function playedAt(t: Tape, real: number): number {
  return t.played + t.rate * (real - t.real);
}

/** The same clock with another speed, or set to another time. */
export function turned(t: Tape, real: number, change: { rate?: number; played?: number }): Tape {
  return { real, played: change.played ?? playedAt(t, real), rate: change.rate ?? t.rate };
}

export function nextCut(reel: Reel, ms: number): Cut | undefined {
  return reel.cuts.find((c) => c.ms > ms);
}

/** Where to skip to because nothing happens for long; null where something does. */
export function skipTo(reel: Reel, ms: number): number | null {
  const next = nextCut(reel, ms);
  return next && next.ms - ms > QUIET ? next.ms - BEFORE_NEXT : null;
}

/** Kinds that are worth going to see. */
const SHOWN = ["begin", "abort", "takeover", "decide", "dry", "overnight", "plan"];

/** What there is to see at a time: the last of the larger things that have happened. */
export function toSee(reel: Reel, ms: number): Cut | undefined {
  return reel.cuts.filter((c) => c.ms <= ms && SHOWN.includes(c.kind)).at(-1);
}

/** How many entries of a treatment have been made by a time. */
export function madeBy(reel: Reel, job: string, ms: number): number {
  return reel.cuts.filter((c) => c.job === job && c.ms <= ms).length;
}
