// What comes from the studio machine, in one transaction. It is written with relaxed durability:
// whoever sent it keeps it, and the heads, which say what is held here, are in the same transaction.
import { under, type ChainKey, type DB, type EntryRow, type HeadRow, type ReceiptRow, type SummaryRow } from "./schema";
import { metaIn, putMetaIn } from "./meta";
import { removePhotoIn } from "./photos";
import { write, type WriteTx, unheard } from "./tx";

export interface Incoming {
  /** Other devices' chains to forget: the studio machine holds another branch and sends that. */
  drop: ChainKey[];
  /** Each the next of its chain. */
  store: EntryRow[];
  /** The clock after these entries, 16 hexadecimal digits. */
  clock: string;
  receipts: ReceiptRow[];
  /** All that the studio machine said of treatments before is void. */
  forget: boolean;
  summaries: { job: string; open: boolean; removed: boolean; text: string }[];
  generation: string | undefined;
}

/** An entry that fits no chain that is held. */
export class Unfit extends Error {
  constructor(e: EntryRow) {
    super(`entry ${e.n} of ${e.dev} in ${e.job} does not follow what is held`);
  }
}

/** Keeps all of it, or nothing and throws. */
export function storeIncoming(db: DB, i: Incoming, epoch: number): Promise<void> {
  return write(
    db,
    ["entries", "heads", "receipts", "summaries", "snapshots", "photos", "photo_data", "meta"],
    { durability: "relaxed", epoch },
    async (tx) => {
      for (const chain of i.drop) dropChain(tx, chain);
      await storeEntries(tx, i.store);
      if (i.clock > (await metaIn(tx, "clock"))) putMetaIn(tx, "clock", i.clock);
      for (const row of i.receipts) unheard(tx.objectStore("receipts").put(row));
      if (i.forget) await forgetStudio(tx);
      for (const s of i.summaries) await storeSummary(tx, s);
      if (i.generation !== undefined) putMetaIn(tx, "generation", i.generation);
    },
  );
}

function dropChain(tx: WriteTx, [job, dev]: ChainKey): void {
  unheard(tx.objectStore("entries").delete(under(job, dev)));
  unheard(tx.objectStore("heads").delete([job, dev]));
  unheard(tx.objectStore("receipts").delete([job, dev]));
}

/**
 * Entries that are held already are passed over; a gap or another entry in a taken place is an error.
 * Lines that were let go of come again below the head that stayed.
 */
async function storeEntries(tx: WriteTx, rows: readonly EntryRow[]): Promise<void> {
  const heads = new Map<string, HeadRow>();
  for (const row of rows) {
    const key = `${row.job} ${row.dev}`;
    const head: HeadRow = heads.get(key) ??
      (await tx.objectStore("heads").get([row.job, row.dev])) ?? { job: row.job, dev: row.dev, n: 0, name: "" };
    heads.set(key, head);
    if (row.n <= head.n) {
      const held = await tx.objectStore("entries").get([row.job, row.dev, row.n]);
      const name = held?.name ?? (row.n === head.n ? head.name : row.name);
      if (name !== row.name || (!held && row.n > (head.dropped ?? 0))) throw new Unfit(row);
      if (!held) unheard(tx.objectStore("entries").add(row));
      if (row.n === head.dropped) delete head.dropped;
      continue;
    }
    if (row.n !== head.n + 1) throw new Unfit(row);
    unheard(tx.objectStore("entries").add(row));
    [head.n, head.name] = [row.n, row.name];
  }
  for (const head of heads.values()) unheard(tx.objectStore("heads").put(head));
}

async function forgetStudio(tx: WriteTx): Promise<void> {
  const store = tx.objectStore("summaries");
  for (const { job, own } of await store.getAll()) {
    if (own === undefined) unheard(store.delete(job));
    else unheard(store.put({ job, own }));
  }
}

async function storeSummary(tx: WriteTx, s: Incoming["summaries"][number]): Promise<void> {
  if (s.removed) return removeTreatment(tx, s.job);
  const store = tx.objectStore("summaries");
  const kept: SummaryRow = (await store.get(s.job)) ?? { job: s.job };
  unheard(store.put({ ...kept, studio: s.text, open: s.open }));
}

/** A sample that was removed goes from the phone too, unless the phone wrote something in it that is not sent. */
async function removeTreatment(tx: WriteTx, job: string): Promise<void> {
  const dev = await metaIn(tx, "dev");
  const [head, receipt] = await Promise.all([
    tx.objectStore("heads").get([job, dev]),
    tx.objectStore("receipts").get([job, dev]),
  ]);
  if ((head?.n ?? 0) > (receipt?.n ?? 0)) return;
  for (const name of ["entries", "heads", "receipts"] as const) unheard(tx.objectStore(name).delete(under(job)));
  unheard(tx.objectStore("snapshots").delete(job));
  unheard(tx.objectStore("summaries").delete(job));
  for (const p of await tx.objectStore("photos").getAll()) if (p.job === job) removePhotoIn(tx, p.blob);
}
