import assert from "node:assert/strict";
import { test } from "node:test";
import { padKeyOf, padPress, padStep, readNumber, startPad, type PadKey } from "./pad";

function typed(start: string, ...keys: PadKey[]): string {
  return keys.reduce(padPress, startPad(start)).text;
}

test("pad: the first figure replaces the last value, later ones follow", () => {
  assert.equal(typed("21.5", "2"), "2");
  assert.equal(typed("21.5", "2", "2", "dot", "0"), "22.0");
});

test("pad: one decimal mark, with a nought before it where none was typed", () => {
  assert.equal(typed("", "dot", "5"), "0.5");
  assert.equal(typed("", "1", "dot", "dot", "5"), "1.5");
  assert.equal(typed("7.4", "dot"), "0.");
});

test("pad: rubbing out clears a starting value and takes typed figures one by one", () => {
  assert.equal(typed("21.5", "del"), "");
  assert.equal(typed("", "1", "2", "del"), "1");
  assert.equal(typed("", "del"), "");
});

test("pad: no leading noughts, no endless numbers", () => {
  assert.equal(typed("", "0", "0", "7"), "7");
  assert.equal(typed("", ..."123456789".split("").map((k) => k as PadKey)), "12345678");
});

const numbers: [string, number | null][] = [
  ["21.5", 21.5],
  ["21,5", 21.5],
  [" 7 ", 7],
  ["0.", 0],
  [",5", 0.5],
  ["", null],
  [".", null],
  ["1.2.3", null],
  ["1,2.3", null],
  ["-1", null],
  ["1e3", null],
  ["12 L", null],
];

for (const [text, want] of numbers) {
  test(`pad: “${text}” reads as ${want}`, () => assert.equal(readNumber(text), want));
}

const steps: [string, number, string][] = [
  ["21.5", 0.1, "21.6"],
  ["21.5", 1, "22.5"],
  ["21.95", 0.1, "22.05"],
  ["7", 0.1, "7.1"],
  ["0.3", -0.1, "0.2"],
  ["5", -10, "0"],
  ["612", -10, "602"],
  ["7,4", 0.1, "7.5"],
  ["", 1, ""],
];

for (const [text, step, want] of steps) {
  test(`pad: ${text || "nothing"} and a step of ${step} is ${want || "nothing"}`, () =>
    assert.equal(padStep(startPad(text), step).text, want));
}

test("pad: after a step the next figure still starts anew", () => {
  assert.equal(padPress(padStep(startPad("21.5"), 1), "9").text, "9");
});

test("pad: keys of a keyboard, with point or comma", () => {
  assert.deepEqual(["3", ".", ",", "Backspace", "a", "Enter"].map(padKeyOf), ["3", "dot", "dot", "del", null, null]);
});
