// Entries from the studio machine. They are written with relaxed durability: whoever sent them keeps
// them, and the heads, which say what we hold, are in the same transaction.
import type { DB, EntryRow, HeadRow, ReceiptRow } from "./schema";
import { metaIn, putMetaIn } from "./meta";
import { write } from "./tx";

/** An entry that fits no chain that we hold. */
export class Unfit extends Error {
  constructor(e: EntryRow) {
    super(`entry ${e.n} of ${e.dev} in ${e.job} does not follow what is held`);
  }
}

/**
 * Stores entries, chain by chain in order. What is held already is passed over; a gap or another
 * entry in a taken place throws Unfit and stores nothing. Returns what was new.
 */
export function storeIncoming(db: DB, rows: readonly EntryRow[], clock: string, epoch: number): Promise<EntryRow[]> {
  return write(db, ["entries", "heads", "meta"], { durability: "relaxed", epoch }, async (tx) => {
    const heads = new Map<string, HeadRow>();
    const fresh: EntryRow[] = [];
    for (const row of rows) {
      const key = `${row.job} ${row.dev}`;
      const head = heads.get(key) ??
        (await tx.objectStore("heads").get([row.job, row.dev])) ?? { job: row.job, dev: row.dev, n: 0, name: "" };
      heads.set(key, head);
      if (row.n <= head.n) {
        const held = await tx.objectStore("entries").get([row.job, row.dev, row.n]);
        if (held && held.name !== row.name) throw new Unfit(row);
        continue;
      }
      if (row.n !== head.n + 1) throw new Unfit(row);
      void tx.objectStore("entries").add(row);
      [head.n, head.name] = [row.n, row.name];
      fresh.push(row);
    }
    for (const head of heads.values()) void tx.objectStore("heads").put(head);
    if (clock > (await metaIn(tx, "clock"))) putMetaIn(tx, "clock", clock);
    return fresh;
  });
}

/** Keeps receipts, the furthest of each chain. */
export function storeReceipts(db: DB, rows: readonly ReceiptRow[], epoch: number): Promise<void> {
  return write(db, ["receipts"], { durability: "relaxed", epoch }, async (tx) => {
    for (const row of rows) {
      const held = await tx.objectStore("receipts").get([row.job, row.dev]);
      if (!held || held.n <= row.n) void tx.objectStore("receipts").put(row);
    }
  });
}
