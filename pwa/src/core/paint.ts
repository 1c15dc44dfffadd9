// What the next start shows first. Opening the database takes a tenth of a second and the core a whole
// one on a slow phone; what a page last showed is kept beside them, where it is read at once. It is
// only ever shown until the database says better, and never built upon.
import type { Status, Summary } from "./api";
import type { Shown } from "./messages";

/** What is used of localStorage. */
export interface Keeper {
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
  removeItem(key: string): void;
  key(i: number): string | null;
  readonly length: number;
}

/** What is not about one treatment. */
export interface Overview {
  status: Status;
  treatments: Summary[];
}

const PREFIX = "sinkside ";
const OVERVIEW = PREFIX + "overview";
/** Longer states are not kept: writing them would hold up the screen. */
const LONGEST = 1_000_000;
const TREATMENTS = 8;
/** Kept when nothing has changed for this long, or when the person looks away. */
const QUIET_MS = 1500;

export class Paint {
  private readonly changed = new Map<string, string | null>();
  private cancel: (() => void) | undefined;

  constructor(
    private readonly keeper: Keeper | undefined,
    /** What another core folded is not shown. */
    private readonly build: string,
    private readonly after: (ms: number, f: () => void) => () => void,
  ) {}

  overview(): Overview | undefined {
    const text = this.get(OVERVIEW);
    return text === null ? undefined : (JSON.parse(text) as Overview);
  }

  /** A treatment as it was last shown. */
  shown(job: string): Shown | null {
    const text = this.get(PREFIX + job);
    if (text === null) return null;
    // JSON of the core has no line ends.
    const end = text.indexOf("\n");
    return end < 0 ? { state: text, watch: "" } : { state: text.slice(0, end), watch: text.slice(end + 1) };
  }

  keepOverview(o: Overview): void {
    this.keep(OVERVIEW, JSON.stringify(o));
  }

  /** Null lets go of it. */
  keepShown(job: string, shown: Shown | null): void {
    this.keep(PREFIX + job, shown && `${shown.state}\n${shown.watch}`);
  }

  /** Writes what has changed. */
  flush(): void {
    this.cancel?.();
    this.cancel = undefined;
    try {
      for (const [key, text] of this.changed) {
        if (text === null || text.length > LONGEST) this.keeper?.removeItem(key);
        else this.keeper?.setItem(key, `${this.build} ${text}`);
      }
      this.prune();
    } catch {
      // No room: the next start is a little slower to show something.
    }
    this.changed.clear();
  }

  private keep(key: string, text: string | null): void {
    this.changed.set(key, text);
    this.cancel?.();
    this.cancel = this.after(QUIET_MS, () => this.flush());
  }

  private get(key: string): string | null {
    try {
      const kept = this.keeper?.getItem(key) ?? null;
      return kept?.startsWith(this.build + " ") ? kept.slice(this.build.length + 1) : null;
    } catch {
      return null;
    }
  }

  /** Lets go of treatments that were not shown lately. */
  private prune(): void {
    const { keeper } = this;
    if (!keeper) return;
    const keys = Array.from({ length: keeper.length }, (_, i) => keeper.key(i)).filter((k) => k?.startsWith(PREFIX));
    const others = keys.filter((k) => k !== null && k !== OVERVIEW && !this.changed.has(k));
    for (const key of others.slice(0, Math.max(0, others.length + this.changed.size - TREATMENTS))) {
      if (key) keeper.removeItem(key);
    }
  }
}
