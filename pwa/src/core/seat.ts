// Who holds the log. Of all tabs one leads: it alone stamps entries and talks to the studio machine.
// The others follow it. A Web Lock says who; a heartbeat tells that the leader is awake. A tab whose
// leader went silent (a page frozen in the background keeps its lock) steals the lock and raises the
// epoch in the database; whatever the old leader still tries to write fails by its epoch, so that
// taking over can never fork a chain.

/** What Seat needs of `navigator.locks`. */
export interface Locks {
  request(
    name: string,
    options: { steal?: boolean; signal?: AbortSignal },
    held: (lock: unknown) => Promise<void>,
  ): Promise<unknown>;
}

export interface Beat {
  from: string;
  epoch: number;
}

export interface SeatHost {
  /** This tab. */
  id: string;
  locks: Locks;
  now(): number;
  /** Calls f every ms milliseconds; the result stops it. */
  every(ms: number, f: () => void): () => void;
  /** A number in [0, 1). */
  random(): number;
  /** Raises the epoch in the database and returns it. */
  raiseEpoch(): Promise<number>;
  /** Tells the other tabs that this one leads and is awake. */
  beat(b: Beat): void;
  /** This tab leads from now on. */
  lead(epoch: number): void;
  /** This tab follows from now on. */
  follow(): void;
  /** The log could not be taken over although the lock was granted: the database failed. */
  failed(e: unknown): void;
}

const LOCK = "sinkside-log";
export const BEAT_MS = 1000;
/** A leader that was silent for this long is taken for frozen. */
export const SILENT_MS = 4000;

export class Seat {
  /** 0 while this tab follows. */
  epoch = 0;
  private heard = 0;
  /** The latest epoch that was heard: a leader that thaws may still beat with an earlier one. */
  private latest = 0;
  private ticked = 0;
  private patience = SILENT_MS;
  private waiting: AbortController | undefined;
  private letGo: (() => void) | undefined;
  private stopTicking: (() => void) | undefined;
  private stopped = false;

  constructor(private readonly host: SeatHost) {}

  get leads(): boolean {
    return this.epoch > 0;
  }

  start(): void {
    this.heard = this.ticked = this.host.now();
    this.stopTicking = this.host.every(BEAT_MS, () => this.tick());
    this.queue();
  }

  stop(): void {
    this.stopped = true;
    this.stopTicking?.();
    this.waiting?.abort();
    this.letGo?.();
  }

  /** Another tab's heartbeat; true when it is that of a new leader. */
  hear(b: Beat): boolean {
    if (b.from === this.host.id || b.epoch < this.latest) return false;
    const fresh = b.epoch > this.latest;
    this.latest = b.epoch;
    this.heard = this.host.now();
    // Two leaders for a moment: the later epoch is the one that can still write.
    if (this.leads && b.epoch > this.epoch) this.stepDown();
    return fresh;
  }

  /** A write failed by its epoch: somebody else leads. */
  deposed(): void {
    if (this.leads) this.stepDown();
  }

  private tick(): void {
    const now = this.host.now();
    const slept = now - this.ticked > 2 * BEAT_MS;
    this.ticked = now;
    if (this.leads) {
      this.host.beat({ from: this.host.id, epoch: this.epoch });
      return;
    }
    // Whoever slept itself has heard nothing for that reason, and waits again.
    if (slept) this.heard = now;
    if (now - this.heard > this.patience) this.steal();
  }

  /** Waits in line for the lock. */
  private queue(): void {
    const waiting = new AbortController();
    this.waiting = waiting;
    this.hold(this.host.locks.request(LOCK, { signal: waiting.signal }, () => this.granted()));
  }

  private steal(): void {
    this.waiting?.abort();
    this.heard = this.host.now();
    // Two tabs that lose patience at once must not take turns at robbing each other.
    this.patience = SILENT_MS * (1 + this.host.random());
    this.hold(this.host.locks.request(LOCK, { steal: true }, () => this.granted()));
  }

  /** A request that fails was either given up in favour of stealing or robbed of the lock. */
  private hold(request: Promise<unknown>): void {
    request.catch((e: unknown) => {
      if (!(e instanceof DOMException && e.name === "AbortError")) this.host.failed(e);
      else if (this.leads) this.stepDown();
    });
  }

  private async granted(): Promise<void> {
    if (this.stopped) return;
    const released = new Promise<void>((resolve) => {
      this.letGo = resolve;
    });
    this.epoch = await this.host.raiseEpoch();
    this.patience = SILENT_MS;
    this.host.beat({ from: this.host.id, epoch: this.epoch });
    this.host.lead(this.epoch);
    await released;
  }

  private stepDown(): void {
    this.epoch = 0;
    this.heard = this.host.now();
    this.letGo?.();
    this.letGo = undefined;
    this.host.follow();
    if (!this.stopped) this.queue();
  }
}

/**
 * Stands in for Web Locks where a browser has none. A tab leads as it opens; the epoch in the database
 * keeps that safe, and an earlier leader steps down as it hears the later one. After that a tab leads
 * again only when the leader has gone silent.
 */
export function noLocks(): Locks {
  let asked = false;
  return {
    async request(_name, options, held) {
      if (asked && !options.steal) return;
      asked = true;
      await held(null);
    },
  };
}
