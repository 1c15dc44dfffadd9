import assert from "node:assert/strict";
import { test } from "node:test";
import { shapeOf } from "./table-shape";

// The room of a table on a phone of 360 pixels is 328.
const cases: [string, number, number, ReturnType<typeof shapeOf>][] = [
  ["fits", 328, 200, "table"],
  ["is a little too wide, and its cells can be broken", 440, 300, "tight"],
  ["is a little too wide, and its words are too long", 440, 329, "rows"],
  ["is much too wide", 830, 300, "rows"],
];
for (const [what, natural, least, want] of cases) {
  test(`a table that ${what} is shown as ${want}`, () => {
    assert.equal(shapeOf({ natural, least }, 328), want);
  });
}
