import { getMeta, setMeta } from "../journal/meta";
import type { DB, EntryRow } from "../journal/schema";
import { CLOCK_STEP_MS, stampClock, type Stamper } from "../journal/stamp";
import { SHELF } from "./ids";
import { timeText } from "./times";

/**
 * Keeps how far this device's clock is from the studio machine's, and records it in this device's
 * chain of each open treatment where it has changed by enough (law 7). Returns what was written.
 */
export async function recordOffset(
  db: DB,
  core: Stamper,
  offset_ms: number,
  isOpen: (job: string) => boolean,
  now: () => number,
  epoch: number,
): Promise<EntryRow[]> {
  await setMeta(db, "offset_ms", offset_ms);
  const dev = await getMeta(db, "dev");
  const rows: EntryRow[] = [];
  for (const head of await db.getAll("heads")) {
    const changed = Math.abs(offset_ms - (head.offset_ms ?? 0)) >= CLOCK_STEP_MS;
    if (!changed || head.dev !== dev || head.job === SHELF || !isOpen(head.job)) continue;
    rows.push(...(await stampClock(db, core, head.job, timeText(now()), epoch, now)));
  }
  return rows;
}
