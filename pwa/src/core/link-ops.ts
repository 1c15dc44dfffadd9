// The operations of the core's link, typed; their other half is session.go and effects.go in the bridge.
import type { EntryRow, HeadRow, ReceiptRow } from "../journal/schema";
import { textOf, type Answer, type CoreInstance } from "./wasm";

/** What the link wants done; `effects` in the bridge says what each means. */
export interface Effects {
  frames: { bytes: Uint8Array; deflate: boolean }[];
  store: EntryRow[];
  t: string;
  drop: { job: string; dev: string }[];
  receipts: ReceiptRow[];
  forget: boolean;
  summaries: { job: string; open: boolean; removed: boolean; text: string }[];
  generation: string | undefined;
  fetch: { job: string; dev: string; from: number; to: number }[];
  fork: { job: string; from: number }[];
  offset_ms: number | undefined;
  caught_up: string[];
  all_caught_up: boolean;
  notices: string[];
  /** Devices that are armed, where that has changed. */
  ringers: number | undefined;
  /** Chunks of photographs to send, in this order; `linkChunk` answers. */
  read: { blob: string; index: number }[];
  /** Photographs that are on the studio machine's disk. */
  sent: string[];
  /** 0 off, 1 greeting, 2 catching up, 3 live. */
  phase: number;
  full: boolean;
}

interface EffectsHeader {
  frames?: { size: number; deflate: boolean }[];
  store?: Omit<EntryRow, "line">[];
  t?: string;
  drop?: Effects["drop"];
  receipts?: ReceiptRow[];
  forget?: boolean;
  summaries?: { job: string; open?: boolean; removed?: boolean; text: string }[];
  generation?: string;
  fetch?: Effects["fetch"];
  fork?: Effects["fork"];
  offset_ms?: number;
  caught_up?: string[];
  all_caught_up?: boolean;
  notices?: string[];
  ringers?: number;
  read?: Effects["read"];
  sent?: string[];
  phase: number;
  full?: boolean;
}

function effects(a: Answer): Effects {
  const h = a.header as EffectsHeader;
  let at = 0;
  const frames = (h.frames ?? []).map(({ size, deflate }) => {
    // A copy: the payload is the core's memory, and frames may wait to be sent.
    const bytes = a.payload.slice(at, (at += size));
    return { bytes, deflate };
  });
  const lines = textOf(a.payload.subarray(at)).split("\n");
  return {
    frames,
    store: (h.store ?? []).map((e, i) => ({ ...e, line: lines[i] ?? "" })),
    t: h.t ?? "",
    drop: h.drop ?? [],
    receipts: h.receipts ?? [],
    forget: h.forget ?? false,
    summaries: (h.summaries ?? []).map((s) => ({ ...s, open: s.open ?? false, removed: s.removed ?? false })),
    generation: h.generation,
    fetch: h.fetch ?? [],
    fork: h.fork ?? [],
    offset_ms: h.offset_ms,
    caught_up: h.caught_up ?? [],
    all_caught_up: h.all_caught_up ?? false,
    notices: h.notices ?? [],
    ringers: h.ringers,
    read: h.read ?? [],
    sent: h.sent ?? [],
    phase: h.phase,
    full: h.full ?? false,
  };
}

const linesOf = (rows: readonly EntryRow[]): string => rows.map((r) => r.line).join("\n");

export interface LinkState {
  dev: string;
  inflate: boolean;
  heads: readonly HeadRow[];
  receipts: readonly ReceiptRow[];
  /** Treatments of which the studio machine sent a summary, by what it calls them. */
  open: readonly string[];
  closed: readonly string[];
  opened: readonly string[];
  /** Treatments whose lines were let go of. */
  dropped: readonly string[];
  generation: string;
}

export function linkNew(c: CoreInstance, s: LinkState, unsent: readonly EntryRow[], now: number): Effects {
  return effects(c.call("link.new", { ...s, now }, linesOf(unsent)));
}

export function linkStart(c: CoreInstance, now: number): Effects {
  return effects(c.call("link.start", { now }));
}

export function linkStop(c: CoreInstance, now: number): void {
  c.call("link.stop", { now });
}

/** Throws CoreError when the frame ends the connection. */
export function linkReceive(c: CoreInstance, frame: Uint8Array, now: number): Effects {
  return effects(c.call("link.receive", { now }, frame));
}

export function linkWrote(c: CoreInstance, rows: readonly EntryRow[], now: number): Effects {
  return effects(c.call("link.wrote", { now }, linesOf(rows)));
}

export function linkFetched(
  c: CoreInstance,
  job: string,
  dev: string,
  rows: readonly EntryRow[],
  now: number,
): Effects {
  return effects(c.call("link.fetched", { job, dev, now }, linesOf(rows)));
}

export function linkOpen(c: CoreInstance, job: string, now: number): Effects {
  return effects(c.call("link.open", { job, now }));
}

/** Follows a treatment no longer by hand; `dropped` when its lines were let go of too. */
export function linkClose(c: CoreInstance, job: string, dropped: boolean, now: number): Effects {
  return effects(c.call("link.close", { job, dropped, now }));
}

/** Whether this device would ring. */
export function linkArm(c: CoreInstance, armed: boolean, now: number): Effects {
  return effects(c.call("link.arm", { armed, now }));
}

/** The phone has a photograph that entries mention. */
export function linkOffer(c: CoreInstance, blob: string, size: number, now: number): Effects {
  return effects(c.call("link.offer", { blob, size, now }));
}

/** Empty: the photograph is gone. */
export function linkChunk(c: CoreInstance, blob: string, index: number, data: Uint8Array, now: number): Effects {
  return effects(c.call("link.chunk", { blob, index, now }, data));
}

export function reissue(c: CoreInstance, old: readonly EntryRow[], dev: string, heads: readonly HeadRow[]): EntryRow[] {
  const a = c.call("reissue", { dev, heads }, linesOf(old));
  const lines = textOf(a.payload).split("\n");
  const h = a.header as { entries?: Omit<EntryRow, "line">[] };
  return (h.entries ?? []).map((e, i) => ({ ...e, line: lines[i] ?? "" }));
}
