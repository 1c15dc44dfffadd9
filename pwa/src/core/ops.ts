// The core's operations, typed. Their other half is the Go package pwa/core/bridge.
import type { Unstamped, Head, StampedLine } from "../journal/stamp";
import type { FieldError, LogPage, Problem, Result } from "./api";
import type { Shown } from "./messages";
import { textOf, type Answer, type CoreInstance } from "./wasm";

const parsed = <T>(b: Uint8Array): T => JSON.parse(textOf(b)) as T;

export function stamp(c: CoreInstance, u: Unstamped, dev: string, head: Head, clock: string, now: number): StampedLine {
  const { body, ...rest } = u;
  const a = c.call("stamp", { ...rest, dev, n: head.n, name: head.name, clock, now }, body);
  const h = a.header as Omit<StampedLine, "line">;
  return { ...h, line: textOf(a.payload) };
}

/** `bv` is the body's version: a core that does not know it takes the entry for unknown. */
export type Checked = { bv: number } & ({ errors: FieldError[] } | { body: string });

/**
 * Holds a draft against the folded state of its treatment. Gives what is wrong with it, or the body
 * as it shall be written: with numbers made of what was typed.
 */
export function check(
  c: CoreInstance,
  d: { job: string; kind: string; body: string; at: string; by: string },
  now: number,
  offset_ms: number,
): Checked {
  const { job, kind, at, by } = d;
  const a = c.call("check", { job, kind, at, by, now, offset_ms }, d.body);
  const { errors, bv } = a.header as { errors: FieldError[]; bv: number };
  return errors.length > 0 ? { errors, bv } : { body: textOf(a.payload), bv };
}

/** Of the studio's own log, `state` is the Shelf. */
export interface Folded extends Shown {
  /** JSON of Summary; empty for the studio's own log. */
  summary: string;
  /** The last entry of each chain that was folded. */
  heads: { dev: string; n: number; name: string }[];
}

/** Adds lines to a treatment's fold, in any order and any number of times. */
export function foldAdd(c: CoreInstance, job: string, lines: readonly string[]): void {
  c.call("fold.add", { job }, lines.join("\n"));
}

export function foldState(c: CoreInstance, job: string): Folded {
  const a = c.call("fold.state", { job });
  const h = a.header as { summary?: object; heads: Folded["heads"] };
  return { ...stateAndWatch(a), summary: h.summary ? JSON.stringify(h.summary) : "", heads: h.heads };
}

/** The state, and the watch behind it. */
function stateAndWatch(a: Answer): Shown {
  const { state } = a.header as { state: number };
  return { state: textOf(a.payload.subarray(0, state)), watch: textOf(a.payload.subarray(state)) };
}

/** The treatment as it stood at a time, in studio milliseconds; null before its first entry. */
export function foldAsOf(c: CoreInstance, job: string, ms: number): Shown | null {
  const shown = stateAndWatch(c.call("fold.asof", { job, ms }));
  return shown.state === "" ? null : shown;
}

export function foldLog(c: CoreInstance, job: string, from: number, count: number): LogPage {
  return parsed(c.call("fold.log", { job, from, count }).payload);
}

/** The ended steps, as rows of the reckoning of hours. */
export function foldHours(c: CoreInstance, job: string): Record<string, unknown>[] {
  return parsed(c.call("fold.hours", { job }).payload);
}

export function foldDrop(c: CoreInstance, job: string): void {
  c.call("fold.drop", { job });
}

/** Names a photograph by its SHA-256. */
export function sum(c: CoreInstance, bytes: Uint8Array): string {
  return (c.call("sum", {}, bytes).header as { blob: string }).blob;
}

/** By one of the few reckonings that this core carries. */
export function reckon(c: CoreInstance, name: string, inputs: object): Result | { problems: Problem[] } {
  return parsed(c.call("reckon.run", { name }, JSON.stringify(inputs)).payload);
}
