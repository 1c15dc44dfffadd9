import assert from "node:assert/strict";
import { test } from "node:test";
import { labelAt } from "./parts-of-answer";

const board = { width: 1200, height: 800 };

test("the label of a corner stands outside of the picture, that of a board in its middle", () => {
  const corner = labelAt({ label: "C", closed: false, points: [1200, 800, 1200, 800] }, board, 50);
  assert.ok(corner.x > 1200 && corner.y > 800);
  assert.deepEqual(labelAt({ label: "board", closed: true, points: [0, 0, 1000, 0, 1000, 400, 0, 400] }, board, 50), {
    x: 500,
    y: 200,
    font: 50,
    turned: false,
  });
});

const piece = (label: string, w: number, h: number) => ({ label, closed: true, points: [0, 0, w, 0, w, h, 0, h] });

test("a long label shrinks with its shape, and never below what can be read", () => {
  const { font } = labelAt(piece("backing cloth", 300, 200), board, 50);
  assert.ok(font < 50 && font > 20, String(font));
  assert.equal(labelAt(piece("backing cloth", 10, 10), board, 50).font, 20);
});

test("a label lies along a narrow piece that stands upright", () => {
  assert.deepEqual(labelAt(piece("strip", 60, 900), board, 50), { x: 30, y: 450, font: 50, turned: true });
  assert.equal(labelAt(piece("strip", 900, 60), board, 50).turned, false);
});
