import assert from "node:assert/strict";
import { test } from "node:test";
import type { Kept, Reckoning, Result } from "../../core/api";
import * as ops from "../../core/library-ops";
import { newLibrary } from "../../testing/kit";
import { askedInputs, fillFrom } from "./form";
import { differences, keptBody } from "./kept-body";

const library = await newLibrary();
const list = ops.list(library);

function run(r: Reckoning, asked: Record<string, unknown>): Result {
  const a = ops.run(library, r.name, asked);
  assert.ok("values" in a, `${r.name}: ${JSON.stringify(a)}`);
  return a;
}

/** What comes back from the fold of an entry with this body. */
function folded(body: object): { inputs: Record<string, unknown>; values: Kept[] } {
  const b = JSON.parse(JSON.stringify(body)) as {
    inputs: Record<string, unknown>;
    values: { name: string; title: string; shown: string; value?: number; unit?: string }[];
  };
  return {
    inputs: b.inputs,
    values: b.values.map((v) => ({ ...v, value: v.value === undefined ? "" : String(v.value), unit: v.unit ?? "" })),
  };
}

for (const r of list) {
  test(`${r.name}: its example goes through the form, and what is kept of it is found the same again`, () => {
    const filled = fillFrom(r, JSON.parse(r.example) as Record<string, unknown>);
    const asked = askedInputs(r, filled);
    const result = run(r, asked);
    const body = keptBody(r, asked, result, " for the plan ");
    assert.ok(JSON.stringify(body).length < 15_000, `${JSON.stringify(body).length} bytes`);
    const back = folded(body);
    assert.deepEqual(askedInputs(r, fillFrom(r, back.inputs)), asked);
    assert.deepEqual(differences(back.values, run(r, back.inputs)), []);
  });
}

test("a figure that is reckoned otherwise today is named, and so is one that is new or gone", () => {
  const tray = list.find((r) => r.name === "tray");
  assert.ok(tray);
  const asked = { length: "90", width: "60", depth: "10" };
  const { values } = folded(keptBody(tray, asked, run(tray, asked), ""));
  const then = values.map((v) => (v.name === "litres" ? { ...v, value: "53", shown: "53 L" } : v));
  then.push({ name: "gone", title: "Gone since", shown: "1 L", value: "1", unit: "L" });
  assert.deepEqual(
    differences(
      then.filter((v) => v.name !== "water_mass"),
      run(tray, asked),
    ),
    [
      { title: "The tray holds", then: "53 L", now: "54 L" },
      { title: "Gone since", then: "1 L", now: "" },
      { title: "Its water weighs", then: "", now: "53.9 kg" },
    ],
  );
});

test("figures that differ behind what is shown are told in full", () => {
  const tray = list.find((r) => r.name === "tray");
  assert.ok(tray);
  const asked = { length: "90", width: "60", depth: "10" };
  const today = run(tray, asked);
  const { values } = folded(keptBody(tray, asked, today, ""));
  const then = values.map((v) => (v.name === "litres" ? { ...v, value: "54.0001" } : v));
  assert.deepEqual(differences(then, today), [{ title: "The tray holds", then: "54.0001 L", now: "54 L" }]);
});
