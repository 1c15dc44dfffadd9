import assert from "node:assert/strict";
import { test } from "node:test";
import { apart, isSlip, likeness, stem, wordsOf } from "./words";

test("a text's words are small, without accents, single letters and figures alone", () => {
  assert.deepEqual(wordsOf("How many  Litres, 60 x wörd?"), ["how", "many", "litres", "word"]);
  assert.deepEqual(wordsOf("g/m² µS/cm °dH ΔE"), ["gm2", "m2", "uscm", "us", "cm", "dh", "deltae"]);
});

for (const [what, ...forms] of [
  ["rinse", "rinsing", "rinses", "rinsed", "rinseing"],
  ["calibrate", "calibration", "calibrating", "calibrated"],
  ["dry", "drying", "dries", "dried"],
  ["stop", "stopping", "stopped", "stops"],
  ["roll", "rolled", "rolling", "rolls"],
] as const) {
  test(`forms of “${what}” are one word`, () => {
    for (const f of forms) assert.equal(stem(f) === stem(what) || stem(stem(f)) === stem(what), true, f);
  });
}

test("a word that is begun finds the whole, less well than the whole itself", () => {
  assert.ok(likeness("cond", "conductivity") > 0);
  assert.ok(likeness("tray", "tray") > likeness("tra", "tray"));
  assert.equal(likeness("tray", "gray"), 0);
});

test("letters put in, taken out, changed and swapped are counted", () => {
  assert.equal(apart("rinse", "rinse"), 0);
  assert.equal(apart("rince", "rinse"), 1);
  assert.equal(apart("humdity", "humidity"), 1);
  assert.equal(apart("dilutoin", "dilution"), 1);
  assert.equal(apart("", "abc"), 3);
});

test("a slip is small, and a short word keeps its first letter", () => {
  assert.ok(isSlip("rince", "rinse"));
  assert.ok(isSlip("detergant", "detergent"));
  assert.ok(isSlip("tary", "tray"));
  assert.ok(isSlip("rnse", "rinse"));
  assert.ok(!isSlip("save", "safe"));
  assert.ok(!isSlip("gray", "tray"));
  assert.ok(!isSlip("lux", "lax"));
  assert.ok(!isSlip("zebra", "rinse"));
});
