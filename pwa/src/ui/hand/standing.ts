// What is asked when somebody takes over: who is at the sink by the log, and how old what is known is.
import type { Reading, State } from "../../core/api";
import { isQ, type Q } from "../sink/quantities";

/** Who is at the sink by the log: who took over last, or has begun or ended a step since. Null where nobody has. */
export function atSink(state: State): { by: string; ms: number } | null {
  const seen = [
    ...state.takeovers.map((t) => ({ by: t.by, ms: t.at.ms })),
    ...state.steps.map((s) => ({ by: s.by, ms: s.begun.ms })),
    ...state.steps.flatMap((s) => (s.ended ? [{ by: s.ended_by, ms: s.ended.ms }] : [])),
  ].filter((x) => x.by !== "");
  return seen.reduce<{ by: string; ms: number } | null>((last, x) => (!last || x.ms >= last.ms ? x : last), null);
}

/** The latest reading of each quantity, the newest first. */
export function lastReadings(state: State): (Reading & { q: Q })[] {
  return Object.values(state.last)
    .filter((r): r is Reading & { q: Q } => isQ(r.q))
    .sort((a, b) => b.at.ms - a.at.ms);
}

/** People to choose from: of this device and the studio first, then who has worked here; never who hands over. */
export function knownHands(state: State, known: readonly string[], from: string): string[] {
  const worked = [...state.steps.flatMap((s) => [s.by, s.ended_by]), ...state.takeovers.flatMap((t) => [t.by, t.from])];
  return [...new Set([...known, ...worked])].filter((w) => w !== "" && w !== from).slice(0, 6);
}
