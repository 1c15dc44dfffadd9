// What the phone keeps, and under which keys. One database, written by the workers alone: the
// screens read the snapshots from it, so that a start paints before the worker is up.
//
// store      key               holds
// entries    [job, dev, n]     lines as their authors wrote them; index `draft` for own ones
// heads      [job, dev]        the last entry of each chain
// drafts     id                taps that are not stamped yet
// receipts   [job, dev]        the studio machine's signature over the head of a chain that it has
// summaries  job               one line on every treatment, from the studio machine or from our own fold
// aside      name              entries of a refused branch, kept for the archive
// snapshots  job               folded state, with the core build and the heads that it was folded from
// photos     blob              photographs: what is known of them
// photo_data blob              their bytes
// meta       name              single values, listed in Meta
import { openDB, type DBSchema, type IDBPDatabase } from "idb";

export const DB_NAME = "sinkside";
export const DB_VERSION = 2;

export type ChainKey = [job: string, dev: string];
export type EntryKey = [job: string, dev: string, n: number];

export interface EntryRow {
  job: string;
  dev: string;
  n: number;
  name: string;
  /** The author's bytes; an entry is valid UTF-8, so a string holds them without loss. */
  line: string;
  /** The draft that became this entry. A tap that is sent twice finds its entry by it. */
  draft?: string;
}

export interface HeadRow {
  job: string;
  dev: string;
  n: number;
  name: string;
  /** Own chains: the clock offset that the chain's last `clock` entry records. */
  offset_ms?: number;
  /** The lines up to this place were let go of; they come again when the treatment is opened. */
  dropped?: number;
}

export interface DraftRow {
  id: string;
  job: string;
  kind: string;
  bv: number;
  /** JSON text of an object. */
  body: string;
  at: string;
  by: string;
  /** When the tap was saved, by this device's clock: drafts are stamped in this order. */
  made_ms: number;
  /** The person was told that it is safe: it must become an entry, whatever a check says. */
  promised: boolean;
}

export interface ReceiptRow {
  job: string;
  dev: string;
  n: number;
  name: string;
  /** Base64url. */
  sig: string;
}

export interface SummaryRow {
  job: string;
  /** JSON of the Summary as the studio machine sent it. */
  studio?: string;
  /** The studio machine calls it open: its whole log comes to every phone. */
  open?: boolean;
  /** JSON of the Summary of our own fold; it goes before the studio's. */
  own?: string;
}

export interface AsideRow {
  name: string;
  job: string;
  dev: string;
  n: number;
  line: string;
}

export interface SnapshotRow {
  job: string;
  /** Hash of the core that folded it: another core never trusts it. */
  build: string;
  /** The heads it was folded from, as `headsText` writes them. */
  heads: string;
  /** JSON of State, and of Watch. */
  state: string;
  watch: string;
}

export interface PhotoRow {
  /** SHA-256, base64url. */
  blob: string;
  job: string;
  type: string;
  /** Bytes. */
  size: number;
  /** The studio machine has it on its disk. */
  sent: boolean;
  /** Drafts that mention it, whatever became of them. */
  drafts: string[];
}

/** This phone goes on under another id. Kept from before the id is claimed until it is carried out. */
export interface Succession {
  /** Claims one id, however often it is sent. Empty when the id came by pairing anew. */
  nonce: string;
  old: string;
  /** The new id, once known. */
  next: string;
  /** Chains that the studio machine refused, from place `from` on. Of others, what has no receipt is issued again. */
  forked: { job: string; from: number }[];
}

export interface Meta {
  dev: string;
  label: string;
  studio: string;
  revoked: boolean;
  /** Last reading of the hybrid clock, 16 hexadecimal digits. */
  clock: string;
  /** Studio time minus this device's time, as last measured. */
  offset_ms: number;
  /** Rises with each new holder of the log; a transaction of an earlier holder fails by it. */
  epoch: number;
  /** Generation of the studio's summaries that we hold. */
  generation: string;
  /** Treatments that a person opened though they are closed. */
  opened: string[];
  succession: Succession | null;
}

export interface Schema extends DBSchema {
  entries: { key: EntryKey; value: EntryRow; indexes: { draft: string } };
  heads: { key: ChainKey; value: HeadRow };
  drafts: { key: string; value: DraftRow };
  receipts: { key: ChainKey; value: ReceiptRow };
  summaries: { key: string; value: SummaryRow };
  aside: { key: string; value: AsideRow };
  snapshots: { key: string; value: SnapshotRow };
  photos: { key: string; value: PhotoRow };
  photo_data: { key: string; value: Uint8Array<ArrayBuffer> };
  meta: { key: string; value: unknown };
}

export type DB = IDBPDatabase<Schema>;

/** Opens the database; `outdated` is called when a newer app in another tab waits to change its layout. */
export function openJournal(outdated: () => void = () => {}): Promise<DB> {
  return openDB<Schema>(DB_NAME, DB_VERSION, {
    upgrade(db, before) {
      if (before < 1) first(db);
      db.createObjectStore("photos", { keyPath: "blob" });
      db.createObjectStore("photo_data");
    },
    blocking(_now, _blocked, event) {
      (event.target as IDBDatabase).close();
      outdated();
    },
  });
}

/** The layout of version 1. */
function first(db: DB): void {
  const entries = db.createObjectStore("entries", { keyPath: ["job", "dev", "n"] });
  entries.createIndex("draft", "draft", { unique: true });
  db.createObjectStore("heads", { keyPath: ["job", "dev"] });
  db.createObjectStore("drafts", { keyPath: "id" });
  db.createObjectStore("receipts", { keyPath: ["job", "dev"] });
  db.createObjectStore("summaries", { keyPath: "job" });
  db.createObjectStore("aside", { keyPath: "name" });
  db.createObjectStore("snapshots", { keyPath: "job" });
  db.createObjectStore("meta");
}

/** A key range over everything that stands under a prefix of an array key. */
export function under(...prefix: string[]): IDBKeyRange {
  return IDBKeyRange.bound(prefix, [...prefix, []]);
}

/** The heads of a treatment's chains as one text: two texts are equal when the same entries are held. */
export function headsText(heads: readonly HeadRow[]): string {
  return heads
    .map((h) => `${h.dev} ${h.n} ${h.name}`)
    .sort()
    .join("\n");
}
