// From draft to entry, in one transaction: the head of the chain is read, the core stamps and hashes
// without giving up the thread, the entry goes in, the draft goes out, head and clock move on. A tab
// killed at any point leaves the draft or the entry, never both and never neither.
import type { DB, EntryRow, HeadRow } from "./schema";
import { metaIn, putMetaIn } from "./meta";
import { noFault, write, type Fault, type WriteTx, unheard } from "./tx";

/** What a person did, before it has a place in a chain. */
export interface Unstamped {
  job: string;
  kind: string;
  bv: number;
  body: string;
  at: string;
  by: string;
  was?: string;
}

export interface Head {
  n: number;
  name: string;
}

export interface StampedLine {
  line: string;
  n: number;
  name: string;
  /** The clock after it. */
  t: string;
}

/** The core's part. It must answer at once: IndexedDB closes a transaction that waits for anything else. */
export interface Stamper {
  stamp(u: Unstamped, dev: string, head: Head, clock: string, now: number): StampedLine;
}

export interface Stamped {
  /** The entry that the draft became; it may have been one before. */
  entry: EntryRow;
  /** All that this call wrote, in order: a `clock` entry may come first. */
  wrote: EntryRow[];
}

/** What a check made of a draft; the rest stays as it was saved. */
export type Made = Partial<Pick<Unstamped, "body" | "bv">>;

/** A clock that moved by this much is recorded before the next entry (law 7). */
export const CLOCK_STEP_MS = 2000;

export class NoDevice extends Error {
  constructor() {
    super("this device is not paired yet");
  }
}

/**
 * Makes the draft an entry, with what a check made of it. Undefined when there is neither
 * draft nor entry: a check had refused it.
 */
export function stampDraft(
  db: DB,
  core: Stamper,
  id: string,
  made: Made,
  epoch: number,
  now: () => number,
  fault: Fault = noFault,
): Promise<Stamped | undefined> {
  return write(db, ["drafts", "entries", "heads", "meta"], { durability: "strict", epoch }, async (tx) => {
    fault("before the draft is read");
    const draft = await tx.objectStore("drafts").get(id);
    if (!draft) {
      const entry = await tx.objectStore("entries").index("draft").get(id);
      return entry && { entry, wrote: [] };
    }
    const chain = await openChain(tx, core, draft.job, now, fault);
    chain.tellClock(draft);
    fault("before the entry");
    const entry = chain.add({ ...draft, ...made }, id);
    fault("before the draft goes");
    unheard(tx.objectStore("drafts").delete(id));
    fault("before head and clock");
    chain.close();
    fault("before the commit");
    return { entry, wrote: chain.wrote };
  });
}

/** Records a changed clock in one chain of this device, if it changed by enough. */
export function stampClock(
  db: DB,
  core: Stamper,
  job: string,
  at: string,
  epoch: number,
  now: () => number,
): Promise<EntryRow[]> {
  return write(db, ["entries", "heads", "meta"], { durability: "strict", epoch }, async (tx) => {
    const chain = await openChain(tx, core, job, now, noFault);
    chain.tellClock({ at, by: "" });
    chain.close();
    return chain.wrote;
  });
}

/** This device's chain in one treatment, open for writing inside a transaction. */
export async function openChain(tx: WriteTx, core: Stamper, job: string, now: () => number, fault: Fault) {
  const dev = await metaIn(tx, "dev");
  if (!dev) throw new NoDevice();
  const [kept, clock, offset] = await Promise.all([
    tx.objectStore("heads").get([job, dev]),
    metaIn(tx, "clock"),
    metaIn(tx, "offset_ms"),
  ]);
  fault("before the stamp");
  const head: HeadRow = kept ?? { job, dev, n: 0, name: "" };
  let t = clock;
  const wrote: EntryRow[] = [];

  function add(u: Unstamped, draft?: string): EntryRow {
    const s = core.stamp(u, dev, { n: head.n, name: head.name }, t, now());
    const row: EntryRow = { job, dev, n: s.n, name: s.name, line: s.line, ...(draft ? { draft } : {}) };
    // `add` fails on a taken place, and with it the whole transaction: a head that lags behind its
    // chain must never fork it.
    unheard(tx.objectStore("entries").add(row));
    [head.n, head.name, t] = [s.n, s.name, s.t];
    wrote.push(row);
    return row;
  }

  /** Puts a `clock` entry in front of what follows when this device's clock has changed. */
  function tellClock(of: { at: string; by: string }) {
    if (Math.abs(offset - (head.offset_ms ?? 0)) < CLOCK_STEP_MS) return;
    add({ job, kind: "clock", bv: 1, body: JSON.stringify({ offset_ms: offset }), at: of.at, by: of.by });
    head.offset_ms = offset;
  }

  function close() {
    if (wrote.length === 0) return;
    unheard(tx.objectStore("heads").put(head));
    putMetaIn(tx, "clock", t);
  }

  return { add, tellClock, close, wrote };
}
