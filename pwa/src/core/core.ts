// The screens' side of the core: signals that the worker's news moves, and questions to it. Before the
// worker is up the screens show what the database holds; it is only read here.
import { computed, signal, type ReadonlySignal, type Signal } from "@preact/signals";
import { allMeta } from "../journal/meta";
import { snapshotOf } from "../journal/reading";
import { openJournal, type DB, type DraftRow } from "../journal/schema";
import type {
  Core,
  FieldError,
  PhotoRequest,
  Shelf,
  State,
  Status,
  Summary,
  UnsentFile,
  Watch,
  WriteRequest,
  Written,
} from "./api";
import { afterPaint } from "./after-paint";
import { Asking } from "./asking";
import { Desk } from "./desk";
import { newId, newNonce, SHELF } from "./ids";
import type { FromWorker, News, Outcome, Shown, Told, ToWorker, WorkerCalls } from "./messages";
import { steadyNow } from "./page-clock";
import { Paint, type Keeper } from "./paint";
import { NO_DATABASE, NO_WORKER, OUTDATED } from "./sentences";
import { unknownStatus } from "./standing";
import { timeText } from "./times";
import { listOf } from "./treatments";
import { Updates } from "./updates";

/** JSON of a body may have so many bytes; the rest of an entry's 16 KiB is the envelope. */
const MAX_BODY = 15_000;

/** The library of reckonings is fetched so long after the start, when the sink has what it needs. */
const KEEP_LIBRARY_MS = 15_000;
const LOOK_FOR_LIBRARY_MS = 2_000;

/** Names one run of this page: a monotonic reading means something only within it. */
const session = newNonce().slice(0, 10);

/** One treatment as the screens hold it: state and watch change as one. */
interface Held {
  shown: Signal<Shown | null>;
  state: ReadonlySignal<State | null>;
  watch: ReadonlySignal<Watch | null>;
}

const emptyShelf: Shelf = { initials: [], liquids: [], batches: [], waters: [], instruments: [] };

class WorkerCore implements Core {
  private worker: Worker | undefined;
  private unsent: ToWorker[] = [];
  private readonly ask = new Asking<WorkerCalls>("screen", (ask) => this.send({ ask }));
  private readonly db: Promise<DB | undefined> = openJournal(() => this.outdated()).catch(() => undefined);
  private readonly updates = new Updates();
  private readonly desk = new Desk(() => new Worker(__DESK_WORKER_URL__, { type: "module" }), after);
  private readonly paint = new Paint(keeper(), __CORE_BUILD__, after);
  private readonly painted = this.paint.overview();

  private readonly told = signal<Status>(this.painted ? atStart(this.painted.status) : unknownStatus);
  private readonly persisted = signal(false);
  private readonly trouble = signal("");
  private heard = false;

  readonly status = computed<Status>(() => ({
    ...this.told.value,
    persisted: this.persisted.value,
    update: this.updates.waiting.value,
    problem: this.trouble.value || this.told.value.problem,
  }));
  readonly library = this.desk.kept;
  readonly treatments = signal<Summary[]>(this.painted?.treatments ?? []);
  readonly shelf: ReadonlySignal<Shelf>;
  private readonly held = new Map<string, Held>();
  private past: { shown: Shown | null; parsed: { state: State; watch: Watch } | null } = { shown: null, parsed: null };

  constructor() {
    document.addEventListener("visibilitychange", () => {
      const visible = document.visibilityState === "visible";
      if (!visible) this.paint.flush();
      this.send(visible ? { nudge: true } : { hidden: true });
    });
    void this.readOverview();
    const shelf = this.hold(SHELF).shown;
    this.shelf = computed(() => (shelf.value ? (JSON.parse(shelf.value.state) as Shelf) : emptyShelf));
    navigator.storage?.persisted?.().then(
      (yes) => (this.persisted.value = yes),
      () => undefined,
    );
    after(LOOK_FOR_LIBRARY_MS, () => void this.desk.look());
    // Then, and whenever the studio machine comes into reach later on.
    const linked = computed(() => this.told.value.link === "on");
    after(KEEP_LIBRARY_MS, () => linked.subscribe(() => void this.keepLater()));
    addEventListener("online", () => void this.keepLater());
    if (this.painted) afterPaint(() => this.startWorker());
    else this.startWorker();
  }

  private async keepLater(): Promise<void> {
    await this.desk.keep();
    this.updates.keepTheRest();
  }

  dossier(job: string): ReadonlySignal<State | null> {
    return this.hold(job).state;
  }

  watch(job: string): ReadonlySignal<Watch | null> {
    return this.hold(job).watch;
  }

  async asOf(job: string, ms: number): ReturnType<Core["asOf"]> {
    const shown = await this.ask.ask("asOf", job, ms);
    // Between two entries nothing changes: what is drawn from it need not be drawn again.
    if (shown && !same(this.past.shown, shown)) {
      const state = JSON.parse(shown.state) as State;
      this.past = { shown, parsed: { state, watch: JSON.parse(shown.watch) as Watch } };
    }
    return shown && this.past.parsed;
  }

  arm(armed: boolean): void {
    this.send({ arm: armed });
  }

  write(d: WriteRequest): Promise<Written> {
    return this.tap(d, (draft) => this.ask.ask("tap", draft));
  }

  keepPhoto({ image, of, text, ...rest }: PhotoRequest): Promise<Written> {
    const body = { ...(of === undefined ? {} : { of }), ...(text === undefined ? {} : { text }) };
    return this.tap({ ...rest, kind: "photo", body }, (draft) => this.ask.ask("keepPhoto", draft, image));
  }

  photo(blob: string): ReturnType<Core["photo"]> {
    return this.ask.ask("photo", blob);
  }

  private async tap(d: WriteRequest, keep: (draft: DraftRow) => Promise<Outcome>): Promise<Written> {
    const tapped = performance.now();
    const now = Date.now();
    const body = JSON.stringify(withMono(d, tapped));
    const size = new TextEncoder().encode(body).length;
    if (size > MAX_BODY) throw tooLong(size);
    const outcome = await keep({
      id: newId(now),
      job: d.job,
      kind: d.kind,
      bv: 1,
      body,
      at: d.at ?? timeText(now),
      by: d.by,
      made_ms: now,
      promised: false,
    });
    if ("errors" in outcome) throw outcome.errors;
    const entry = "entry" in outcome ? outcome.entry : outcome.draft;
    // What is measured here is what `make bench` reads.
    const { duration } = performance.measure("tap to durable", { start: tapped });
    return { entry, ms: duration };
  }

  async newTreatment(name: string, by: string): Promise<string> {
    const job = newId(Date.now());
    await this.write({ job, kind: "open", body: { name }, by });
    return job;
  }

  async open(job: string): Promise<void> {
    await this.ask.ask("open", job);
  }

  log(job: string, from: number, count: number): ReturnType<Core["log"]> {
    return this.ask.ask("log", job, from, count);
  }

  worked(job: string): ReturnType<Core["worked"]> {
    return this.ask.ask("worked", job);
  }

  reckonings(): ReturnType<Core["reckonings"]> {
    return this.desk.list();
  }

  /** What the sink needs is in the core of the log, which runs there anyway. */
  reckon(name: string, inputs: object): ReturnType<Core["reckon"]> {
    return __LOG_RECKONINGS__.includes(name) ? this.ask.ask("reckon", name, inputs) : this.desk.run(name, inputs);
  }

  unsentFile(): Promise<UnsentFile> {
    return this.ask.ask("unsentFile");
  }

  pair(code: string, label: string): ReturnType<Core["pair"]> {
    return this.ask.ask("pair", code, label);
  }

  applyUpdate(): void {
    this.updates.apply();
  }

  async askPersist(): Promise<boolean> {
    try {
      this.persisted.value = await navigator.storage.persist();
    } catch {
      // Not offered here.
    }
    return this.persisted.value;
  }

  /** The worker and its core would take the processor from the first screen. */
  private startWorker(): void {
    const worker = new Worker(__WORKER_URL__, { type: "module" });
    worker.onmessage = (e: MessageEvent<FromWorker>) => this.receive(e.data);
    worker.onerror = () => {
      if (!this.heard) this.trouble.value = NO_WORKER;
    };
    this.worker = worker;
    for (const m of this.unsent) worker.postMessage(m);
    this.unsent = [];
  }

  private send(told: Told): void {
    const m: ToWorker = { ...told, at: Date.now(), steady: steadyNow() };
    if (this.worker) this.worker.postMessage(m);
    else this.unsent.push(m);
  }

  private receive(m: FromWorker): void {
    this.heard = true;
    if ("reply" in m) this.ask.settle(m.reply);
    else if ("news" in m) this.show(m.news);
    else if ("outdated" in m) this.outdated();
    else this.trouble.value = NO_DATABASE;
  }

  private show(news: Partial<News>): void {
    if (news.status) this.told.value = news.status;
    if (news.treatments) this.treatments.value = news.treatments;
    if (news.status || news.treatments) {
      this.paint.keepOverview({ status: this.told.value, treatments: this.treatments.value });
    }
    if (news.folded) this.showFolded(news.folded.job, news.folded.shown);
  }

  private showFolded(job: string, shown: Shown | null): void {
    const held = this.held.get(job);
    if (!held || same(held.shown.value, shown)) return;
    held.shown.value = shown;
    this.paint.keepShown(job, shown);
  }

  /** Shows what the database says until the worker says more. */
  private async readOverview(): Promise<void> {
    const db = await this.db;
    if (!db) return;
    const [meta, summaries] = await Promise.all([allMeta(db), db.getAll("summaries")]);
    if (this.heard) return;
    const { dev, label, studio, revoked, offset_ms } = meta;
    this.told.value = { ...this.told.value, paired: dev !== "" && !revoked, revoked, dev, label, studio, offset_ms };
    this.treatments.value = listOf(summaries);
  }

  private hold(job: string): Held {
    const held = this.held.get(job);
    if (held) return held;
    const painted = this.paint.shown(job);
    const shown = signal(painted);
    const made: Held = {
      shown,
      state: computed(() => (shown.value ? (JSON.parse(shown.value.state) as State) : null)),
      // Parsed when somebody looks, which is after the clock was painted.
      watch: computed(() => (shown.value?.watch ? (JSON.parse(shown.value.watch) as Watch) : null)),
    };
    this.held.set(job, made);
    void this.readShown(job, shown, painted);
    this.ask.ask("watch", job).then(
      (now) => {
        if (now !== null) this.showFolded(job, now);
      },
      () => undefined,
    );
    return made;
  }

  private async readShown(job: string, shown: Signal<Shown | null>, painted: Shown | null): Promise<void> {
    const db = await this.db;
    const snapshot = db && (await snapshotOf(db, job, __CORE_BUILD__));
    if (!snapshot?.whole || shown.value !== painted) return;
    const { state, watch } = snapshot.row;
    this.showFolded(job, { state, watch });
  }

  private outdated(): void {
    this.trouble.value = OUTDATED;
  }
}

const same = (a: Shown | null, b: Shown | null) => a === b || (a?.state === b?.state && a?.watch === b?.watch);

/** What a status of an earlier run still says. */
function atStart(s: Status): Status {
  const { paired, revoked, dev, label, studio, unsent, drafts, offset_ms } = s;
  return { ...unknownStatus, paired, revoked, dev, label, studio, unsent, drafts, offset_ms };
}

function keeper(): Keeper | undefined {
  try {
    return localStorage;
  } catch {
    return undefined;
  }
}

const after = (ms: number, f: () => void): (() => void) => {
  const timer = setTimeout(f, ms);
  return () => clearTimeout(timer);
};

/** Begins and ends carry a steady reading too: the wall clock may be set in between. */
function withMono(d: WriteRequest, tapped: number): object {
  if (d.at !== undefined || (d.kind !== "begin" && d.kind !== "end")) return d.body;
  return { ...d.body, mono: { s: session, ms: Math.round(tapped) } };
}

function tooLong(size: number): FieldError[] {
  return [
    { field: "", value: "", say: `This is too long to keep in one entry: ${size} bytes, where ${MAX_BODY} fit.` },
  ];
}

export function createCore(): Core {
  const core = new WorkerCore();
  if (__DEV__) Object.assign(globalThis, { sinkside: core });
  return core;
}
