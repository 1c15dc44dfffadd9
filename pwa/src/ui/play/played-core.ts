// A core that shows a recorded day as it stood at the played time, and records nothing. What is not
// about the record (reckonings, the shelf, photographs) is asked of the real core.
import { computed, signal, type ReadonlySignal, type Signal } from "@preact/signals";
import type { Core, FieldError, LogPage, State, Status, Summary, Watch, WriteRequest, Written } from "../../core/api";
import { wholeLog } from "../log/whole";

const REFUSED: FieldError[] = [
  { field: "", value: "", say: "A recorded day is being played: nothing is recorded. Leave it to work." },
];

interface Shown {
  state: Signal<State | null>;
  told: Signal<Watch | null>;
  watch: ReadonlySignal<Watch | null>;
}

export class PlayedCore implements Core {
  readonly status: ReadonlySignal<Status>;
  readonly treatments: ReadonlySignal<Summary[]>;
  readonly shelf: Core["shelf"];
  private readonly shown = new Map<string, Shown>();
  /** Acknowledged cues: kept as long as the day is played. */
  private readonly heard = signal<ReadonlyMap<string, string>>(new Map());

  constructor(
    private readonly real: Core,
    summaries: readonly Summary[],
    /** Played time in studio milliseconds, now. */
    private readonly now: () => number,
  ) {
    this.status = computed(() => {
      const { dev, label, studio, armed, core } = real.status.value;
      const plain = { ...real.status.value, unsent: 0, drafts: 0, offset_ms: 0, problem: "", update: false };
      return { ...plain, dev, label, studio, armed, core, link: "on" as const };
    });
    this.treatments = signal(summaries.map((s) => ({ ...s, open: true })));
    this.shelf = real.shelf;
  }

  /** Shows a treatment as it stood at a time. */
  async show(job: string, ms: number): Promise<void> {
    const at = await this.real.asOf(job, ms);
    const s = this.hold(job);
    s.state.value = at?.state ?? null;
    s.told.value = at?.watch ?? null;
  }

  dossier(job: string): ReadonlySignal<State | null> {
    return this.hold(job).state;
  }

  watch(job: string): ReadonlySignal<Watch | null> {
    return this.hold(job).watch;
  }

  asOf(job: string, ms: number): ReturnType<Core["asOf"]> {
    return this.real.asOf(job, ms);
  }

  arm(armed: boolean): void {
    this.real.arm(armed);
  }

  async write(d: WriteRequest): Promise<Written> {
    const cue = d.kind === "heard" && "cue" in d.body ? String(d.body.cue) : "";
    if (!cue) throw REFUSED;
    this.heard.value = new Map(this.heard.value).set(cue, d.by || "you");
    return { entry: UNNAMED, ms: 0 };
  }

  async log(job: string, from: number, count: number): Promise<LogPage> {
    const all = await wholeLog(this.real, job);
    const now = this.now();
    const made = all.filter((l) => l.at.recorded_ms <= now);
    return { total: made.length, lines: made.slice(from, from + count) };
  }

  keepPhoto(): Promise<Written> {
    return Promise.reject(REFUSED);
  }

  newTreatment(): Promise<string> {
    return Promise.reject(REFUSED);
  }

  async open(): Promise<void> {
    // What is played is here.
  }

  pair(): ReturnType<Core["pair"]> {
    return Promise.resolve({ say: "A recorded day is being played. Leave it to pair." });
  }

  photo(blob: string): ReturnType<Core["photo"]> {
    return this.real.photo(blob);
  }

  get library(): Core["library"] {
    return this.real.library;
  }

  worked(job: string): ReturnType<Core["worked"]> {
    return this.real.worked(job);
  }

  reckonings(): ReturnType<Core["reckonings"]> {
    return this.real.reckonings();
  }

  reckon(name: string, inputs: object): ReturnType<Core["reckon"]> {
    return this.real.reckon(name, inputs);
  }

  unsentFile(): ReturnType<Core["unsentFile"]> {
    return this.real.unsentFile();
  }

  applyUpdate(): void {
    this.real.applyUpdate();
  }

  askPersist(): Promise<boolean> {
    return this.real.askPersist();
  }

  private hold(job: string): Shown {
    const held = this.shown.get(job);
    if (held) return held;
    const state = signal<State | null>(null);
    const told = signal<Watch | null>(null);
    const watch = computed(() => withHeard(told.value, this.heard.value));
    const made = { state, told, watch };
    this.shown.set(job, made);
    return made;
  }
}

/** As long as a draft's id: what was not recorded cannot be taken back either. */
const UNNAMED = "0".repeat(26);

function withHeard(w: Watch | null, heard: ReadonlyMap<string, string>): Watch | null {
  if (!w || heard.size === 0) return w;
  return { ...w, cues: w.cues.map((c) => ({ ...c, heard_by: c.heard_by || (heard.get(c.id) ?? "") })) };
}
