// What should be heard now, as a pure function of the cues, the time, and what this device remembers.
//
// All times are absolute milliseconds of the studio's clock: no time zone and no change to summer time
// comes in anywhere. A loud cue rings until somebody has acknowledged it on any device. A soft one
// sounds once, at its time. What passed while this page was hidden or asleep is told when it is back.
import type { Cue } from "../../core/api";

/** A treatment whose cues ring here. `cues` is null while they are not known yet. */
export interface Watched {
  job: string;
  name: string;
  /** Invented, to try things on: what was due before this device first saw it neither rings nor is told. */
  sample?: boolean;
  cues: readonly Cue[] | null;
}

/** One cue of one treatment. */
export interface Ring {
  /** Names it on this device. */
  key: string;
  job: string;
  name: string;
  cue: Cue;
}

/** What this device remembers between two looks, and between two visits. Lists hold keys. */
export interface Memory {
  /** The last look, studio milliseconds; null: it has never looked. */
  last: number | null;
  /** Soft cues that have sounded, and what was dismissed. */
  done: readonly string[];
  /** What passed unheard, until it is dismissed. */
  missed: readonly string[];
  /** Acknowledged here; the entry is written and has not been folded yet. */
  mine: readonly string[];
  /** Sample treatments whose cues were seen. */
  samples: readonly string[];
}

export interface Plan {
  /** Loud, due and acknowledged by nobody; by time. */
  ring: readonly Ring[];
  /** Due just now: each sounds once. `late` ones have their words no longer true, so they are not spoken. */
  soft: readonly (Ring & { late: boolean })[];
  missed: readonly Ring[];
  /** When the next cue is due, studio milliseconds; null: none is awaited. */
  next: number | null;
  memory: Memory;
}

export const NOTHING: Memory = { last: null, done: [], missed: [], mine: [], samples: [] };

/** Looks further apart than this have slept in between. */
export const SLEPT_MS = 5_000;
/** A soft cue sounds at most so late: a browser may hold a hidden page's timer back for a minute. */
export const SOFT_LATE_MS = 65_000;
/** What is older than this does not ring. It is only told. */
export const TOO_OLD_MS = 12 * 3_600_000;

export function keyOf(job: string, cue: string): string {
  return `${job} ${cue}`;
}

export function plan(watched: readonly Watched[], now: number, before: Memory): Plan {
  // A clock that was set back starts a new interval.
  const last = before.last === null ? null : Math.min(before.last, now);
  const slept = last !== null && now - last > SLEPT_MS;
  const done = new Set(before.done);
  const missed = new Set(before.missed);
  const mine = new Set(before.mine);
  const all = allRings(watched);
  forgetGone(watched, all, [done, missed, mine]);
  const samples = watched.filter((w) => w.sample).map((w) => w.job);
  const seen = samples.filter((job) => before.samples.includes(job));
  for (const w of watched) {
    if (!w.sample || !w.cues || seen.includes(w.job)) continue;
    seen.push(w.job);
    for (const c of w.cues) if (c.at_ms <= now) done.add(keyOf(w.job, c.id));
  }

  const ring: Ring[] = [];
  const soft: (Ring & { late: boolean })[] = [];
  let next: number | null = null;
  for (const r of all) {
    const { key, cue } = r;
    if (cue.heard_by) {
      missed.delete(key);
      mine.delete(key);
    } else if (cue.at_ms > now) {
      next = Math.min(next ?? Infinity, cue.at_ms);
      // It was put off: it may come anew.
      done.delete(key);
      missed.delete(key);
      mine.delete(key);
    } else if (done.has(key) || mine.has(key)) continue;
    else if (cue.loud) {
      if (now - cue.at_ms <= TOO_OLD_MS) ring.push(r);
      else missed.add(key);
    } else if (last !== null && cue.at_ms > last) {
      const late = now - cue.at_ms > SLEPT_MS;
      if (slept && late) missed.add(key);
      if (now - cue.at_ms > SOFT_LATE_MS) continue;
      soft.push({ ...r, late });
      if (!missed.has(key)) done.add(key);
    }
  }
  return {
    ring: ring.sort(byTime),
    soft: soft.sort(byTime),
    missed: all.filter((r) => missed.has(r.key)).sort(byTime),
    next,
    memory: { last: now, done: [...done], missed: [...missed], mine: [...mine], samples: seen },
  };
}

/** What was missed has been read. */
export function dismiss(m: Memory): Memory {
  return { ...m, done: [...m.done, ...m.missed], missed: [] };
}

/** These were acknowledged here, durably. */
export function acknowledge(m: Memory, keys: readonly string[]): Memory {
  return { ...m, mine: [...new Set([...m.mine, ...keys])] };
}

export function isMemory(v: unknown): v is Memory {
  if (typeof v !== "object" || v === null) return false;
  const m = v as Partial<Record<keyof Memory, unknown>>;
  const keys = (x: unknown) => Array.isArray(x) && x.every((k) => typeof k === "string");
  return (
    (m.last === null || Number.isFinite(m.last)) && keys(m.done) && keys(m.missed) && keys(m.mine) && keys(m.samples)
  );
}

/** The same but for the time of the last look. */
export function sameKeys(a: Memory, b: Memory): boolean {
  const same = (x: readonly string[], y: readonly string[]) => x.length === y.length && x.every((k, i) => k === y[i]);
  return same(a.done, b.done) && same(a.missed, b.missed) && same(a.mine, b.mine) && same(a.samples, b.samples);
}

function allRings(watched: readonly Watched[]): Ring[] {
  return watched.flatMap(({ job, name, cues }) =>
    (cues ?? []).map((cue) => ({ key: keyOf(job, cue.id), job, name, cue })),
  );
}

/** A cue that is gone, as when its bath has ended, is forgotten; one that is not known yet is kept. */
function forgetGone(watched: readonly Watched[], all: readonly Ring[], sets: readonly Set<string>[]): void {
  const there = new Set(all.map((r) => r.key));
  const unknown = new Set(watched.filter((w) => w.cues === null).map((w) => w.job));
  for (const set of sets)
    for (const key of set) {
      const [job = ""] = key.split(" ", 1);
      if (!there.has(key) && !unknown.has(job)) set.delete(key);
    }
}

function byTime(a: Ring, b: Ring): number {
  return a.cue.at_ms - b.cue.at_ms || (a.key < b.key ? -1 : 1);
}
