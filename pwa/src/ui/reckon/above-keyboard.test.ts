import assert from "node:assert/strict";
import { test } from "node:test";
import { hiddenAtFoot } from "./above-keyboard";

const cases: [string, Parameters<typeof hiddenAtFoot>[0], number][] = [
  ["no keyboard", { height: 640, offsetTop: 0, scale: 1 }, 0],
  ["a keyboard of 260", { height: 380, offsetTop: 0, scale: 1 }, 260],
  ["a keyboard of 260, and the page moved up under it", { height: 380, offsetTop: 100, scale: 1 }, 160],
  ["a page pulled to twice its size", { height: 320, offsetTop: 40, scale: 2 }, 0],
  ["a part of a pixel", { height: 639.6, offsetTop: 0, scale: 1 }, 0],
];
for (const [what, seen, want] of cases) {
  test(`${what} hides ${want} pixels at the foot`, () => {
    assert.equal(hiddenAtFoot(seen, 640), want);
  });
}
