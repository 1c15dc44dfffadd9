// Going on under another device id: after a fork, or when this browser was paired anew. What the
// studio machine has not acknowledged is issued again under the new id, each entry with the name that
// it had; the old entries are kept aside. All of it happens in one transaction.
import { type AsideRow, type DB, type EntryRow, type HeadRow, type Succession } from "./schema";
import { metaIn, putMetaIn } from "./meta";
import { noFault, write, type Fault, type WriteTx, unheard } from "./tx";

/** The core's part: writes entries again, in the same order. It answers at once. */
export interface Reissuer {
  reissue(old: readonly EntryRow[], dev: string, heads: readonly HeadRow[]): EntryRow[];
}

/** Carries the succession out and returns the treatments whose entries have changed. */
export function carryOut(
  db: DB,
  core: Reissuer,
  s: Succession,
  epoch: number,
  fault: Fault = noFault,
): Promise<string[]> {
  return write(
    db,
    ["entries", "heads", "receipts", "aside", "snapshots", "meta"],
    { durability: "strict", epoch },
    async (tx) => {
      fault("before the refused branch is read");
      const old = await cutBack(tx, s);
      fault("before it is written again");
      const newHeads = (await tx.objectStore("heads").getAll()).filter((h) => h.dev === s.next);
      const again = core.reissue(old, s.next, newHeads);
      for (const [i, row] of again.entries()) {
        const draft = old[i]?.draft;
        unheard(tx.objectStore("entries").add(draft === undefined ? row : { ...row, draft }));
        // Without an offset: the new chain has not recorded any.
        unheard(tx.objectStore("heads").put({ job: row.job, dev: row.dev, n: row.n, name: row.name }));
      }
      fault("before the new id");
      putMetaIn(tx, "dev", s.next);
      putMetaIn(tx, "succession", null);
      fault("before the succession commits");
      return [...new Set(old.map((row) => row.job))];
    },
  );
}

/** Takes the old id's entries without a receipt out of their chains, in order, and keeps them aside. */
async function cutBack(tx: WriteTx, s: Succession): Promise<EntryRow[]> {
  const [heads, receipts] = await Promise.all([tx.objectStore("heads").getAll(), tx.objectStore("receipts").getAll()]);
  const old: EntryRow[] = [];
  for (const head of heads.filter((h) => h.dev === s.old)) {
    const { job, dev } = head;
    const acked = receipts.find((r) => r.job === job && r.dev === dev)?.n ?? 0;
    const from = s.forked.find((f) => f.job === job)?.from ?? acked + 1;
    if (from > head.n) continue;
    const range = IDBKeyRange.bound([job, dev, from], [job, dev, []]);
    const rows = await tx.objectStore("entries").getAll(range);
    for (const { name, n, line } of rows) {
      const aside: AsideRow = { name, job, dev, n, line };
      unheard(tx.objectStore("aside").put(aside));
    }
    unheard(tx.objectStore("entries").delete(range));
    unheard(tx.objectStore("snapshots").delete(job));
    await moveHead(tx, head, from - 1);
    if (acked >= from) unheard(tx.objectStore("receipts").delete([job, dev]));
    old.push(...rows);
  }
  return old;
}

/** Sets a chain's head back to place n. */
async function moveHead(tx: WriteTx, head: HeadRow, n: number): Promise<void> {
  const { job, dev } = head;
  const last = n === 0 ? undefined : await tx.objectStore("entries").get([job, dev, n]);
  if (last) unheard(tx.objectStore("heads").put({ job, dev, n, name: last.name }));
  else unheard(tx.objectStore("heads").delete([job, dev]));
}

/** Notes that this phone must go on under another id, before anybody is asked for one. */
export function noteSuccession(db: DB, s: Succession, epoch: number): Promise<void> {
  return write(db, ["meta"], { durability: "strict", epoch }, async (tx) => {
    if ((await metaIn(tx, "succession")) === null || s.next !== "") putMetaIn(tx, "succession", s);
  });
}
