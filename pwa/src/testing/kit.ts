// What the tests share: a database of their own, the real core, a clock that they turn, and a way to
// be killed between any two steps. Not part of the app.
import { readFileSync } from "node:fs";
import "fake-indexeddb/auto";
import { IDBFactory } from "fake-indexeddb";
import { CoreInstance } from "../core/wasm";
import * as ops from "../core/ops";
import { openJournal, type DB, type DraftRow, type EntryRow } from "../journal/schema";
import { setMeta } from "../journal/meta";
import type { Stamper } from "../journal/stamp";
import type { Fault } from "../journal/tx";

export const DEV = "01JDDDDDDDDDDDDDDDDDDDDDDD";
export const JOB = "01JAAAAAAAAAAAAAAAAAAAAAAA";
/** 2026-03-04 11:02:11 UTC. */
export const NOON = 1772622131000;

/** A new, empty phone: forgets every database that was there. */
export function newPhone(): void {
  Object.assign(globalThis, { indexedDB: new IDBFactory() });
}

/** The database of a phone that is paired. */
export async function pairedDb(dev = DEV): Promise<DB> {
  newPhone();
  const db = await openJournal();
  await setMeta(db, "dev", dev);
  return db;
}

let module: WebAssembly.Module | undefined;

export async function compileCore(): Promise<WebAssembly.Module> {
  return (module ??= await WebAssembly.compile(readFileSync(__CORE_URL__)));
}

export async function newCore(): Promise<CoreInstance> {
  return CoreInstance.start(await compileCore());
}

let library: WebAssembly.Module | undefined;

/** The library of reckonings. */
export async function newLibrary(): Promise<CoreInstance> {
  library ??= await WebAssembly.compile(readFileSync(__LIBRARY_URL__));
  return CoreInstance.start(library);
}

export function stamperOf(c: CoreInstance): Stamper {
  return { stamp: (...args) => ops.stamp(c, ...args) };
}

export function draft(id: string, part: Partial<DraftRow> = {}): DraftRow {
  return {
    id,
    job: JOB,
    kind: "note",
    bv: 1,
    body: JSON.stringify({ text: id }),
    at: "2026-03-04T12:02:11+01:00",
    by: "RV",
    made_ms: NOON,
    promised: false,
    ...part,
  };
}

/** Thrown where a test kills the tab. */
export class Killed extends Error {}

/** A fault that kills at the nth step, counted from 0; `steps` says which steps there were. */
export function killAt(n: number): { fault: Fault; steps: string[] } {
  const steps: string[] = [];
  const fault: Fault = (step) => {
    steps.push(step);
    if (steps.length === n + 1) throw new Killed(step);
  };
  return { fault, steps };
}

export interface Line {
  n: number;
  prev?: string;
  kind: string;
  was?: string;
  body: { text?: string; offset_ms?: number };
}

export const read = (row: EntryRow): Line => JSON.parse(row.line) as Line;

/** Every rule that the chains of a database must keep, whatever happened to it; returns what is broken. */
export async function brokenChains(db: DB): Promise<string[]> {
  const broken: string[] = [];
  const entries = await db.getAll("entries");
  const heads = new Map((await db.getAll("heads")).map((h) => [`${h.job} ${h.dev}`, h]));
  const last = new Map<string, EntryRow>();
  for (const row of entries) {
    const chain = `${row.job} ${row.dev}`;
    const before = last.get(chain);
    if (row.n !== (before?.n ?? 0) + 1) broken.push(`${chain}: ${row.n} after ${before?.n ?? 0}`);
    if (read(row).prev !== before?.name) broken.push(`${chain}: ${row.n} does not name the line before it`);
    last.set(chain, row);
  }
  for (const [chain, row] of last) {
    const head = heads.get(chain);
    if (head?.n !== row.n || head.name !== row.name) broken.push(`${chain}: its head is not its last entry`);
  }
  if (heads.size !== last.size) broken.push("a head without a chain");
  return broken;
}

/** Time that passes only when a test says so. */
export class FakeTime {
  private at = NOON;
  private timers: { due: number; f: () => void }[] = [];

  readonly now = (): number => this.at;

  readonly after = (ms: number, f: () => void): (() => void) => {
    const timer = { due: this.at + ms, f };
    this.timers.push(timer);
    return () => {
      this.timers = this.timers.filter((t) => t !== timer);
    };
  };

  readonly every = (ms: number, f: () => void): (() => void) => {
    let stop = () => undefined as void;
    const again = () => {
      stop = this.after(ms, () => {
        again();
        f();
      });
    };
    again();
    return () => stop();
  };

  /** Lets time pass, each timer at its moment, and what it started run. */
  async pass(ms: number): Promise<void> {
    const end = this.at + ms;
    for (;;) {
      const next = this.timers.filter((t) => t.due <= end).sort((a, b) => a.due - b.due)[0];
      if (!next) break;
      this.timers = this.timers.filter((t) => t !== next);
      this.at = Math.max(this.at, next.due);
      next.f();
      await settle();
    }
    this.at = end;
    await settle();
  }

  /** Lets time pass with nothing running: a page that is frozen. */
  sleep(ms: number): void {
    this.at += ms;
  }
}

/** Lets everything run that is ready to. */
export async function settle(): Promise<void> {
  for (let i = 0; i < 4; i++) await new Promise((resolve) => setImmediate(resolve));
}

/** Waits for something to come true; fails with a sentence when it does not. */
export async function until(what: string, f: () => boolean | Promise<boolean>): Promise<void> {
  const end = performance.now() + 10_000;
  while (!(await f())) {
    if (performance.now() > end) throw new Error(`waited 10 s for ${what}`);
    await new Promise((resolve) => setImmediate(resolve));
  }
}
