// Reading what the phone keeps. Nothing here writes.
import { headsText, under, type DB, type EntryRow, type HeadRow, type ReceiptRow, type SnapshotRow } from "./schema";

/** The heads of one treatment's chains. */
export function headsOf(db: DB, job: string): Promise<HeadRow[]> {
  return db.getAll("heads", under(job));
}

/** A treatment's entries in chunks, chain by chain in order, so that folding them can pause in between. */
export async function* entriesOf(db: DB, job: string, chunk: number): AsyncGenerator<EntryRow[]> {
  let range = under(job);
  for (;;) {
    const rows = await db.getAll("entries", range, chunk);
    if (rows.length > 0) yield rows;
    const last = rows[rows.length - 1];
    if (rows.length < chunk || !last) return;
    range = IDBKeyRange.bound([last.job, last.dev, last.n], [job, []], true);
  }
}

/** One chain's entries from place n on. */
export function chainFrom(db: DB, job: string, dev: string, n: number, count?: number): Promise<EntryRow[]> {
  return db.getAll("entries", IDBKeyRange.bound([job, dev, n], [job, dev, []]), count);
}

export interface Snapshot {
  row: SnapshotRow;
  /** It shows all that the phone holds of this treatment. */
  whole: boolean;
}

/** The folded state of a treatment as this core build left it, or undefined. */
export async function snapshotOf(db: DB, job: string, build: string): Promise<Snapshot | undefined> {
  const tx = db.transaction(["snapshots", "heads"]);
  const [row, heads] = await Promise.all([
    tx.objectStore("snapshots").get(job),
    tx.objectStore("heads").getAll(under(job)),
  ]);
  if (!row || row.build !== build) return undefined;
  return { row, whole: row.heads === headsText(heads) };
}

/** One chain of this phone with entries that the studio machine has not acknowledged. */
export interface Waiting {
  job: string;
  dev: string;
  /** First place without a receipt. */
  from: number;
  /** Last place. */
  to: number;
}

/** What of a device's chains has no receipt yet. */
export function waitingIn(heads: readonly HeadRow[], receipts: readonly ReceiptRow[], dev: string): Waiting[] {
  const acked = new Map(receipts.map((r) => [`${r.job} ${r.dev}`, r.n]));
  return heads
    .filter((h) => h.dev === dev)
    .map((h) => ({ job: h.job, dev: h.dev, from: (acked.get(`${h.job} ${h.dev}`) ?? 0) + 1, to: h.n }))
    .filter((w) => w.from <= w.to);
}

export async function waiting(db: DB, dev: string): Promise<Waiting[]> {
  const tx = db.transaction(["heads", "receipts"]);
  const [heads, receipts] = await Promise.all([tx.objectStore("heads").getAll(), tx.objectStore("receipts").getAll()]);
  return waitingIn(heads, receipts, dev);
}
