// What the screens know of everything below them: the worker, the Go core, the store on the
// phone and the way to the studio machine are all behind this one interface.
import type { ReadonlySignal } from "@preact/signals";
import type { FieldError, LogLine, Problem, Reckoning, Result, Shelf, State, Summary, Watch } from "./types.gen";

export type * from "./types.gen";

/** The phone's standing: towards the studio machine, its own storage and its other tabs. */
export interface Status {
  /** The studio machine knows this device. */
  paired: boolean;
  /** The studio machine has shut this device out; what it has not sent can still be saved to a file. */
  revoked: boolean;
  /** This device's id. Empty until the first start has made one. */
  dev: string;
  /** What the studio calls this device. */
  label: string;
  /** The studio's name. */
  studio: string;
  link: "off" | "connecting" | "on";
  /** Own entries that the studio machine has not acknowledged, drafts included. */
  unsent: number;
  /** Taps that are safe on the phone and wait for the core to be stamped. */
  drafts: number;
  /** This tab holds the log; other tabs follow it. */
  leader: boolean;
  core: "loading" | "ready" | "failed";
  /** The browser has promised not to evict what is stored. */
  persisted: boolean;
  /** Bytes used and allowed, as the browser says; 0 where it does not say. */
  usage: number;
  quota: number;
  /** Little room is left on the phone. */
  storageLow: boolean;
  /** Studio time minus this device's time, in milliseconds. */
  offset_ms: number;
  /** Devices that are armed to ring, this one included; its own word only while the studio machine is out of reach. */
  armed: number;
  /** A newer app has been fetched and waits for `applyUpdate`. */
  update: boolean;
  /** The studio machine cannot keep more. */
  diskFull: boolean;
  /** A sentence for the person, or empty. */
  problem: string;
}

/** An entry that is durable on the phone. */
export interface Written {
  /** The entry's name. While the core is loading: the id of the draft that will become it. */
  entry: string;
  /** From the tap to durable, in milliseconds. */
  ms: number;
}

export interface WriteRequest {
  job: string;
  kind: string;
  body: object;
  /** When it happened, RFC 3339 with offset; now where absent. */
  at?: string;
  /** Initials of the person. */
  by: string;
}

export interface PhotoRequest {
  job: string;
  /** As the camera or the file gave it; made smaller before it is kept. */
  image: Blob;
  /** Entry that it belongs to. */
  of?: string;
  text?: string;
  at?: string;
  by: string;
}

export interface Core {
  readonly status: ReadonlySignal<Status>;
  readonly treatments: ReadonlySignal<Summary[]>;
  readonly shelf: ReadonlySignal<Shelf>;
  /** The library of reckonings is kept on this device. */
  readonly library: ReadonlySignal<boolean>;
  /** The folded state of one treatment. Painted from the snapshot first; null while nothing is known. */
  dossier(job: string): ReadonlySignal<State | null>;
  /** What must be watched in a treatment. Comes and changes together with its dossier. */
  watch(job: string): ReadonlySignal<Watch | null>;
  /** A treatment as it stood at a time of its log, in studio milliseconds; for playing a recorded day. */
  asOf(job: string, ms: number): Promise<{ state: State; watch: Watch } | null>;
  /** Says to the studio machine whether this device would ring now. */
  arm(armed: boolean): void;
  /** Resolves when photograph and entry are durable on the phone. */
  keepPhoto(p: PhotoRequest): Promise<Written>;
  /** The photograph of this name, from the phone or the studio machine; null when neither has it. */
  photo(blob: string): Promise<Blob | null>;
  /** Resolves when the entry is durable on the phone; rejects with FieldError[]. */
  write(d: WriteRequest): Promise<Written>;
  /** Opens a new treatment and resolves with its id; rejects with FieldError[]. */
  newTreatment(name: string, by: string): Promise<string>;
  /** Fetches the log of a treatment that this phone does not carry, such as a closed one. */
  open(job: string): Promise<void>;
  log(job: string, from: number, count: number): Promise<LogPage>;
  /** The ended steps of a treatment, as rows of the reckoning of hours. */
  worked(job: string): Promise<Record<string, unknown>[]>;
  /** All reckonings, from the library. Rejects with a sentence while that is not on this device. */
  reckonings(): Promise<Reckoning[]>;
  reckon(name: string, inputs: object): Promise<Result | { problems: Problem[] }>;
  /** Everything that has not reached the studio machine, as a file to save. */
  unsentFile(): Promise<UnsentFile>;
  pair(code: string, label: string): Promise<{ ok: true } | { say: string }>;
  /** Starts the newer app that `status.update` announces. */
  applyUpdate(): void;
  /** Asks the browser not to evict what is stored. */
  askPersist(): Promise<boolean>;
}

export interface LogPage {
  total: number;
  lines: LogLine[];
}

export interface UnsentFile {
  name: string;
  text: string;
  count: number;
}

/** True of what `write` and `newTreatment` reject with when the person can put it right. */
export function isFieldErrors(e: unknown): e is FieldError[] {
  return Array.isArray(e) && e.every((x) => typeof x === "object" && x !== null && "field" in x && "say" in x);
}
