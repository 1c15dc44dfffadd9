// The line to the studio machine: one websocket at a time, opened again after it broke, with growing
// and jittered pauses. Bad radio in a basement is the normal case.
import { isPacked, pack, unpack, type Squeezer } from "./frames";

/** What is used of a WebSocket. */
export interface Socket {
  binaryType: BinaryType;
  readonly bufferedAmount: number;
  onopen: ((e: Event) => unknown) | null;
  onmessage: ((e: MessageEvent) => unknown) | null;
  onclose: ((e: CloseEvent) => unknown) | null;
  send(data: Uint8Array<ArrayBuffer>): void;
  close(): void;
}

export interface LineHost {
  connect(): Socket;
  squeezer: Squeezer | undefined;
  now(): number;
  /** Calls f after ms milliseconds; the result prevents it. */
  after(ms: number, f: () => void): () => void;
  /** A number in [0, 1). */
  random(): number;
  opened(): void;
  /** A plain frame. */
  frame(b: Uint8Array): void;
  /** The line is down; `reached` is false when it was never up, as when nobody listens or lets us in. */
  closed(reached: boolean): void;
}

const FIRST_PAUSE_MS = 400;
const LONGEST_PAUSE_MS = 30_000;
/** A session that lasted this long was a good one: after it the pauses are short again. */
const GOOD_MS = 10_000;
/** Opening, and any answer to what was sent, must come within this time. */
export const DEADLINE_MS = 15_000;

/** A photograph is sent no faster than the network takes it: what a person writes must not wait behind. */
const BACKLOG_BYTES = 128 * 1024;
const LOOK_MS = 50;

export class Line {
  private socket: Socket | undefined;
  private open = false;
  private failures = 0;
  private wanted = false;
  private wellSince: number | undefined;
  private cancelPause: (() => void) | undefined;
  private cancelDeadline: (() => void) | undefined;
  /** Bytes given to the socket, and how many of them it had passed on when something was last looked for. */
  private given = 0;
  private passedOn = 0;
  private backlog = 0;
  private packing: Promise<void> | undefined;
  private unpacking: Promise<void> | undefined;

  constructor(private readonly host: LineHost) {}

  start(): void {
    this.wanted = true;
    if (!this.socket && !this.cancelPause) this.connect();
  }

  stop(): void {
    this.wanted = false;
    this.cancelPause?.();
    this.cancelPause = undefined;
    this.drop();
  }

  /** The network may be back: does not wait for the pause to end. */
  nudge(): void {
    this.failures = 0;
    if (!this.wanted || !this.cancelPause) return;
    this.cancelPause();
    this.cancelPause = undefined;
    this.connect();
  }

  /** Closes the connection; the next one comes after a pause. */
  drop(): void {
    const s = this.socket;
    if (!s) return;
    this.ended(s);
    s.close();
  }

  /** The studio machine has answered sense. */
  well(): void {
    this.wellSince ??= this.host.now();
  }

  /** Sends a plain frame, packed when that is worth it and possible. Frames keep their order. */
  send(plain: Uint8Array, worthPacking: boolean): void {
    const s = this.socket;
    if (!s || !this.open) return;
    this.watch(s);
    const squeeze = this.host.squeezer;
    if (!this.packing && !(worthPacking && squeeze)) {
      this.give(s, plain);
      return;
    }
    const before = this.packing ?? Promise.resolve();
    const sent = before
      .then(() => (worthPacking && squeeze ? pack(plain, squeeze) : plain))
      .then((message) => {
        if (this.socket === s) this.give(s, message);
      })
      .catch(() => this.dropIf(s))
      .finally(() => {
        if (this.packing === sent) this.packing = undefined;
      });
    this.packing = sent;
  }

  /** Resolves once most of what was sent has left, or the connection is gone. */
  async drained(): Promise<void> {
    const s = this.socket;
    while (s && this.socket === s && s.bufferedAmount > BACKLOG_BYTES) {
      await new Promise<void>((resolve) => this.host.after(LOOK_MS, resolve));
    }
  }

  private connect(): void {
    const s = this.host.connect();
    this.socket = s;
    this.given = 0;
    s.binaryType = "arraybuffer";
    s.onopen = () => {
      if (this.socket !== s) return;
      this.open = true;
      this.calm();
      this.host.opened();
    };
    s.onmessage = (e) => {
      if (this.socket !== s) return;
      this.calm();
      if (e.data instanceof ArrayBuffer) this.receive(s, new Uint8Array(e.data));
      else this.drop();
    };
    s.onclose = () => this.ended(s);
    this.watch(s);
  }

  /** Frames are given on in their order, at once when none before them is being unpacked. */
  private receive(s: Socket, message: Uint8Array): void {
    const squeeze = this.host.squeezer;
    if (!this.unpacking && !isPacked(message)) {
      this.host.frame(message);
      return;
    }
    if (!squeeze) return this.drop();
    const before = this.unpacking ?? Promise.resolve();
    const given = before
      .then(() => (isPacked(message) ? unpack(message, squeeze) : message))
      .then((plain) => {
        if (this.socket === s) this.host.frame(plain);
      })
      .catch(() => this.dropIf(s))
      .finally(() => {
        if (this.unpacking === given) this.unpacking = undefined;
      });
    this.unpacking = given;
  }

  /** Drops the connection when nothing comes for too long although something should. */
  private watch(s: Socket): void {
    if (this.cancelDeadline) return;
    this.backlog = s.bufferedAmount;
    this.passedOn = this.given - this.backlog;
    this.cancelDeadline = this.host.after(DEADLINE_MS, () => {
      this.cancelDeadline = undefined;
      if (this.socket !== s) return;
      // A slow line that still takes bytes is no dead one.
      if (this.open && this.takes(s.bufferedAmount)) this.watch(s);
      else this.drop();
    });
  }

  private calm(): void {
    this.cancelDeadline?.();
    this.cancelDeadline = undefined;
  }

  /** It has passed bytes on since, and not only such as any line swallows. */
  private takes(left: number): boolean {
    return left < this.backlog || (left > 0 && this.given - left > this.passedOn);
  }

  private give(s: Socket, message: Uint8Array): void {
    this.given += message.length;
    s.send(owned(message));
  }

  private dropIf(s: Socket): void {
    if (this.socket === s) this.drop();
  }

  private ended(s: Socket): void {
    if (this.socket !== s) return;
    const reached = this.open;
    this.socket = undefined;
    this.open = false;
    this.packing = this.unpacking = undefined;
    this.calm();
    if (this.wellSince !== undefined && this.host.now() - this.wellSince >= GOOD_MS) this.failures = 0;
    this.wellSince = undefined;
    this.host.closed(reached);
    if (!this.wanted) return;
    const longest = Math.min(LONGEST_PAUSE_MS, FIRST_PAUSE_MS * 2 ** this.failures++);
    this.cancelPause = this.host.after(longest * (0.5 + this.host.random() / 2), () => {
      this.cancelPause = undefined;
      this.connect();
    });
  }
}

/** The same bytes on a buffer that is not shared, as sockets want it. */
function owned(b: Uint8Array): Uint8Array<ArrayBuffer> {
  return b.buffer instanceof ArrayBuffer ? (b as Uint8Array<ArrayBuffer>) : new Uint8Array(b);
}
