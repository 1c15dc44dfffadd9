// The page's side of the library of reckonings. Its worker is started when somebody first asks, and
// ended when nobody has asked for a while: its memory is worth more at the sink.
import { signal } from "@preact/signals";
import type { Core, Reckoning } from "./api";
import { Asking } from "./asking";
import { isLibraryKept, libraryFile } from "./later-files";
import type { DeskCalls, FromDesk, Request } from "./messages";
import { LIBRARY_FAILED } from "./sentences";

const IDLE_MS = 5 * 60_000;

/** What is used of a Worker. */
export interface DeskWorker {
  postMessage(m: Request): void;
  terminate(): void;
  onmessage: ((e: MessageEvent<FromDesk>) => void) | null;
  onerror: ((e: ErrorEvent) => void) | null;
}

export class Desk {
  /** The library is on this device, whatever becomes of the network. */
  readonly kept = signal(false);
  private worker: DeskWorker | undefined;
  private known: Promise<Reckoning[]> | undefined;
  private rest: () => void = () => undefined;
  private readonly ask = new Asking<DeskCalls>("desk", (r) => this.send(r));

  constructor(
    private readonly make: () => DeskWorker,
    private readonly after: (ms: number, f: () => void) => () => void,
  ) {}

  list(): ReturnType<Core["reckonings"]> {
    this.known ??= this.ask.ask("list").catch((e: unknown) => {
      this.known = undefined;
      throw e;
    });
    return this.known;
  }

  run(name: string, inputs: object): ReturnType<Core["reckon"]> {
    return this.ask.ask("run", name, inputs);
  }

  /** Fetches the library for when there is no network. What fails now is tried again at the next start. */
  async keep(): Promise<void> {
    try {
      // Those of other versions are let go of by the service worker that takes over: one may be of the version that
      // waits, and fetched for it.
      if (!(await isLibraryKept())) await libraryFile();
      this.kept.value = await isLibraryKept();
    } catch {
      this.kept.value = false;
    }
  }

  private send(r: Request): void {
    this.worker ??= this.start();
    this.worker.postMessage(r);
    this.rest();
    this.rest = this.after(IDLE_MS, () => this.end());
  }

  private start(): DeskWorker {
    const worker = this.make();
    worker.onmessage = (e) => {
      this.ask.settle(e.data.reply);
      void this.look();
    };
    worker.onerror = () => {
      this.ask.fail(LIBRARY_FAILED);
      this.end();
    };
    return worker;
  }

  /** Sees whether it is here: from before, or since it was asked. */
  async look(): Promise<void> {
    if (!this.kept.value) this.kept.value = await isLibraryKept();
  }

  private end(): void {
    if (this.ask.waiting > 0) return void (this.rest = this.after(IDLE_MS, () => this.end()));
    this.rest();
    this.worker?.terminate();
    this.worker = undefined;
  }
}
