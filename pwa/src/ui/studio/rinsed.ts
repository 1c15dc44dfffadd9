// Which curves stand on the studio page: of textiles that are wet and have a reading in a rinse.
import type { Rinse } from "../../core/api";
import type { Open } from "../board";

export interface Rinsed {
  job: string;
  name: string;
  rinse: Rinse;
}

/** What runs first; a curve of a textile that is dry again is found at its sink and on its day. */
export function rinsed(open: readonly Open[]): Rinsed[] {
  const wet = open.filter((o) => o.state !== null && o.state.wet_since_ms !== null);
  return [...wet.filter((o) => o.running.length > 0), ...wet.filter((o) => o.running.length === 0)].flatMap((o) => {
    const rinse = o.watch?.rinse;
    if (!rinse || rinse.points.length === 0) return [];
    return [{ job: o.summary.job, name: o.summary.name || "Treatment without a name", rinse }];
  });
}
