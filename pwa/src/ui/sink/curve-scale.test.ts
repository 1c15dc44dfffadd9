import assert from "node:assert/strict";
import { test } from "node:test";
import type { Point, Rinse } from "../../core/api";
import { drawCurve, kSays, type Frame } from "./curve-scale";

const frame: Frame = { width: 200, height: 100, left: 0, right: 0, top: 0, bottom: 0 };

function point(place: number, k25: number, more: Partial<Point> = {}): Point {
  return {
    entry: `${place}-${k25}`,
    of: "",
    label: `Rinse ${place}`,
    place,
    at_ms: place * 1000,
    value: k25,
    k25,
    how: "corrected",
    fitted: true,
    why_not: "",
    liquor: "",
    at_end: true,
    working: { name: "", inputs: {} },
    ...more,
  };
}

function rinse(points: Point[], more: Partial<Rinse> = {}): Rinse {
  return {
    source: null,
    points,
    change_pct: null,
    curve: [],
    more_low: null,
    more_high: null,
    propose: "go_on",
    say: "",
    reasons: [],
    refused: "",
    working: { name: "", inputs: {} },
    ...more,
  };
}

test("curve: rinses that fall by the same part lie on a straight line", () => {
  const d = drawCurve(rinse([point(1, 800), point(2, 200), point(3, 50)]), frame);
  assert.ok(d);
  const [a, b, c] = d.spots;
  assert.ok(a && b && c);
  assert.deepEqual([a.x, b.x, c.x], [0, 100, 200]);
  assert.ok(Math.abs(b.y - (a.y + c.y) / 2) < 0.11, `${a.y} ${b.y} ${c.y}`);
  assert.ok(a.y < b.y && b.y < c.y, "more conductive is higher");
});

test("curve: everything that is drawn lies on the paper", () => {
  const curve = [1, 2, 3, 4, 5].map((place) => ({
    place,
    k25: 800 / 4 ** place,
    low: 500 / 4 ** place,
    high: 1200 / 4 ** place,
  }));
  const d = drawCurve(rinse([point(0, 900), point(1, 200)], { curve, source: point(0, 2) }), frame, {
    place: 2,
    k25: 48,
  });
  assert.ok(d?.pending && d.source !== null);
  for (const { x, y } of [...d.spots, d.pending])
    assert.ok(x >= 0 && x <= frame.width && y >= 0 && y <= frame.height, `${x} ${y}`);
  const numbers = `${d.band}${d.ahead}`.match(/[\d.]+/g)?.map(Number) ?? [];
  assert.ok(numbers.length > 0 && numbers.every((n) => n >= 0 && n <= frame.width));
  assert.ok(d.source <= frame.height);
});

test("curve: readings of one rinse stand beside each other, the last at the rinse's place", () => {
  const early = point(2, 300, { at_ms: 1900, fitted: false, at_end: false });
  const d = drawCurve(rinse([point(1, 800), early, point(2, 200)]), frame);
  const xs = d?.spots.map((s) => s.x) ?? [];
  assert.ok(xs[1]! < xs[2]! && xs[1]! > xs[0]!);
  assert.equal(xs[2], 200);
});

test("curve: what has no logarithm is left out, and nothing at all is no curve", () => {
  assert.equal(drawCurve(rinse([]), frame), null);
  assert.equal(drawCurve(rinse([point(1, 0)]), frame), null);
  assert.equal(drawCurve(rinse([point(1, 0), point(2, 50)]), frame)?.spots.length, 1);
});

test("curve: a reading that was just kept is drawn even before the first of the log", () => {
  const d = drawCurve(rinse([]), frame, { place: 1, k25: 210 });
  assert.ok(d?.pending);
});

test("curve: figures for people", () => {
  assert.deepEqual([612.4, 79.04, 13.94, 5.3, 0.87].map(kSays), ["612", "79", "13.9", "5.3", "0.87"]);
});
