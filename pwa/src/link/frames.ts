// A frame is a type byte and a payload. Bit 7 of the type byte says that the payload is deflated
// (RFC 1951, raw). Packing is the host's part on both ends: here it is the browser's, where it can.
// All else about frames is the core's.

export const DEFLATED = 0x80;
/** The largest message, and the largest frame that one may inflate to. */
export const MAX_FRAME = 256 << 10;

export interface Squeezer {
  deflate(b: Uint8Array): Promise<Uint8Array>;
  /** Fails when the result is longer than limit. */
  inflate(b: Uint8Array, limit: number): Promise<Uint8Array>;
}

/** The browser's own compressor; undefined on old WebKit, which then sends and gets plain frames. */
export function squeezer(): Squeezer | undefined {
  try {
    new CompressionStream("deflate-raw");
    new DecompressionStream("deflate-raw");
  } catch {
    return undefined;
  }
  return {
    deflate: (b) => through(b, new CompressionStream("deflate-raw"), Infinity),
    inflate: (b, limit) => through(b, new DecompressionStream("deflate-raw"), limit),
  };
}

async function through(b: Uint8Array, t: GenericTransformStream, limit: number): Promise<Uint8Array> {
  const writer = (t.writable as WritableStream<Uint8Array>).getWriter();
  // Its failure shows on the reading side too.
  writer.write(b).catch(() => undefined);
  writer.close().catch(() => undefined);
  const reader = (t.readable as ReadableStream<Uint8Array>).getReader();
  const parts: Uint8Array[] = [];
  let size = 0;
  for (;;) {
    const { value, done } = await reader.read();
    if (done) break;
    size += value.length;
    if (size > limit) {
      await reader.cancel();
      throw new Error("frame: too-large");
    }
    parts.push(value);
  }
  return joined(parts, size);
}

function joined(parts: readonly Uint8Array[], size: number): Uint8Array {
  const out = new Uint8Array(size);
  let at = 0;
  for (const p of parts) {
    out.set(p, at);
    at += p.length;
  }
  return out;
}

/** The message for a plain frame: deflated where that makes it smaller. */
export async function pack(plain: Uint8Array, s: Squeezer): Promise<Uint8Array> {
  const payload = await s.deflate(plain.subarray(1));
  if (payload.length + 1 >= plain.length) return plain;
  return joined([Uint8Array.of((plain[0] ?? 0) | DEFLATED), payload], payload.length + 1);
}

/** Whether a message must be unpacked. */
export const isPacked = (message: Uint8Array): boolean => ((message[0] ?? 0) & DEFLATED) !== 0;

/** The plain frame of a packed message. */
export async function unpack(message: Uint8Array, s: Squeezer): Promise<Uint8Array> {
  const payload = await s.inflate(message.subarray(1), MAX_FRAME - 1);
  return joined([Uint8Array.of((message[0] ?? 0) & ~DEFLATED), payload], payload.length + 1);
}
