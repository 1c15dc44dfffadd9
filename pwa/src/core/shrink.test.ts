import assert from "node:assert/strict";
import { test } from "node:test";
import { image, picture } from "../testing/picture";
import { jpegSize, shrink } from "./shrink";

test("the size of a JPEG is read from its frame header", () => {
  assert.deepEqual(jpegSize(picture(100)), { w: 800, h: 600 });
  assert.equal(jpegSize(Uint8Array.of(0x89, 0x50, 0x4e, 0x47)), undefined);
  assert.equal(jpegSize(new Uint8Array()), undefined);
  assert.equal(jpegSize(Uint8Array.of(0xff, 0xd8, 0xff, 0xe0, 0xff, 0xff, 1, 2, 3, 4, 5, 6)), undefined);
  assert.equal(jpegSize(picture(100).subarray(0, 14)), undefined);
});

test("where pictures cannot be drawn, a small JPEG is kept as it came and nothing else", async () => {
  const kept = await shrink(image(5000));
  assert.deepEqual([kept?.w, kept?.h, kept?.type, kept?.bytes.length], [800, 600, "image/jpeg", 5000]);
  assert.equal(await shrink(image(1_000_001)), undefined);
  assert.equal(await shrink(new Blob(["no picture"])), undefined);
});

test("where they can, it comes to at most 1600 pixels", async () => {
  let drawn: number[] = [];
  Object.assign(globalThis, {
    createImageBitmap: async () => ({ width: 4000, height: 3000, close: () => undefined }),
    OffscreenCanvas: class {
      constructor(
        readonly width: number,
        readonly height: number,
      ) {}
      getContext() {
        return { fillRect: () => undefined, drawImage: (...a: unknown[]) => (drawn = a.slice(3) as number[]) };
      }
      async convertToBlob() {
        return new Blob([picture(300)], { type: "image/jpeg" });
      }
    },
  });
  try {
    const kept = await shrink(image(3_000_000));
    assert.deepEqual([kept?.w, kept?.h, kept?.bytes.length], [1600, 1200, 300]);
    assert.deepEqual(drawn, [1600, 1200]);
  } finally {
    Object.assign(globalThis, { createImageBitmap: undefined, OffscreenCanvas: undefined });
  }
});
