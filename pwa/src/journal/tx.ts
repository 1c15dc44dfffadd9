import type { IDBPTransaction, StoreNames } from "idb";
import type { DB, Schema } from "./schema";
import { Deposed, metaIn } from "./meta";

export type Names = StoreNames<Schema>;
export type WriteTx = IDBPTransaction<Schema, Names[], "readwrite">;

/** A seam for tests: called between any two steps of a write, it may throw as if the tab were killed there. */
export type Fault = (step: string) => void;

export const noFault: Fault = () => {};

/** A request that nobody waits for: when it fails, so does its transaction, which somebody waits for. */
export function unheard(request: Promise<unknown>): void {
  request.catch(() => undefined);
}

export interface WriteOptions {
  /** Strict: on the disk, not in the system's cache, when it returns. What a person did is written so. */
  durability: "strict" | "relaxed";
  /** The epoch of the tab that holds the log. Absent for what any tab may write: drafts. */
  epoch?: number;
}

/**
 * Runs one write transaction: all of `body` or nothing. What `body` awaits must be requests of the
 * transaction, since it commits by itself when there is none under way.
 */
export async function write<T>(
  db: DB,
  stores: Names[],
  o: WriteOptions,
  body: (tx: WriteTx) => Promise<T>,
): Promise<T> {
  const names: Names[] = o.epoch === undefined || stores.includes("meta") ? stores : [...stores, "meta"];
  const tx = db.transaction(names, "readwrite", { durability: o.durability });
  // Requests that nobody awaits fail the transaction; their own rejections have been heard by that.
  const done = tx.done.then(
    () => undefined,
    (e: unknown) => ({ failed: e }),
  );
  try {
    if (o.epoch !== undefined && (await metaIn(tx, "epoch")) !== o.epoch) throw new Deposed();
    const result = await body(tx);
    const end = await done;
    if (end) throw end.failed;
    return result;
  } catch (e) {
    try {
      tx.abort();
    } catch {
      // It had ended by itself.
    }
    await done;
    throw e;
  }
}
