// The tab that holds the log: it stamps drafts, folds, and talks to the studio machine. There is one
// at a time; it starts when the tab takes the log over and stops when another tab does.
import { allMeta, Deposed } from "../journal/meta";
import { dropTreatment, noteClosed, noteOpened } from "../journal/opened";
import { dropSentPhotos } from "../journal/photos";
import type { DB, EntryRow } from "../journal/schema";
import { NoDevice } from "../journal/stamp";
import { noFault, type Fault } from "../journal/tx";
import { squeezer } from "../link/frames";
import { Line, type Socket } from "../link/line";
import { Session } from "../link/session";
import type { LogPage, Problem, Result } from "./api";
import { Folds } from "./folds";
import { recordOffset } from "./clocks";
import { countUnsent, Counts } from "./counts";
import { CoreHost } from "./host";
import { Identity } from "./identity";
import { SHELF } from "./ids";
import type { LeaderCalls, News, Outcome, Shown } from "./messages";
import * as ops from "./ops";
import { Ringing } from "./ringing";
import { CORE_FAILED, OUT_OF_REACH, PHONE_FULL, STUDIO_FULL } from "./sentences";
import { Stamping } from "./stamping";
import { Standing } from "./standing";
import { isFull } from "./storage";
import { Successor } from "./successor";
import { Treatments } from "./treatments";
import type { CoreInstance } from "./wasm";

export interface EngineHost {
  db: DB;
  epoch: number;
  build: string;
  compile(): Promise<WebAssembly.Module>;
  connect(): Socket;
  now(): number;
  after(ms: number, f: () => void): () => void;
  random(): number;
  /** Tells all tabs, this one too. */
  tell(news: Partial<News>): void;
  /** Another tab holds the log. */
  deposed(): void;
  fault?: Fault;
}

const WARM_AFTER_MS = 1500;
const OPEN_PATIENCE_MS = 20_000;
/** So many closed treatments are followed; the longest untouched is let go of. */
export const MAX_OPENED = 32;

export class Engine implements LeaderCalls {
  readonly standing: Standing;
  private readonly core: CoreHost;
  private readonly folds: Folds;
  private readonly treatments: Treatments;
  private readonly line: Line;
  private readonly session: Session;
  private readonly stamping: Stamping;
  private readonly identity: Identity;
  private readonly counts: Counts;
  private readonly ringing: Ringing;
  private readonly watched = new Set<string>();
  private readonly opening = new Map<string, (() => void)[]>();
  private stopped = false;
  private offset = 0;

  constructor(private readonly host: EngineHost) {
    const { db, epoch } = host;
    const failed = (e: unknown) => this.failed(e);
    this.standing = new Standing((status) => this.tell({ status }));
    this.core = new CoreHost(
      () => host.compile(),
      () => host.now(),
      (core) => {
        this.standing.set({ core });
        this.standing.problem({ core: core === "failed" ? CORE_FAILED : "" });
      },
      () => this.coreStarted(),
    );
    this.folds = new Folds({
      db,
      epoch,
      core: this.core,
      build: host.build,
      now: () => host.now(),
      after: (ms, f) => host.after(ms, f),
      folded: (job, f) => this.folded(job, f),
      failed,
    });
    this.treatments = new Treatments(db, epoch, () => this.tell({ treatments: this.treatments.list() }));
    const squeeze = squeezer();
    this.line = new Line({
      connect: () => host.connect(),
      squeezer: squeeze,
      now: () => host.now(),
      after: (ms, f) => host.after(ms, f),
      random: () => host.random(),
      opened: () => this.session.opened(),
      frame: (b) => this.session.frame(b),
      closed: (reached) => this.closed(reached),
    });
    this.session = new Session({
      db,
      epoch,
      core: this.core,
      line: this.line,
      inflate: squeeze !== undefined,
      now: () => host.now(),
      arrived: (rows) => this.added(rows),
      changed: (jobs) => void this.refold(jobs),
      receipts: () => void this.counts.unsent(),
      photosSent: () => void this.counts.unsent(),
      summaries: () => void this.treatments.reload(),
      offset: (ms) => void this.measured(ms),
      ringers: (n) => this.ringing.heard(n),
      forked: (chains) => void this.identity.forked(chains),
      caughtUp: (jobs, all) => this.caughtUp(jobs, all),
      standing: ({ link, full, notices }) => {
        this.standing.set({ link, diskFull: full });
        if (notices.length > 0 || !full) this.standing.problem({ studio: full ? STUDIO_FULL : "" });
      },
      failed,
    });
    this.stamping = new Stamping({
      db,
      epoch,
      core: this.core,
      fault: host.fault ?? noFault,
      now: () => host.now(),
      offset: () => this.offset,
      ensure: (job) => this.folds.ensure(job),
      wrote: (rows) => this.wrote(rows),
      failed,
    });
    this.ringing = new Ringing({
      after: (ms, f) => host.after(ms, f),
      own: (armed) => this.session.arm(armed),
      count: (armed) => this.standing.set({ armed }),
    });
    this.counts = new Counts(
      db,
      this.standing,
      (ms, f) => host.after(ms, f),
      () => dropSentPhotos(db, epoch),
    );
    this.identity = new Identity({
      db,
      standing: this.standing,
      successor: new Successor({ db, epoch, core: this.core }),
      named: () => void this.stampAll(),
      renamed: async (jobs) => {
        this.session.lost();
        await this.refold(jobs);
        void this.stampAll();
      },
      connect: () => this.session.build(),
      shutOut: () => this.line.stop(),
      after: (ms, f) => void host.after(ms, f),
      failed,
    });
  }

  async start(): Promise<void> {
    void this.core.start();
    // The first word says how much is unsent: never nothing before it was counted.
    const [meta, counted] = await Promise.all([allMeta(this.host.db), countUnsent(this.host.db)]);
    this.offset = meta.offset_ms;
    this.standing.begin({
      paired: meta.dev !== "" && !meta.revoked,
      revoked: meta.revoked,
      dev: meta.dev,
      label: meta.label,
      studio: meta.studio,
      offset_ms: meta.offset_ms,
      leader: true,
      ...counted,
    });
    await Promise.all([this.treatments.reload(), this.watch(SHELF)]);
    void this.identity.look();
    const jobs = new Set((await this.host.db.getAllKeys("heads")).map(([job]) => job));
    this.host.after(WARM_AFTER_MS, () => void this.warm([...jobs]));
    void this.counts.room();
  }

  stop(): void {
    this.stopped = true;
    this.counts.stop();
    this.session.stop();
    this.line.stop();
  }

  /** The network is back, or the screen: waits for no pause. */
  nudge(): void {
    this.core.retry();
    this.line.nudge();
    if (!this.standing.status.paired) void this.identity.look();
  }

  /** The browser may end this tab without a word: what was folded should be painted at the next start. */
  hidden(): void {
    void this.folds.save();
  }

  /** What a tab that has just opened does not know yet. */
  news(): Partial<News> {
    return { status: this.standing.status, treatments: this.treatments.list() };
  }

  // What other tabs and the screens ask.

  async stamp(id: string): Promise<Outcome> {
    try {
      return await this.stamping.one(id);
    } finally {
      void this.counts.unsent();
    }
  }

  async watch(job: string): Promise<Shown | null> {
    this.watched.add(job);
    return this.folds.shown(job);
  }

  async asOf(job: string, ms: number): Promise<Shown | null> {
    if (!(await this.folds.ensure(job))) return null;
    return this.core.try((c) => ops.foldAsOf(c, job, ms)) ?? null;
  }

  async arm(tab: string, armed: boolean): Promise<null> {
    this.ringing.said(tab, armed);
    return null;
  }

  async open(job: string): Promise<null> {
    if (this.treatments.isOpen(job)) return null;
    await this.makeWay(await noteOpened(this.host.db, job, this.host.epoch));
    if (this.standing.status.link !== "on") {
      if (await this.folds.shown(job)) return null;
      throw new Error(OUT_OF_REACH);
    }
    const asked = this.session.open(job) || this.opening.has(job);
    if (!asked) return null;
    const others = this.opening.get(job) ?? [];
    const arrived = new Promise<void>((resolve) => this.opening.set(job, [...others, resolve]));
    await Promise.race([arrived, new Promise<void>((resolve) => this.host.after(OPEN_PATIENCE_MS, resolve))]);
    return null;
  }

  async log(job: string, from: number, count: number): Promise<LogPage> {
    if ((await this.folds.shown(job)) === null || !(await this.folds.ensure(job))) return { total: 0, lines: [] };
    return this.core.try((c) => ops.foldLog(c, job, from, count)) ?? { total: 0, lines: [] };
  }

  async worked(job: string): Promise<Record<string, unknown>[]> {
    if (!(await this.folds.ensure(job))) return [];
    return this.onCore((c) => ops.foldHours(c, job));
  }

  reckon(name: string, inputs: object): Promise<Result | { problems: Problem[] }> {
    return this.onCore((c) => ops.reckon(c, name, inputs));
  }

  async sum(bytes: Uint8Array): Promise<string> {
    return (await this.onCore((c) => ({ blob: ops.sum(c, bytes) }))).blob;
  }

  /** Finds out whom the studio machine takes this browser for, and goes on as that. */
  async paired(): Promise<null> {
    await this.identity.look();
    return null;
  }

  // Inside.

  /** Lets go of closed treatments that nobody opened for the longest time. */
  private async makeWay(opened: readonly string[]): Promise<void> {
    const { db, epoch } = this.host;
    let over = opened.length - MAX_OPENED;
    for (const job of opened.slice(0, -1)) {
      if (over <= 0) return;
      const open = this.treatments.isOpen(job);
      if (open) await noteClosed(db, job, epoch);
      else if (!(await dropTreatment(db, job, epoch))) continue;
      over--;
      this.session.close(job, !open);
      if (open) continue;
      this.folds.forget(job);
      this.watched.delete(job);
      this.tell({ folded: { job, shown: null } });
    }
  }

  private async onCore<T extends object>(f: (c: CoreInstance) => T): Promise<T> {
    await this.core.ready();
    const result = this.core.try(f);
    if (!result) throw new Error(CORE_FAILED);
    return result;
  }

  private async stampAll(): Promise<void> {
    await this.stamping.all();
    await this.counts.unsent();
  }

  private wrote(rows: EntryRow[]): void {
    if (rows.length === 0) return;
    this.session.wrote(rows);
    this.added(rows);
  }

  private added(rows: EntryRow[]): void {
    const jobs = new Map<string, EntryRow[]>();
    for (const row of rows) {
      const list = jobs.get(row.job);
      if (list) list.push(row);
      else jobs.set(row.job, [row]);
    }
    for (const [job, list] of jobs) this.folds.added(job, list);
  }

  private folded(job: string, f: ops.Folded): void {
    if (this.watched.has(job)) this.tell({ folded: { job, shown: { state: f.state, watch: f.watch } } });
    if (f.summary) this.treatments.own(job, f.summary).catch((e: unknown) => this.failed(e));
  }

  private async refold(jobs: string[]): Promise<void> {
    for (const job of new Set(jobs)) {
      this.folds.forget(job);
      await this.folds.ensure(job);
      if ((await this.folds.shown(job)) === null) this.tell({ folded: { job, shown: null } });
    }
    await this.treatments.reload();
  }

  private async warm(jobs: string[]): Promise<void> {
    await this.folds.catchUp([...this.watched].filter((job) => jobs.includes(job)));
    await this.folds.catchUp(jobs);
  }

  private coreStarted(): void {
    // Whatever the core before this one held is gone.
    this.session.lost();
    void this.core.ready().then(async () => {
      await this.stampAll();
      if (this.standing.status.paired) await this.session.build();
      for (const job of this.watched) await this.folds.ensure(job);
    });
  }

  private closed(reached: boolean): void {
    this.session.closed();
    // A browser does not say why a websocket was refused; a plain request does.
    if (!reached) void this.identity.look();
  }

  private caughtUp(jobs: string[], all: boolean): void {
    for (const [job, arrived] of this.opening) {
      if (!all && !jobs.includes(job)) continue;
      this.opening.delete(job);
      for (const f of arrived) f();
    }
  }

  /** The offset of this device's clock: recorded in its chains when it has changed by enough. */
  private async measured(ms: number): Promise<void> {
    this.offset = ms;
    this.standing.set({ offset_ms: ms });
    const { db, epoch, now } = this.host;
    try {
      this.wrote(await recordOffset(db, this.stamping.stamper, ms, (job) => this.treatments.isOpen(job), now, epoch));
    } catch (e) {
      this.failed(e);
    }
  }

  private failed(e: unknown): void {
    if (this.stopped) return;
    if (e instanceof Deposed) this.host.deposed();
    else if (isFull(e)) {
      this.standing.set({ storageLow: true });
      this.standing.problem({ storage: PHONE_FULL });
    } else if (!(e instanceof NoDevice)) console.error(e);
  }

  private tell(news: Partial<News>): void {
    if (!this.stopped) this.host.tell(news);
  }
}
