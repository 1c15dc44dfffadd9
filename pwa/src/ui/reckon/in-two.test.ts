import assert from "node:assert/strict";
import { test } from "node:test";
import { inTwo } from "./in-two";

const cases: [shown: string, figure: string, more: string][] = [
  ["40 L", "40 L", ""],
  ["40 L (38 to 42 L)", "40 L", "(38 to 42 L)"],
  ["40 L (38 to 42 L), 10.6 US gal", "40 L", "(38 to 42 L), 10.6 US gal"],
  ["2-3 (ISO 105-A05)", "2-3 (ISO 105-A05)", ""],
  ["515 min, 8.58 h", "515 min", "8.58 h"],
  ["1\u00a0200.5 mm", "1\u00a0200.5 mm", ""],
];
for (const [shown, figure, more] of cases) {
  test(`“${shown}” is large as “${figure}”`, () => assert.deepEqual(inTwo(shown), [figure, more]));
}
