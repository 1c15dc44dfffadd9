// The folded treatments: what the core holds, what the snapshots say, and who is told of changes. A
// treatment whose snapshot shows everything is not folded until something new comes, or the core has
// nothing better to do.
import type { DB, EntryRow } from "../journal/schema";
import { headsText } from "../journal/schema";
import { entriesOf, headsOf, snapshotOf } from "../journal/reading";
import { write } from "../journal/tx";
import type { CoreHost } from "./host";
import type { Shown } from "./messages";
import * as ops from "./ops";
import type { CoreInstance } from "./wasm";

interface Fold {
  /** What the fold gave, once known. */
  shown?: Shown;
  /** The core that holds all entries of this treatment; another core holds none. */
  core?: CoreInstance | undefined;
  folding?: Promise<boolean> | undefined;
  entries: number;
  touched: number;
  /** No earlier than this the changed state is told again, by the host's clock. */
  notBefore: number;
  due?: (() => void) | undefined;
}

export interface FoldsHost {
  db: DB;
  core: CoreHost;
  epoch: number;
  /** Identity of the core: its snapshots are trusted, no others. */
  build: string;
  now(): number;
  after(ms: number, f: () => void): () => void;
  /** A folded state has changed. */
  folded(job: string, f: ops.Folded): void;
  /** A background write failed. */
  failed(e: unknown): void;
}

/** Entries added to the core at a time, so that a tap never waits for a whole fold. */
const CHUNK = 250;
/** More than so many entries are not held in the core; the longest untouched treatment goes first. */
const HELD_ENTRIES = 20_000;
const SAVE_AFTER_MS = 250;
const WARM_AFTER_MS = 1500;

export class Folds {
  private readonly held = new Map<string, Fold>();
  private readonly unsaved = new Map<string, ops.Folded>();
  private saving: (() => void) | undefined;
  private touches = 0;
  private latest = "";

  constructor(private readonly host: FoldsHost) {}

  /** A treatment's state and what must be watched: from the snapshot when that shows everything, else folded. */
  async shown(job: string): Promise<Shown | null> {
    const f = this.get(job);
    if (f.shown === undefined) {
      const snapshot = await snapshotOf(this.host.db, job, this.host.build);
      // A fold that ended meanwhile knows better.
      if (snapshot?.whole) f.shown ??= shownIn(snapshot.row);
    }
    if (f.shown === undefined) await this.ensure(job);
    else this.warm(job);
    return f.shown ?? null;
  }

  /** Folds the treatment that was looked at last once the start is over: then a first tap need not wait for it. */
  private warm(job: string): void {
    this.latest = job;
    this.host.after(WARM_AFTER_MS, () => {
      if (this.latest === job) void this.ensure(job);
    });
  }

  /** Sees to it that the core holds the whole treatment. False when the core is not to be had. */
  ensure(job: string): Promise<boolean> {
    const f = this.get(job);
    if (f.core && this.host.core.try((c) => c === f.core)) return Promise.resolve(true);
    f.folding ??= this.fold(job, f).finally(() => {
      f.folding = undefined;
    });
    return f.folding;
  }

  /** Tells of entries that have come or been written. */
  added(job: string, rows: readonly EntryRow[]): void {
    const f = this.get(job);
    const lines = rows.map((r) => r.line);
    const current = this.host.core.try((c) => c === f.core);
    if (current) {
      f.entries += rows.length;
      if (this.add(job, lines)) this.publishSoon(job, f);
      return;
    }
    // A fold under way may have passed the place where these stand; twice does no harm.
    if (f.folding) this.add(job, lines);
    void this.ensure(job);
  }

  /** Folds what has changed since its snapshot, one treatment after the other. */
  async catchUp(jobs: readonly string[]): Promise<void> {
    for (const job of jobs) {
      const f = this.get(job);
      if (f.core || f.shown !== undefined) continue;
      const snapshot = await snapshotOf(this.host.db, job, this.host.build);
      if (snapshot?.whole) f.shown ??= shownIn(snapshot.row);
      else await this.ensure(job);
    }
  }

  /** Forgets a treatment that was removed. */
  forget(job: string): void {
    this.held.get(job)?.due?.();
    this.held.delete(job);
    this.unsaved.delete(job);
    this.host.core.try((c) => ops.foldDrop(c, job));
  }

  private get(job: string): Fold {
    let f = this.held.get(job);
    if (!f) this.held.set(job, (f = { entries: 0, touched: 0, notBefore: 0 }));
    f.touched = ++this.touches;
    return f;
  }

  private add(job: string, lines: readonly string[]): boolean {
    return this.host.core.try((c) => (ops.foldAdd(c, job, lines), true)) ?? false;
  }

  private async fold(job: string, f: Fold): Promise<boolean> {
    const core = await this.host.core.ready();
    if (!core) return false;
    if ((await headsOf(this.host.db, job)).length === 0) return true;
    f.entries = 0;
    for await (const rows of entriesOf(this.host.db, job, CHUNK)) {
      f.entries += rows.length;
      if (
        !this.add(
          job,
          rows.map((r) => r.line),
        )
      )
        return false;
    }
    if (!this.host.core.try((c) => c === core)) return false;
    // All lines were let go of.
    if (f.entries === 0) return true;
    f.core = core;
    this.publish(job, f);
    this.dropOldest(job);
    return true;
  }

  /**
   * Tells the changed state once what is under way is done: a tap is answered before it is folded. Of
   * many entries in a row it is told at intervals, which leave as much time for taps as folding and
   * showing take.
   */
  private publishSoon(job: string, f: Fold): void {
    f.due ??= this.host.after(Math.max(0, f.notBefore - this.host.now()), () => {
      f.due = undefined;
      if (f.core) this.publish(job, f);
    });
  }

  private publish(job: string, f: Fold): void {
    const began = this.host.now();
    const folded = this.host.core.try((c) => ops.foldState(c, job));
    if (!folded) return;
    const same = f.shown?.state === folded.state && f.shown.watch === folded.watch;
    f.shown = shownIn(folded);
    if (same) return;
    this.host.folded(job, folded);
    const ended = this.host.now();
    f.notBefore = ended + 2 * (ended - began);
    this.unsaved.set(job, folded);
    this.saving ??= this.host.after(SAVE_AFTER_MS, () => void this.save());
  }

  /** Writes the snapshots of what has changed. */
  async save(): Promise<void> {
    this.saving?.();
    this.saving = undefined;
    const unsaved = [...this.unsaved];
    this.unsaved.clear();
    if (unsaved.length === 0) return;
    const { db, epoch, build } = this.host;
    try {
      await write(db, ["snapshots"], { durability: "relaxed", epoch }, async (tx) => {
        for (const [job, f] of unsaved) {
          const heads = headsText(f.heads.map((h) => ({ job, ...h })));
          await tx.objectStore("snapshots").put({ job, build, heads, state: f.state, watch: f.watch });
        }
      });
    } catch (e) {
      this.host.failed(e);
    }
  }

  private dropOldest(keep: string): void {
    let sum = 0;
    for (const f of this.held.values()) if (f.core) sum += f.entries;
    const byAge = [...this.held]
      .filter(([job, f]) => f.core && job !== keep)
      .sort(([, a], [, b]) => a.touched - b.touched);
    for (const [job, f] of byAge) {
      if (sum <= HELD_ENTRIES) return;
      sum -= f.entries;
      f.core = undefined;
      this.host.core.try((c) => ops.foldDrop(c, job));
    }
  }
}

const shownIn = ({ state, watch }: Shown): Shown => ({ state, watch });
