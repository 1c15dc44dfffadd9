import assert from "node:assert/strict";
import { test } from "node:test";
import { FAKE_RECKONINGS } from "../dev/fake-reckon";
import type { Reckoning } from "../../core/api";
import { askedInputs, isAsked, isFilled, missing, rangeSays, startForm } from "./form";

const solution = FAKE_RECKONINGS[0] as Reckoning;
const input = (name: string) => {
  const found = solution.inputs.find((i) => i.name === name);
  assert.ok(found);
  return found;
};

test("a form starts with defaults and first choices", () => {
  const f = startForm(solution, null);
  assert.equal(f.values["active"], "28");
  assert.equal(f.values["form"], "paste");
  assert.equal(f.units["litres"], "L");
});

test("units and values are remembered, a unit that is gone is not", () => {
  const f = startForm(solution, { values: { litres: "24" }, units: { litres: "US gal", active: "ppm" } });
  assert.equal(f.values["litres"], "24");
  assert.equal(f.units["litres"], "US gal");
  assert.equal(f.units["active"], "% w/w");
});

test("what depends on a choice is asked and sent only with it", () => {
  const paste = startForm(solution, { values: { density: "1.04", litres: "24" }, units: {} });
  assert.equal(isAsked(input("density"), solution, paste), false);
  assert.equal("density" in askedInputs(solution, paste), false);
  const liquid = { ...paste, values: { ...paste.values, form: "liquid" } };
  assert.deepEqual(askedInputs(solution, liquid)["density"], { value: "1.04", unit: "g/mL" });
});

test("values go out with their units, a ± without one, empty fields not at all", () => {
  const f = startForm(solution, { values: { litres: "24", litres_pm: "1" }, units: {} });
  assert.deepEqual(askedInputs(solution, f), {
    form: "paste",
    litres: { value: "24", unit: "L" },
    litres_pm: "1",
    active: { value: "28", unit: "% w/w" },
  });
});

test("what is still missing is named, optional fields are not", () => {
  assert.deepEqual(
    missing(solution, startForm(solution, null)).map((i) => i.name),
    ["litres"],
  );
});

test("the range is said in the unit that is chosen", () => {
  assert.equal(rangeSays(input("litres"), "L"), "0.01 to 5000 L");
  assert.equal(rangeSays(input("litres"), "mL"), "");
});

test("what was remembered is checked before it is used", () => {
  assert.equal(isFilled({ values: { a: "1" }, units: {} }), true);
  assert.equal(isFilled({ values: { a: 1 }, units: {} }), false);
  assert.equal(isFilled(null), false);
});
