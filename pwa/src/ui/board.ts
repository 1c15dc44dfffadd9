// What is due next over several treatments: the order of the cards on the first page and on the studio page.
import type { Cue, State, Step, Summary, Watch } from "../core/api";

export interface Open {
  summary: Summary;
  state: State | null;
  watch: Watch | null;
  running: readonly Step[];
}

/** Something that is due, or was. Time in studio milliseconds. */
export interface DueThing {
  at_ms: number;
  /** "Rinse 3: pH is due" */
  say: string;
  /** Once its time has gone by, where that is said otherwise. */
  over?: string;
}

/** A card of the board: a step that runs, or a textile that rests. */
export interface Card {
  of: Open;
  step: Step | null;
  due: DueThing | null;
}

/** Cards that have something due, the earliest first; then those that rest, wet ones before dry ones. */
export function cardsOf(open: readonly Open[]): Card[] {
  return open.flatMap(cardsOfOne).sort(byDue);
}

function cardsOfOne(of: Open): Card[] {
  const loose = looseCues(of);
  const steps = of.running.map((step) => ({ of, step, due: dueOfStep(of.watch, step) }));
  if (steps.length === 0) return [{ of, step: null, due: firstOf(loose) }];
  // What concerns the whole textile stands on the card that is due first.
  const first = [...steps].sort(byDue)[0];
  return steps.map((c) => (c === first ? { ...c, due: firstOf([...loose, ...(c.due ? [c.due] : [])]) } : c));
}

/** The first of a step's cues that nobody has acknowledged, its target, or its next check; null where nothing is asked of it. */
export function dueOfStep(watch: Watch | null, step: Step): DueThing | null {
  const all: DueThing[] = (watch?.cues ?? []).filter((c) => c.of === step.entry && counts(c));
  if (step.target_s > 0)
    all.push({ at_ms: step.begun.ms + step.target_s * 1000, say: "its target", over: "past its target" });
  if (watch?.drying?.of === step.entry) all.push({ at_ms: watch.drying.next_ms, say: "check the drying" });
  return firstOf(all);
}

/** Cues of no step that runs: how long it has been wet, who was to be back. */
function looseCues(of: Open): DueThing[] {
  const steps = of.running.map((s) => s.entry);
  return (of.watch?.cues ?? []).filter((c) => !steps.includes(c.of) && counts(c));
}

/** Not acknowledged; and not a notice that a target comes near, which the target itself says. */
function counts(c: Cue): boolean {
  return c.heard_by === "" && c.kind !== "ahead";
}

function firstOf(all: readonly DueThing[]): DueThing | null {
  return all.reduce<DueThing | null>((first, d) => (first === null || d.at_ms < first.at_ms ? d : first), null);
}

function byDue(a: Card, b: Card): number {
  return dueMs(a) - dueMs(b) || rank(a) - rank(b) || b.of.summary.last_day - a.of.summary.last_day || byName(a, b);
}

function dueMs(c: Card): number {
  return c.due?.at_ms ?? Number.MAX_SAFE_INTEGER;
}

function rank({ step, of }: Card): number {
  if (step) return 0;
  return of.state && of.state.wet_since_ms !== null ? 1 : 2;
}

function byName(a: Card, b: Card): number {
  return a.of.summary.name < b.of.summary.name ? -1 : 1;
}
