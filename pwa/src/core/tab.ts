// One tab's worker: it saves taps as drafts by itself and passes everything else to whichever tab
// holds the log, which may be this one.
import { entryOfDraft, promiseDraft, saveDraft } from "../journal/drafts";
import type { Photo } from "../journal/photos";
import type { DB, DraftRow } from "../journal/schema";
import { allMeta, raiseEpoch } from "../journal/meta";
import { collectUnsent, writeUnsent } from "../journal/unsent";
import { Asking } from "./asking";
import type { UnsentFile } from "./api";
import { countUnsent } from "./counts";
import { Engine, type EngineHost } from "./engine";
import {
  answer,
  type BetweenTabs,
  type LeaderCalls,
  type News,
  type Outcome,
  type Request,
  type Shown,
  type WorkerCalls,
} from "./messages";
import { SAY_AGAIN_MS } from "./ringing";
import { Seat, type Beat, type SeatHost } from "./seat";
import { findPhoto, nameOf } from "./finding";
import { NO_DATABASE, NO_PICTURE, NOT_ACCEPTED, NOT_KEPT, PHONE_FULL } from "./sentences";
import { unknownStatus } from "./standing";
import { shrink } from "./shrink";
import { isFull } from "./storage";
import * as studio from "./studio";
import { timeText } from "./times";

export interface TabHost extends Pick<
  EngineHost,
  "build" | "compile" | "connect" | "now" | "after" | "random" | "fault"
> {
  db: DB;
  /** This tab, unlike any other. */
  id: string;
  locks: SeatHost["locks"];
  every: SeatHost["every"];
  /** To the other tabs' workers. */
  post(m: BetweenTabs): void;
  /** To this tab's screens. */
  show(news: Partial<News>): void;
}

/** How long a tap waits to become an entry before the person is told that it is safe as a draft. */
const STAMP_PATIENCE_MS = 1000;
/** How long a refused draft's answer may be on its way. */
const ANSWER_PATIENCE_MS = 3000;

export class Tab implements WorkerCalls {
  private readonly seat: Seat;
  private readonly leader: Asking<LeaderCalls>;
  private engine: Engine | undefined;
  /** What this tab's screens show. */
  private readonly watching = new Set<string>();
  /** Last news of the leader, as this tab's screens saw it. */
  private status = unknownStatus;
  private rings = false;
  private stopSaying: (() => void) | undefined;

  constructor(private readonly host: TabHost) {
    this.leader = new Asking<LeaderCalls>(host.id, (ask) => this.toLeader(ask));
    this.seat = new Seat({
      id: host.id,
      locks: host.locks,
      now: () => host.now(),
      every: (ms, f) => host.every(ms, f),
      random: () => host.random(),
      raiseEpoch: () => raiseEpoch(host.db),
      beat: (beat) => host.post({ beat }),
      lead: (epoch) => this.lead(epoch),
      follow: () => this.follow(),
      failed: (e) => void this.unable(e),
    });
  }

  start(): void {
    this.seat.start();
    this.host.post({ hello: true });
  }

  /** Another tab's worker says something. */
  hear(m: BetweenTabs): void {
    if ("beat" in m) this.beat(m.beat);
    else if ("news" in m) this.show(m.news);
    else if ("reply" in m) {
      if (m.to === this.host.id) this.leader.settle(m.reply);
    } else if ("ask" in m) void this.serve(m.ask, m.from);
    else if (this.engine) this.host.post({ news: this.engine.news() });
  }

  nudge(): void {
    this.engine?.nudge();
  }

  hidden(): void {
    this.engine?.hidden();
  }

  /** Whether this tab would ring. */
  armed(armed: boolean): void {
    this.rings = armed;
    void this.arm(this.host.id, armed);
    this.stopSaying?.();
    this.stopSaying = armed ? this.host.every(SAY_AGAIN_MS, () => void this.arm(this.host.id, true)) : undefined;
  }

  // What this tab's screens ask.

  tap(draft: DraftRow): Promise<Outcome> {
    return this.keep(draft);
  }

  async keepPhoto(draft: DraftRow, image: Blob): Promise<Outcome> {
    const picture = await shrink(image);
    if (!picture) return { errors: [{ field: "image", value: "", say: NO_PICTURE }] };
    const { type, bytes, w, h } = picture;
    const blob = await nameOf(bytes, (b) => this.sum(b));
    const said = JSON.parse(draft.body) as object;
    const body = JSON.stringify({ ...said, blob, type, bytes: bytes.length, w, h });
    return this.keep({ ...draft, body }, { blob, job: draft.job, type, bytes });
  }

  photo(blob: string): Promise<Blob | null> {
    return findPhoto(this.host.db, blob, (b) => this.sum(b));
  }

  sum(bytes: Uint8Array): Promise<string> {
    return this.leader.ask("sum", bytes);
  }

  private async keep(draft: DraftRow, photo?: Photo): Promise<Outcome> {
    try {
      await saveDraft(this.host.db, draft, this.host.fault, photo);
    } catch (e) {
      if (!isFull(e)) throw e;
      this.show({ status: { ...this.status, storageLow: true } });
      return { errors: [{ field: "", value: "", say: NOT_KEPT }] };
    }
    const stamped = this.stamp(draft.id);
    const outcome = await Promise.race([stamped, this.patience(STAMP_PATIENCE_MS)]);
    if (outcome && !("draft" in outcome)) return outcome;
    if (await promiseDraft(this.host.db, draft.id)) return { draft: draft.id };
    const entry = await entryOfDraft(this.host.db, draft.id);
    if (entry !== undefined) return { entry };
    // A check refused it in this moment: its errors are on their way.
    const late = await Promise.race([stamped, this.patience(ANSWER_PATIENCE_MS)]);
    return (
      late ?? {
        errors: [{ field: "", value: "", say: NOT_ACCEPTED }],
      }
    );
  }

  stamp(draft: string): Promise<Outcome> {
    return this.leader.ask("stamp", draft);
  }

  watch(job: string): Promise<Shown | null> {
    this.watching.add(job);
    return this.leader.ask("watch", job);
  }

  asOf(job: string, ms: number): Promise<Shown | null> {
    return this.leader.ask("asOf", job, ms);
  }

  arm(tab: string, armed: boolean): Promise<null> {
    return this.leader.ask("arm", tab, armed);
  }

  open(job: string): Promise<null> {
    return this.leader.ask("open", job);
  }

  log(job: string, from: number, count: number): ReturnType<LeaderCalls["log"]> {
    return this.leader.ask("log", job, from, count);
  }

  worked(job: string): ReturnType<LeaderCalls["worked"]> {
    return this.leader.ask("worked", job);
  }

  reckon(name: string, inputs: object): ReturnType<LeaderCalls["reckon"]> {
    return this.leader.ask("reckon", name, inputs);
  }

  paired(): Promise<null> {
    return this.leader.ask("paired");
  }

  /** Needs no leader and no core: it must work when all else has failed. */
  async unsentFile(): Promise<UnsentFile> {
    const saved = timeText(this.host.now());
    const unsent = await collectUnsent(this.host.db, saved);
    const name = `sinkside-unsent-${saved.slice(0, 16).replace(/[T:]/g, "-")}.jsonl`;
    return { name, text: writeUnsent(unsent), count: unsent.lines.length + (unsent.head.drafts?.length ?? 0) };
  }

  async pair(code: string, label: string): Promise<{ ok: true } | { say: string }> {
    const answered = await studio.pair(code, label);
    if ("ok" in answered) await this.paired();
    return answered;
  }

  // Inside.

  private lead(epoch: number): void {
    const { host } = this;
    this.engine = new Engine({
      ...host,
      epoch,
      tell: (news) => {
        host.post({ news });
        this.show(news);
      },
      deposed: () => this.seat.deposed(),
    });
    this.engine.start().catch((e: unknown) => {
      console.error(e);
      void this.unable(e);
    });
    this.newLeader();
  }

  /** The log cannot be written here. What it holds can still be read, and is said as it stands. */
  private async unable(e: unknown): Promise<void> {
    const full = isFull(e);
    let status = { ...this.status, storageLow: full, problem: full ? PHONE_FULL : NO_DATABASE };
    try {
      const { dev, label, studio, revoked, offset_ms } = await allMeta(this.host.db);
      const counts = await countUnsent(this.host.db);
      status = { ...status, ...counts, paired: dev !== "" && !revoked, revoked, dev, label, studio, offset_ms };
    } catch {
      // Not even that: the sentence stands alone.
    }
    this.show({ status });
  }

  private follow(): void {
    this.engine?.stop();
    this.engine = undefined;
    this.newLeader();
  }

  private beat(b: Beat): void {
    if (this.seat.hear(b)) this.newLeader();
  }

  /** Asks whoever leads now what the one before left open, and tells it what is shown here. */
  private newLeader(): void {
    if (!this.engine) this.host.post({ hello: true });
    this.leader.again();
    if (this.rings) void this.arm(this.host.id, true);
    for (const job of this.watching) {
      void this.leader.ask("watch", job).then((shown) => {
        if (shown !== null) this.show({ folded: { job, shown } });
      });
    }
  }

  private toLeader(ask: Request): void {
    if (this.engine) void this.serve(ask, this.host.id);
    else this.host.post({ ask, from: this.host.id });
  }

  /** Answers what only the leader can; a follower is silent, and whoever asks asks again. */
  private async serve(ask: Request, from: string): Promise<void> {
    const engine = this.engine;
    if (!engine) return;
    const reply = await answer(engine, ask);
    // A leader that was deposed meanwhile knows nothing for certain.
    if (this.engine !== engine) return;
    if (from === this.host.id) this.leader.settle(reply);
    else this.host.post({ reply, to: from });
  }

  private show(news: Partial<News>): void {
    if (news.status) this.status = news.status = { ...news.status, leader: this.engine !== undefined };
    this.host.show(news);
  }

  private patience(ms: number): Promise<undefined> {
    return new Promise((resolve) => this.host.after(ms, () => resolve(undefined)));
  }
}
