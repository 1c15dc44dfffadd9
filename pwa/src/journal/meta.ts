import type { IDBPTransaction, StoreNames } from "idb";
import type { DB, Meta, Schema } from "./schema";

const initial: Meta = {
  dev: "",
  label: "",
  studio: "",
  revoked: false,
  clock: "0000000000000000",
  offset_ms: 0,
  epoch: 0,
  generation: "",
  opened: [],
  succession: null,
};

/** Reads one single value. Only this module writes the store, so what it holds has the type of its name. */
export async function getMeta<K extends keyof Meta>(db: DB, key: K): Promise<Meta[K]> {
  return ((await db.get("meta", key)) as Meta[K] | undefined) ?? initial[key];
}

export async function setMeta<K extends keyof Meta>(db: DB, key: K, value: Meta[K]): Promise<void> {
  await db.put("meta", value, key);
}

export async function allMeta(db: DB): Promise<Meta> {
  const tx = db.transaction("meta");
  const [keys, values] = await Promise.all([tx.store.getAllKeys(), tx.store.getAll()]);
  return { ...initial, ...Object.fromEntries(keys.map((k, i) => [k, values[i]])) };
}

type WithMeta<Mode extends IDBTransactionMode> = IDBPTransaction<Schema, StoreNames<Schema>[], Mode>;

/** Reads one single value inside a transaction that covers `meta`. */
export async function metaIn<K extends keyof Meta>(tx: WithMeta<"readwrite">, key: K): Promise<Meta[K]> {
  return ((await tx.objectStore("meta").get(key)) as Meta[K] | undefined) ?? initial[key];
}

export function putMetaIn<K extends keyof Meta>(tx: WithMeta<"readwrite">, key: K, value: Meta[K]): void {
  // Its failure fails the transaction, which the caller waits for.
  tx.objectStore("meta")
    .put(value, key)
    .catch(() => undefined);
}

/** The log is held by another tab now: what this one was about to write is refused. */
export class Deposed extends Error {
  constructor() {
    super("another tab holds the log");
  }
}

/**
 * Takes the log over: raises the epoch and returns it. From now on an earlier holder writes nothing
 * more. It need not outlive a power cut, which no earlier holder does either.
 */
export async function raiseEpoch(db: DB): Promise<number> {
  const tx = db.transaction("meta", "readwrite", { durability: "relaxed" });
  const epoch = (((await tx.store.get("epoch")) as number | undefined) ?? initial.epoch) + 1;
  await tx.store.put(epoch, "epoch");
  await tx.done;
  return epoch;
}
