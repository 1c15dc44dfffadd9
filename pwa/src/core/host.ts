import { CoreGone, CoreInstance } from "./wasm";

export type CoreState = "loading" | "ready" | "failed";

/** Crashes within this time are counted; after so many the core is given up. */
const PATIENCE_MS = 60_000;
const CRASHES = 3;

/**
 * Keeps a core running: starts it, and starts a new one when it crashed. The new one knows nothing;
 * `started` is told, so that whoever had given it something does so again.
 */
export class CoreHost {
  state: CoreState = "loading";
  private instance: CoreInstance | undefined;
  private waiting: ((c: CoreInstance | undefined) => void)[] = [];
  private crashes: number[] = [];
  private module: Promise<WebAssembly.Module> | undefined;

  constructor(
    private readonly compile: () => Promise<WebAssembly.Module>,
    private readonly now: () => number,
    private readonly changed: (s: CoreState) => void,
    private readonly started: (c: CoreInstance) => void,
  ) {}

  async start(): Promise<void> {
    this.set("loading");
    try {
      this.module ??= this.compile();
      const c = await CoreInstance.start(await this.module);
      this.instance = c;
      this.started(c);
      this.set("ready");
    } catch (e) {
      this.module = undefined;
      this.crashed(e, "the core could not be started");
    }
  }

  /** Tries again after the core was given up, such as when the network is back. */
  retry(): void {
    if (this.state !== "failed") return;
    this.crashes = [];
    void this.start();
  }

  /** The core once it is up; undefined when it is given up. */
  ready(): Promise<CoreInstance | undefined> {
    if (this.instance) return Promise.resolve(this.instance);
    if (this.state === "failed") return Promise.resolve(undefined);
    return new Promise((resolve) => this.waiting.push(resolve));
  }

  /** Runs f on the core now; undefined when it is not up, or crashes in it. */
  try<T>(f: (c: CoreInstance) => T): T | undefined {
    if (!this.instance) return undefined;
    try {
      return f(this.instance);
    } catch (e) {
      if (!(e instanceof CoreGone)) throw e;
      this.crashed(e);
      return undefined;
    }
  }

  /** Tells of a crash that was met outside `try`. */
  crashed(e: unknown, say = "the core crashed"): void {
    console.error(say, e);
    this.instance = undefined;
    const now = this.now();
    this.crashes = [...this.crashes.filter((t) => now - t < PATIENCE_MS), now];
    if (this.crashes.length >= CRASHES) this.set("failed");
    else void this.start();
  }

  private set(s: CoreState): void {
    this.state = s;
    this.changed(s);
    if (s === "loading") return;
    const waiting = this.waiting;
    this.waiting = [];
    for (const f of waiting) f(this.instance);
  }
}
