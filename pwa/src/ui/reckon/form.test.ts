import assert from "node:assert/strict";
import { test } from "node:test";
import type { Reckoning } from "../../core/api";
import * as ops from "../../core/library-ops";
import { newLibrary } from "../../testing/kit";
import {
  askedInputs,
  fieldOf,
  fillFrom,
  grouped,
  isAsked,
  isFilled,
  missing,
  rangeSays,
  startCells,
  startForm,
  uncertainOf,
  withoutPlusMinus,
  together,
} from "./form";

// The forms of the real library, which the screen draws too.
const core = await newLibrary();
const list = ops.list(core);

function named(name: string): Reckoning {
  const found = list.find((r) => r.name === name);
  assert.ok(found, name);
  return found;
}

function input(r: Reckoning, name: string) {
  const found = r.inputs.find((i) => i.name === name);
  assert.ok(found, name);
  return found;
}

const solution = named("solution");

test("a form starts with defaults and first choices", () => {
  assert.equal(startForm(named("conductivity"), null).values["coefficient"], "2");
  const f = startForm(solution, null);
  assert.equal(f.values["form"], "paste");
  assert.equal(f.units["litres"], "L");
});

test("units and values are remembered, a unit that is gone is not", () => {
  const f = startForm(solution, { values: { litres: "24" }, units: { litres: "US gal", active: "ppm" } });
  assert.equal(f.values["litres"], "24");
  assert.equal(f.units["litres"], "US gal");
  assert.equal(f.units["active"], "% w/w");
});

test("a choice that is gone is the first one again", () => {
  const f = startForm(solution, { values: { form: "smoke", litres: "24" }, units: {} });
  assert.equal(f.values["form"], "paste");
  assert.equal(f.values["litres"], "24");
});

test("what depends on a choice is asked and sent only with it", () => {
  const powder = startForm(solution, { values: { form: "powder", density: "1.04", litres: "24" }, units: {} });
  assert.equal(isAsked(input(solution, "density"), solution.inputs, powder), false);
  assert.equal("density" in askedInputs(solution, powder), false);
  const liquid = { ...powder, values: { ...powder.values, form: "liquid" } };
  assert.deepEqual(askedInputs(solution, liquid)["density"], { value: "1.04", unit: "g/mL" });
});

test("values go out with their units, a ± without one, empty fields not at all", () => {
  const f = startForm(solution, { values: { litres: "24", litres_pm: "1", active: "28" }, units: {} });
  assert.deepEqual(askedInputs(solution, f), {
    litres: { value: "24", unit: "L" },
    form: "paste",
    active: { value: "28", unit: "% w/w" },
    litres_pm: "1",
  });
});

test("a series goes out as it was typed, and the core says which entry is wrong", () => {
  const end = named("rinse_end");
  assert.equal(input(end, "readings").kind, "series");
  const f = startForm(end, { values: { readings: "0,802; 0,202; 0,052", source: "2" }, units: { readings: "mS/cm" } });
  const asked = askedInputs(end, f);
  assert.deepEqual(asked["readings"], { value: "0,802; 0,202; 0,052", unit: "mS/cm" });
  const answer = ops.run(core, end.name, asked);
  assert.ok("values" in answer);
  assert.ok(Math.abs((answer.values.find((v) => v.name === "ratio")?.value ?? 0) - 25) < 1e-9);

  const wrong = { ...f, values: { ...f.values, readings: "802; 2o2; 52" } };
  const refused = ops.run(core, end.name, askedInputs(end, wrong));
  assert.ok("problems" in refused);
  assert.match(refused.problems[0]?.say ?? "", /entry 2: “2o2”/);
});

test("two fields that are filled before the screen is drawn anew are both kept", () => {
  const drawn = startForm(solution, null);
  const one = { ...drawn, values: { ...drawn.values, litres: "24" } };
  const two = { ...drawn, values: { ...drawn.values, active: "28" }, units: { ...drawn.units, litres: "US gal" } };
  const both = together(drawn, two, together(drawn, one, drawn));
  assert.equal(both.values["litres"], "24");
  assert.equal(both.values["active"], "28");
  assert.equal(both.units["litres"], "US gal");
  assert.equal(both.rows, undefined);
});

test("what is still missing is named, optional fields are not", () => {
  assert.deepEqual(
    missing(solution, startForm(solution, null)).map((i) => i.name),
    ["litres", "target", "active"],
  );
});

test("the range is said in the unit that is chosen", () => {
  assert.equal(rangeSays(input(solution, "litres"), "L"), "0.01 to 5000 L");
  assert.equal(rangeSays(input(solution, "litres"), "US gal"), "0.00265 to 1320 US gal");
  assert.equal(rangeSays(input(solution, "litres"), "g"), "");
});

test("what was remembered is checked before it is used", () => {
  assert.equal(isFilled({ values: { a: "1" }, units: {} }), true);
  assert.equal(isFilled({ values: { a: 1 }, units: {} }), false);
  assert.equal(isFilled(null), false);
});

test("long numbers of a range stand in groups of three", () => {
  assert.deepEqual([0.0001, 999, 5000, 12_345, -1_000_000, 12345.5].map(grouped), [
    "0.0001",
    "999",
    "5000",
    "12\u00a0345",
    "-1\u00a0000\u00a0000",
    "12345.5",
  ]);
});

test("figures taken as they are lose what was typed of their uncertainty, and nothing else", () => {
  const f = startForm(solution, { values: { litres: "24", litres_pm: "1" }, units: {} });
  assert.deepEqual(uncertainOf(solution, f), ["litres_pm"]);
  const sure = withoutPlusMinus(solution, f);
  assert.deepEqual(uncertainOf(solution, sure), []);
  assert.equal(sure.values["litres"], "24");
});

test("a problem of a row stands at the row's place on the screen, though empty rows before it were not sent", () => {
  const several = named("several");
  const f = fillFrom(several, JSON.parse(several.example) as Record<string, unknown>);
  const rows = f.rows?.["ingredients"] ?? [];
  const gap = { ...f, rows: { ingredients: [startCells(input(several, "ingredients").columns, null), ...rows] } };
  assert.equal(fieldOf(several, gap, "ingredients.1.strength"), "ingredients.1.strength");
  assert.equal(fieldOf(several, f, "ingredients.1.strength"), "ingredients.0.strength");
  assert.equal(fieldOf(several, f, "ingredients"), "ingredients");
});

test("a text with its unit fills both the field and the choice of its unit", () => {
  const tray = named("tray");
  const f = fillFrom(tray, { length: "90 cm", width: "24 in", temperature: "77 °F", shallow: "6" });
  assert.deepEqual([f.values["width"], f.units["width"]], ["24", "in"]);
  assert.deepEqual([f.values["temperature"], f.units["temperature"]], ["77", "°F"]);
  assert.deepEqual([f.values["shallow"], f.units["shallow"]], ["6", "cm"]);
});
