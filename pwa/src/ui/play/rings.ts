// What rings in a recorded day: the same rules as for the real one, but it sounds only a few times, since nobody must come.
import type { Ring } from "../ring/plan";

/** So often a played cue sounds, then it is only shown. */
export const MOST = 3;

/** How often each ring that stands has sounded. Keys of the planner. */
export type Times = ReadonlyMap<string, number>;

/** Which of what rings sounds now, and how often each has sounded then. What has gone is forgotten. */
export function soundNow(ring: readonly Ring[], before: Times): { sound: readonly Ring[]; times: Times } {
  const sound = ring.filter((r) => (before.get(r.key) ?? 0) < MOST);
  const times = new Map(ring.map((r) => [r.key, Math.min(MOST, (before.get(r.key) ?? 0) + 1)] as const));
  return { sound, times };
}

/** Something rings that has not sounded yet. */
export function isFresh(ring: readonly Ring[], before: Times): boolean {
  return ring.some((r) => !before.has(r.key));
}
