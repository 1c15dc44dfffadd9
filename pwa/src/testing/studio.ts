// A studio machine of few words: answers a device's frames as sync/PROTOCOL.md says, as far as tests
// of the phone need it.
import { isPacked, squeezer, unpack } from "../link/frames";
import type { Socket } from "../link/line";

/** The socket that a phone is given; the test speaks for the other end. */
export class StudioSocket implements Socket {
  binaryType: BinaryType = "blob";
  bufferedAmount = 0;
  onopen: Socket["onopen"] = null;
  onmessage: Socket["onmessage"] = null;
  onclose: Socket["onclose"] = null;
  /** Plain frames that the phone sent. */
  readonly got: Uint8Array[] = [];
  closed = false;

  send(data: Uint8Array): void {
    const message = data.slice();
    if (!isPacked(message)) this.got.push(message);
    else void unpack(message, squeezer()!).then((plain) => this.got.push(plain));
  }

  close(): void {
    this.closed = true;
  }

  open(): void {
    this.onopen?.(new Event("open"));
  }

  say(...bytes: (number[] | Uint8Array)[]): void {
    const frame = Uint8Array.from(bytes.flatMap((b) => [...b]));
    this.onmessage?.(new MessageEvent("message", { data: frame.buffer }));
  }

  /** Welcome: nothing is missing on either side. */
  welcome(studio_ms: number, version = 2): void {
    this.say([2], varint(version), varint(studio_ms), [1], new Uint8Array(8), varint(0));
  }

  /** So many devices are armed. */
  ringers(n: number): void {
    this.say([0x21], varint(n));
  }

  /** All of this treatment was sent. */
  caughtUp(job: string): void {
    this.say([8], [1], idBytes(job));
  }

  /** Wants a photograph that was offered, from this chunk on. */
  want(offer: Uint8Array, from: number): void {
    this.say([0x11], offer.slice(1, 33), varint(from));
  }

  /** Has it on its disk. */
  have(offer: Uint8Array): void {
    this.say([0x13], offer.slice(1, 33));
  }

  /** Acknowledges a push of one chain as a whole. */
  acknowledge(push: Uint8Array, head: { job: string; dev: string; n: number; name: string }): void {
    const name = Uint8Array.from(Buffer.from(head.name, "base64url"));
    const receipt = [idBytes(head.job), idBytes(head.dev), varint(head.n), name, new Uint8Array(64)];
    this.say([6], [push[1] ?? 0], [1], ...receipt, [0]);
  }

  /** Refuses a chain from place n on: another entry stands there. */
  refuse(push: Uint8Array, chain: { job: string; dev: string; n: number }): void {
    const refusal = [[1], idBytes(chain.job), idBytes(chain.dev), varint(chain.n), new Uint8Array(32).fill(7)];
    this.say([6], [push[1] ?? 0], [0], [1], ...refusal);
  }
}

export const HELLO = 1;
export const PUSH = 5;
export const ARMED = 0x20;
export const OFFER = 0x10;
export const CHUNK = 0x12;
export const SUBSCRIBE = 9;
export const UNSUBSCRIBE = 0x0a;

/** Whether a frame names this treatment. */
export const holds = (frame: Uint8Array, job: string): boolean =>
  Buffer.from(frame).includes(Buffer.from(idBytes(job)));

/** An unsigned number as the frames have it: seven bits a byte, the lowest first. */
export function varint(n: number): number[] {
  const out: number[] = [];
  for (; n >= 128; n = Math.floor(n / 128)) out.push((n % 128) + 128);
  return [...out, n];
}

const CROCKFORD = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

/** The 16 bytes of an id. */
export function idBytes(id: string): number[] {
  let v = 0n;
  for (const c of id) v = v * 32n + BigInt(CROCKFORD.indexOf(c));
  return Array.from({ length: 16 }, (_, i) => Number((v >> BigInt(8 * (15 - i))) & 255n));
}
