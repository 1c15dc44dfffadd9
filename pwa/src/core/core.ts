// The screens' side of the core: signals that the worker's news moves, and questions to it. Before the
// worker is up the screens show what the database holds; it is only read here.
import { computed, signal, type ReadonlySignal, type Signal } from "@preact/signals";
import { allMeta } from "../journal/meta";
import { snapshotOf } from "../journal/reading";
import { openJournal, type DB } from "../journal/schema";
import type { Core, FieldError, Shelf, State, Status, Summary, UnsentFile, WriteRequest, Written } from "./api";
import { Asking } from "./asking";
import { newId, newNonce, SHELF } from "./ids";
import type { FromWorker, News, ToWorker, WorkerCalls } from "./messages";
import { unknownStatus } from "./standing";
import { timeText } from "./times";
import { listOf } from "./treatments";
import { Updates } from "./updates";

/** JSON of a body may be so long; the rest of an entry's 16 KiB is the envelope. */
const MAX_BODY = 15_000;

/** Names one run of this page: a monotonic reading means something only within it. */
const session = newNonce().slice(0, 10);

class WorkerCore implements Core {
  private readonly worker = new Worker(__WORKER_URL__, { type: "module" });
  private readonly ask = new Asking<WorkerCalls>("screen", (ask) => this.send({ ask }));
  private readonly db: Promise<DB | undefined> = openJournal(() => this.outdated()).catch(() => undefined);
  private readonly updates = new Updates();

  private readonly told = signal<Status>(unknownStatus);
  private readonly persisted = signal(false);
  private readonly trouble = signal("");
  private heard = false;

  readonly status = computed<Status>(() => ({
    ...this.told.value,
    persisted: this.persisted.value,
    update: this.updates.waiting.value,
    problem: this.trouble.value || this.told.value.problem,
  }));
  readonly treatments = signal<Summary[]>([]);
  readonly shelf: ReadonlySignal<Shelf>;
  private readonly shelfState: Signal<string | null>;
  private readonly states = new Map<string, { text: Signal<string | null>; state: ReadonlySignal<State | null> }>();

  constructor() {
    this.worker.onmessage = (e: MessageEvent<FromWorker>) => this.receive(e.data);
    this.worker.onerror = () => {
      if (!this.heard) this.trouble.value = NO_WORKER;
    };
    document.addEventListener("visibilitychange", () => {
      this.send(document.visibilityState === "visible" ? { nudge: true } : { hidden: true });
    });
    void this.paint();
    this.shelfState = this.watched(SHELF).text;
    this.shelf = computed(() => {
      const text = this.shelfState.value;
      return text === null ? { initials: [], liquids: [] } : (JSON.parse(text) as Shelf);
    });
    navigator.storage?.persisted?.().then(
      (yes) => (this.persisted.value = yes),
      () => undefined,
    );
  }

  dossier(job: string): ReadonlySignal<State | null> {
    return this.watched(job).state;
  }

  async write(d: WriteRequest): Promise<Written> {
    const tapped = performance.now();
    const now = Date.now();
    const body = JSON.stringify(withMono(d, tapped));
    if (body.length > MAX_BODY) throw tooLong(body.length);
    const outcome = await this.ask.ask("tap", {
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

  reckonings(): ReturnType<Core["reckonings"]> {
    return this.ask.ask("reckonings");
  }

  reckon(name: string, inputs: object): ReturnType<Core["reckon"]> {
    return this.ask.ask("reckon", name, inputs);
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

  private send(m: ToWorker): void {
    this.worker.postMessage(m);
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
    if (news.state) {
      const held = this.states.get(news.state.job);
      if (held) held.text.value = news.state.state;
    }
  }

  /** Shows what the database says until the worker says more. */
  private async paint(): Promise<void> {
    const db = await this.db;
    if (!db) return;
    const [meta, summaries] = await Promise.all([allMeta(db), db.getAll("summaries")]);
    if (this.told.value === unknownStatus) {
      const { dev, label, studio, revoked, offset_ms } = meta;
      this.told.value = { ...unknownStatus, paired: dev !== "" && !revoked, revoked, dev, label, studio, offset_ms };
    }
    if (this.treatments.value.length === 0) this.treatments.value = listOf(summaries);
  }

  private watched(job: string): { text: Signal<string | null>; state: ReadonlySignal<State | null> } {
    const held = this.states.get(job);
    if (held) return held;
    const text = signal<string | null>(null);
    const state = computed(() => (text.value === null ? null : (JSON.parse(text.value) as State)));
    const made = { text, state };
    this.states.set(job, made);
    void this.paintState(job, text);
    this.ask.ask("watch", job).then(
      (now) => {
        // News that came meanwhile is newer than the answer only when there is any.
        if (now !== null) text.value = now;
      },
      () => undefined,
    );
    return made;
  }

  private async paintState(job: string, text: Signal<string | null>): Promise<void> {
    const db = await this.db;
    const snapshot = db && (await snapshotOf(db, job, __CORE_BUILD__));
    if (snapshot?.whole) text.value ??= snapshot.row.state;
  }

  private outdated(): void {
    this.trouble.value = OUTDATED;
  }
}

/** Begins and ends carry a steady reading too: the wall clock may be set in between. */
function withMono(d: WriteRequest, tapped: number): object {
  if (d.at !== undefined || (d.kind !== "begin" && d.kind !== "end")) return d.body;
  return { ...d.body, mono: { s: session, ms: Math.round(tapped) } };
}

function tooLong(length: number): FieldError[] {
  return [
    {
      field: "",
      value: "",
      say: `This is too long to keep in one entry: ${length} characters, where ${MAX_BODY} fit.`,
    },
  ];
}

const NO_WORKER =
  "The app could not start here. Reload the page; if that does not help, this browser is too old for it.";
const NO_DATABASE =
  "This browser does not let the app keep anything, as in a private window. Open it in an ordinary window.";
const OUTDATED = "A newer version of the app runs in another tab. Reload this one to go on here.";

export function createCore(): Core {
  const core = new WorkerCore();
  if (__DEV__) Object.assign(globalThis, { sinkside: core });
  return core;
}
