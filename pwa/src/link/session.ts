// Carries out what the core's link wants: sends its frames, keeps what it was given, and tells the
// rest of the app. The link decides; this only does.
import type { CoreHost } from "../core/host";
import * as ops from "../core/link-ops";
import { CoreError } from "../core/wasm";
import { storeIncoming, Unfit } from "../journal/incoming";
import { allMeta } from "../journal/meta";
import { chainFrom, waitingIn } from "../journal/reading";
import type { DB, EntryRow, ReceiptRow } from "../journal/schema";
import type { Line } from "./line";
import { Photos } from "./photos";

/** How the link stands, for the screens. */
export type LinkState = "off" | "connecting" | "on";

// Phases of the core's link.
const OFF = 0;
const GREETING = 1;
const LIVE = 3;

export interface SessionHost {
  db: DB;
  core: CoreHost;
  epoch: number;
  line: Pick<Line, "start" | "send" | "drop" | "well" | "drained">;
  inflate: boolean;
  now(): number;
  /** Entries came: shown at once, kept a moment later. */
  arrived(rows: EntryRow[]): void;
  /** Chains were forgotten, or a treatment was removed: fold it again. */
  changed(jobs: string[]): void;
  receipts(rows: ReceiptRow[]): void;
  /** Photographs are on the studio machine's disk. */
  photosSent(): void;
  summaries(i: Pick<ops.Effects, "forget" | "summaries">): void;
  offset(ms: number): void;
  forked(chains: { job: string; from: number }[]): void;
  caughtUp(jobs: string[], all: boolean): void;
  standing(s: { link: LinkState; full: boolean; notices: string[] }): void;
  /** So many devices are armed. */
  ringers(n: number): void;
  /** Something could not be kept. */
  failed(e: unknown): void;
}

export class Session {
  private built = false;
  private building: Promise<void> | undefined;
  /** Own entries written while the link is being built, which may have missed them. */
  private meanwhile: EntryRow[] = [];
  private keeping: Promise<void> = Promise.resolve();
  private readonly photos: Photos;
  private stopped = false;
  private armed = false;

  constructor(private readonly host: SessionHost) {
    this.photos = new Photos({
      db: host.db,
      epoch: host.epoch,
      drained: () => host.line.drained(),
      offer: (p) => this.run((now) => (c) => ops.linkOffer(c, p.blob, p.size, now)),
      chunk: (r, data) => this.run((now) => (c) => ops.linkChunk(c, r.blob, r.index, data, now)),
      sent: () => host.photosSent(),
      failed: (e) => host.failed(e),
    });
  }

  /** Makes the core's link from what the database holds, if it is not made, and lets the line connect. */
  async build(): Promise<void> {
    if (this.built) return this.host.line.start();
    return (this.building ??= this.make().finally(() => {
      this.building = undefined;
    }));
  }

  stop(): void {
    this.stopped = true;
    this.built = false;
  }

  /** The core, and with it the link, is a new one. */
  lost(): void {
    this.built = false;
    this.host.line.drop();
  }

  /** The line is up. */
  opened(): void {
    this.photos.restart();
    this.run((now) => (c) => ops.linkStart(c, now));
  }

  frame(b: Uint8Array): void {
    this.run((now) => (c) => ops.linkReceive(c, b, now));
  }

  /** The line is down. */
  closed(): void {
    if (this.built) this.host.core.try((c) => ops.linkStop(c, this.host.now()));
    this.host.ringers(0);
    this.host.standing({ link: "connecting", full: false, notices: [] });
  }

  /** Own entries are durable. */
  wrote(rows: EntryRow[]): void {
    if (!this.built) {
      this.meanwhile.push(...rows);
      return;
    }
    this.run((now) => (c) => ops.linkWrote(c, rows, now));
    if (rows.some((row) => row.line.includes('"kind":"photo"'))) void this.photos.offer();
  }

  /** Follows a treatment that a person opened; false when all of it is here already. */
  open(job: string): boolean {
    let asked = false;
    this.run((now) => (c) => {
      const e = ops.linkOpen(c, job, now);
      asked = e.frames.length > 0 || e.phase < LIVE;
      return e;
    });
    return asked;
  }

  /** Follows it no longer by hand; `dropped` when its lines were let go of too. */
  close(job: string, dropped: boolean): void {
    this.run((now) => (c) => ops.linkClose(c, job, dropped, now));
  }

  /** Whether this device would ring. */
  arm(armed: boolean): void {
    this.armed = armed;
    this.run((now) => (c) => ops.linkArm(c, armed, now));
  }

  private async make(): Promise<void> {
    this.built = false;
    this.meanwhile = [];
    const { db } = this.host;
    // What was given before must be in the database before it is read.
    await this.keeping;
    const core = await this.host.core.ready();
    const meta = await allMeta(db);
    if (!core || !meta.dev || meta.succession || this.stopped) return;
    const tx = db.transaction(["heads", "receipts", "summaries"]);
    const [heads, receipts, summaries] = await Promise.all([
      tx.objectStore("heads").getAll(),
      tx.objectStore("receipts").getAll(),
      tx.objectStore("summaries").getAll(),
    ]);
    const unsent: EntryRow[] = [];
    for (const w of waitingIn(heads, receipts, meta.dev)) {
      unsent.push(...(await chainFrom(db, w.job, w.dev, w.from, w.to - w.from + 1)));
    }
    const state = {
      dev: meta.dev,
      inflate: this.host.inflate,
      heads,
      receipts,
      open: summaries.filter((s) => s.open === true).map((s) => s.job),
      closed: summaries.filter((s) => s.open === false).map((s) => s.job),
      opened: meta.opened,
      dropped: [...new Set(heads.filter((h) => h.dropped !== undefined).map((h) => h.job))],
      generation: meta.generation,
    };
    const made = this.host.core.try((c) => (c === core ? ops.linkNew(c, state, unsent, this.host.now()) : undefined));
    if (!made || this.stopped) return;
    this.built = true;
    this.arm(this.armed);
    const known = new Map(heads.filter((h) => h.dev === meta.dev).map((h) => [h.job, h.n]));
    this.wrote(this.meanwhile.filter((row) => row.dev === meta.dev && row.n > (known.get(row.job) ?? 0)));
    this.meanwhile = [];
    void this.photos.offer();
    this.host.line.start();
  }

  private run(op: (now: number) => (c: Parameters<typeof ops.linkStart>[0]) => ops.Effects): void {
    if (!this.built) return;
    try {
      const e = this.host.core.try(op(this.host.now()));
      if (e) this.carryOut(e);
    } catch (e) {
      if (!(e instanceof CoreError)) throw e;
      // A frame that the link does not take, or a link that has lost track: begin again from the database.
      console.warn("the session ended:", e.message);
      this.again();
    }
  }

  private again(): void {
    this.built = false;
    this.host.line.drop();
    void this.build();
  }

  private carryOut(e: ops.Effects): void {
    const { host } = this;
    for (const f of e.frames) host.line.send(f.bytes, f.deflate);
    if (e.store.length > 0) host.arrived(e.store);
    this.keep(e);
    if (e.offset_ms !== undefined) host.offset(e.offset_ms);
    for (const f of e.fetch) void this.fetch(f);
    for (const r of e.read) this.photos.read(r);
    if (e.sent.length > 0) void this.photos.sent(e.sent);
    if (e.fork.length > 0) host.forked(e.fork);
    if (e.caught_up.length > 0 || e.all_caught_up) host.caughtUp(e.caught_up, e.all_caught_up);
    if (e.ringers !== undefined) host.ringers(e.ringers);
    if (e.phase === OFF) return;
    if (e.phase > GREETING) host.line.well();
    host.standing({ link: e.phase > GREETING ? "on" : "connecting", full: e.full, notices: e.notices });
  }

  /** Writes what is to be kept, one after the other. When that fails the link knows more than the database. */
  private keep(e: ops.Effects): void {
    const { store, receipts, forget, summaries, generation } = e;
    const drop = e.drop.map(({ job, dev }): [string, string] => [job, dev]);
    const something =
      store.length + receipts.length + summaries.length + drop.length > 0 || forget || generation !== undefined;
    if (!something) return;
    const kept = storeIncoming(
      this.host.db,
      { drop, store, clock: e.t, receipts, forget, summaries, generation },
      this.host.epoch,
    ).then(
      () => {
        if (receipts.length > 0) this.host.receipts(receipts);
        if (summaries.length > 0 || forget) this.host.summaries({ forget, summaries });
        const gone = [...drop.map(([job]) => job), ...summaries.filter((s) => s.removed).map((s) => s.job)];
        if (gone.length > 0) this.host.changed(gone);
      },
      (failure: unknown) => {
        // A phone whose store was lost may write in a chain just as the studio machine sends it: beginning
        // again from the database tells the fork, and that is healed.
        if (failure instanceof Unfit) console.warn("the session ended:", failure.message);
        else this.host.failed(failure);
        if (!this.stopped) this.again();
      },
    );
    this.keeping = this.keeping.then(() => kept);
  }

  private async fetch(f: ops.Effects["fetch"][number]): Promise<void> {
    await this.keeping;
    const rows = await chainFrom(this.host.db, f.job, f.dev, f.from, f.to - f.from + 1);
    this.run((now) => (c) => ops.linkFetched(c, f.job, f.dev, rows, now));
  }
}
