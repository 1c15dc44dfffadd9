// Playing the sample studio's wash day: who asks for it, what plays, and the clock that drives it.
import { batch, computed, signal } from "@preact/signals";
import type { Core } from "../../core/api";
import { who } from "../base/remember";
import { playTime } from "../base/time";
import { dayKey } from "../base/words";
import { wholeLog } from "../log/whole";
import { go, route } from "../route";
import { PlayedCore } from "./played-core";
import { madeBy, nextCut, playedAt, reelOf, skipTo, turned, type Cut, type Reel, type Tape } from "./reel";

/** How fast the day is played: a minute a second. */
export const FAST = 60;
/** The clock is looked at so often, in milliseconds: often enough for digits that run. */
const LOOK_MS = 250;

export interface Play {
  core: PlayedCore;
  reel: Reel;
  jobs: readonly string[];
  /** Who was at the sink before. */
  was: string;
}

/** What is played; null while nothing is. */
export const playing = signal<Play | null>(null);
export const tape = signal<Tape>({ real: 0, played: 0, rate: 0 });
/** The played time in studio milliseconds, as it was last looked at. */
export const played = signal(0);
/** The played time that all treatments are shown as of; what rings goes by it. */
export const settled = signal(0);
/** The last skip, for the bar to say: from and to. */
export const skipped = signal<{ from: number; to: number } | null>(null);
export const isOver = computed(() => playing.value !== null && played.value >= playing.value.reel.to);

let timer: ReturnType<typeof setInterval> | undefined;
/** The recorded day is being read: who asks again meanwhile waits for the same. */
let starting: Promise<boolean> | null = null;
/** Counts the looks; only the latest may say that all is shown. */
let looks = 0;
/** Treatments that are being read as of another time. */
let reading = 0;
/** Of each treatment, how many entries and which minute are shown. */
const shown = new Map<string, string>();

/** Starts playing, once. False where no sample has a recorded day. */
export function startPlay(core: Core): Promise<boolean> {
  starting ??= start(core).finally(() => (starting = null));
  return starting;
}

async function start(core: Core): Promise<boolean> {
  if (playing.peek()) return true;
  const samples = core.treatments.peek().filter((t) => t.sample && !t.removed);
  const logs = await Promise.all(samples.map(async (t) => ({ job: t.job, lines: await wholeLog(core, t.job) })));
  const cuts = logs.flatMap(({ job, lines }) =>
    lines.map((l): Cut => ({ ms: l.at.recorded_ms, job, kind: l.kind, say: l.say })),
  );
  const reel = reelOf(cuts, dayKey);
  if (!reel) return false;
  // Whoever has gone on to another screen meanwhile is not fetched back.
  if (route.peek().at !== "play") return true;
  const jobs = [...new Set(reel.cuts.map((c) => c.job))];
  const summaries = samples.filter((t) => jobs.includes(t.job));
  shown.clear();
  batch(() => {
    tape.value = { real: performance.now(), played: reel.from, rate: FAST };
    played.value = reel.from;
    settled.value = reel.from;
    skipped.value = null;
    playing.value = { core: new PlayedCore(core, summaries, () => played.peek()), reel, jobs, was: who.peek() };
  });
  playTime(() => playedAt(tape.peek(), performance.now()));
  timer = setInterval(() => void look(), LOOK_MS);
  go("#/");
  await look();
  return true;
}

export function leavePlay(): void {
  clearInterval(timer);
  const p = playing.peek();
  playTime(null);
  batch(() => {
    playing.value = null;
    skipped.value = null;
  });
  if (p) who.value = p.was;
  go("#/");
}

export function setRate(rate: number): void {
  tape.value = turned(tape.peek(), performance.now(), { rate });
  void look();
}

/** Sets the played clock, within the day. */
export function setPlayed(ms: number): void {
  const p = playing.peek();
  if (!p) return;
  const to = Math.min(Math.max(ms, p.reel.from), p.reel.to);
  tape.value = turned(tape.peek(), performance.now(), { played: to });
  skipped.value = null;
  void look();
}

/** Goes to just after the next entry. */
export function toNext(): void {
  const p = playing.peek();
  const next = p && nextCut(p.reel, played.peek());
  if (next) setPlayed(next.ms + 1000);
}

/** Moves everything to the played time: the clock itself, and the treatments that have changed by then. */
async function look(): Promise<void> {
  const p = playing.peek();
  if (!p) return;
  let now = Math.min(playedAt(tape.peek(), performance.now()), p.reel.to);
  if (now >= p.reel.to && tape.peek().rate > 0)
    tape.value = turned(tape.peek(), performance.now(), { rate: 0, played: p.reel.to });
  const to = tape.peek().rate > 0 ? skipTo(p.reel, now) : null;
  if (to !== null) {
    skipped.value = { from: now, to };
    tape.value = turned(tape.peek(), performance.now(), { played: to });
    now = to;
  }
  played.value = now;
  const mine = ++looks;
  for (const job of p.jobs) {
    const stands = `${madeBy(p.reel, job, now)}`;
    if (shown.get(job) === stands) continue;
    shown.set(job, stands);
    reading++;
    try {
      await p.core.show(job, now);
    } catch {
      // The core did not answer: the next look asks again.
      shown.delete(job);
    } finally {
      reading--;
    }
  }
  if (mine === looks && reading === 0) settled.value = now;
}
