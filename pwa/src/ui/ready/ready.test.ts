import assert from "node:assert/strict";
import { test } from "node:test";
import type { Dwell, FieldValue, Plan, Result, Shelf, State, Tick, Water } from "../../core/api";
import { blankDwell, coloursOf, dwellBody, dwellLine } from "./dwells";
import {
  addRow,
  chooseLiquid,
  chosenBody,
  draftOf,
  fillLitres,
  isDraft,
  knownLiquids,
  liquidChoice,
  moveRow,
  planBody,
  removeRow,
  repeatRow,
  rowFault,
  stillWrong,
  type PlanDraft,
} from "./plan-draft";
import { stepsOf, textOf } from "./stop-text";
import { answersSay, isSame, tally, tickBody, tickState } from "./ticks";
import { figureOf } from "../reckon/use-reckoned";
import { waterAsked } from "./water-asked";

const said = (value: string, entry = "e1", by = "RV"): FieldValue => ({ value, entry, by, at_ms: 0 });
const tick = (item: string, ...is: FieldValue[]): Tick => ({ item, title: item, is });

test("an item nobody looked at is not told as not done", () => {
  assert.equal(tickState(tick("weighed")), "not-looked-at");
  assert.equal(tickState(tick("weighed", said("no"))), "not-done");
  assert.equal(tickState(tick("weighed", said("yes"))), "done");
  assert.equal(tickState(tick("weighed", said("yes"), said("yes", "e2", "OT"))), "choose");
});

test("the tally names every state there is", () => {
  const list = [tick("a", said("yes")), tick("b", said("no")), tick("c"), tick("d", said("yes"), said("no", "e2"))];
  assert.equal(tally(list), "1 of 4 done, 1 not done, 1 not looked at, 1 with two answers");
});

test("a tick names all that it replaces, and the same answer again is none", () => {
  const two = tick("weighed", said("yes"), said("no", "e2", "OT"));
  assert.deepEqual(tickBody(two, "no"), { field: "check.weighed", value: "no", over: ["e1", "e2"] });
  assert.equal(answersSay(two.is), "RV says done, OT says not done");
  assert.equal(isSame(two, "yes"), false);
  assert.equal(isSame(tick("weighed", said("yes")), "yes"), true);
});

const plan: Plan = {
  entry: "p1",
  by: "RV",
  at_ms: 0,
  baths: [
    { what: "presoak", liquid: "deionised water", litres: "40", target_s: 600, temp_c: "20", batch: "" },
    { what: "wash", liquid: "SDS 1 g/L", litres: "40", target_s: 450, temp_c: "", batch: "SDS 1 g/L" },
  ],
};

test("a plan goes into the form and out again as it was", () => {
  assert.deepEqual(planBody(draftOf([plan])), {
    over: ["p1"],
    baths: [
      { what: "presoak", liquid: "deionised water", litres: "40", target_s: 600, temp_c: "20" },
      { what: "wash", liquid: "SDS 1 g/L", litres: "40", target_s: 450, batch: "SDS 1 g/L" },
    ],
  });
});

test("choosing between two plans writes one over both", () => {
  const other = { ...plan, entry: "p2", baths: plan.baths.slice(0, 1) };
  const body = chosenBody(other, [plan, other]);
  assert.deepEqual(body["over"], ["p1", "p2"]);
  assert.equal((body["baths"] as unknown[]).length, 1);
  assert.deepEqual(draftOf([plan, other]), { over: ["p1", "p2"], rows: [] });
});

const whats = (d: PlanDraft) => d.rows.map((r) => r.what).join(" ");

test("baths are added like the last of their kind, moved, repeated and taken out", () => {
  let d = addRow(draftOf([plan]), "rinse");
  assert.deepEqual(d.rows[2], {
    key: 3,
    what: "rinse",
    liquid: "",
    batch: "",
    own: false,
    litres: "40",
    minutes: "",
    temp: "",
  });
  d = addRow(d, "wash");
  assert.equal(d.rows[3]?.liquid, "SDS 1 g/L");
  assert.equal(whats(moveRow(d, 3, -1)), "presoak rinse wash wash");
  assert.equal(moveRow(d, 1, -1), d);
  assert.equal(moveRow(d, 4, 1), d);
  const twice = repeatRow(d, 1);
  assert.equal(whats(twice), "presoak presoak wash rinse wash");
  assert.equal(new Set(twice.rows.map((r) => r.key)).size, 5);
  assert.equal(whats(removeRow(twice, 1)), "presoak wash rinse wash");
});

test("what is no number is left for the core to judge, at its bath", () => {
  const d = addRow({ over: [], rows: [] }, "local");
  assert.deepEqual(planBody(d), { over: [], baths: [{ what: "local", liquid: "", target_s: "" }] });
  const wrong = [{ field: "baths.1.litres", say: "Litres is missing." }];
  assert.equal(rowFault(wrong, 1, "litres"), "Litres is missing.");
  assert.equal(rowFault(wrong, 0, "litres"), "");
});

test("a fault goes when its field is changed, and all of them when baths move", () => {
  const d = draftOf([plan]);
  const wrong = [
    { field: "baths.0.litres", say: "a" },
    { field: "baths.1.target_s", say: "b" },
  ];
  assert.deepEqual(stillWrong(wrong, d, fillLitres(d, 1, "12")), wrong.slice(1));
  assert.deepEqual(stillWrong(wrong, d, moveRow(d, 1, 1)), []);
  assert.deepEqual(stillWrong(wrong, d, d), wrong);
});

test("drying takes no liquid, and a time only where one is set", () => {
  const d = addRow(draftOf([plan]), "drying");
  assert.deepEqual((planBody(d)["baths"] as unknown[])[2], { what: "drying" });
});

test("litres go into every bath that lies in a tray, or into one", () => {
  const d = addRow(draftOf([plan]), "local");
  assert.deepEqual(
    fillLitres(d, null, "12.5").rows.map((r) => r.litres),
    ["12.5", "12.5", "40"],
  );
  assert.deepEqual(
    fillLitres(d, 2, "12.5").rows.map((r) => r.litres),
    ["40", "12.5", "40"],
  );
});

test("an unfinished plan is known again, and nothing else is taken for one", () => {
  assert.equal(isDraft(JSON.parse(JSON.stringify(draftOf([plan])))), true);
  assert.equal(isDraft({ over: [], rows: [{ key: 1 }] }), false);
  assert.equal(isDraft(null), false);
});

const water = (name: string, more: Partial<Water> = {}): Water => ({
  entry: name,
  name,
  source: "deionised",
  conductivity: "",
  liquor_c: "",
  compensated: false,
  ph: "",
  hardness: "",
  hardness_unit: "",
  stock_l: "",
  make_l_h: "",
  by: "RV",
  at_ms: 0,
  ...more,
});

const shelf: Shelf = {
  initials: [],
  liquids: ["SDS 1 g/L", "tap water"],
  batches: [],
  waters: [water("deionised water", { stock_l: "250", make_l_h: "30" }), water("tap water")],
  instruments: [],
};

test("the water is asked for by kind, the largest where litres differ, another water left out", () => {
  let d = draftOf([plan]);
  d = addRow(d, "rinse");
  d = { ...d, rows: d.rows.map((r) => (r.what === "rinse" ? { ...r, liquid: "deionised water" } : r)) };
  d = repeatRow(d, 3);
  d = { ...d, rows: d.rows.map((r, i) => (i === 3 ? { ...r, litres: "42,5" } : r)) };
  const asked = waterAsked(d.rows, shelf.waters[0] ?? null, shelf);
  assert.deepEqual(asked.inputs, {
    presoaks: 1,
    presoak_litres: { value: "40", unit: "L" },
    washes: 1,
    wash_litres: { value: "40", unit: "L" },
    rinses: 2,
    rinse_litres: { value: "42,5", unit: "L" },
    stock: { value: "250", unit: "L" },
    rate: { value: "30", unit: "L/h" },
  });
  assert.deepEqual(asked.notes, ["The rinses differ in litres: each is counted as the largest, 42,5 L."]);
  const tap = d.rows.map((r) => (r.what === "presoak" ? { ...r, liquid: "tap water" } : r));
  const without = waterAsked(tap, shelf.waters[0] ?? null, shelf);
  assert.equal(without.inputs?.["presoaks"], undefined);
  assert.match(without.notes[0] ?? "", /tap water/);
});

test("a plan without litres asks nothing; a text that is no number is handed on", () => {
  assert.equal(waterAsked([], null, shelf).inputs, null);
  const d = fillLitres(draftOf([plan]), 1, "plenty");
  const asked = waterAsked(d.rows, null, shelf);
  assert.deepEqual(asked.inputs?.["presoak_litres"], { value: "plenty", unit: "L" });
});

test("a liquid is chosen from the list, as a batch, or typed", () => {
  assert.deepEqual(chooseLiquid("batch:SDS 1 g/L"), { liquid: "SDS 1 g/L", batch: "SDS 1 g/L", own: false });
  assert.deepEqual(chooseLiquid("liquid:tap water"), { liquid: "tap water", batch: "", own: false });
  assert.deepEqual(chooseLiquid("own"), { liquid: "", batch: "", own: true });
  assert.deepEqual(chooseLiquid(""), { liquid: "", batch: "", own: false });
  assert.deepEqual(draftOf([plan]).rows.map(liquidChoice), ["liquid:deionised water", "batch:SDS 1 g/L"]);
  const state = { steps: [{ liquid: "tap water" }] } as unknown as State;
  assert.deepEqual(knownLiquids(state, shelf, draftOf([plan]).rows), ["deionised water", "SDS 1 g/L", "tap water"]);
});

test("a tested dwell leaves out what was not said", () => {
  const d = { ...blankDwell("red silk", "", "IB"), minutes: "45" };
  assert.deepEqual(dwellBody(d), { colour: "red silk", liquid: "", s: 2700, name: "IB" });
  const all = { ...d, temp: "22", phFrom: "6", phTo: "7,5", faces: "both" as const };
  assert.deepEqual(dwellBody(all), {
    colour: "red silk",
    liquid: "",
    s: 2700,
    temp_c: "22",
    ph_from: "6",
    ph_to: "7,5",
    faces: "both",
    name: "IB",
  });
});

const dwell: Dwell = {
  entry: "d1",
  colour: "red silk",
  liquid: "tap water",
  s: 2700,
  temp_c: "22",
  ph_from: "6",
  ph_to: "7.5",
  faces: "both",
  name: "IB",
  by: "RV",
  at_ms: 0,
};

test("a tested dwell is told with what is not known of it", () => {
  assert.equal(dwellLine(dwell), "45 min in tap water, at 22 °C, pH 6 to 7.5, both faces");
  assert.equal(
    dwellLine({ ...dwell, liquid: "", temp_c: "", ph_from: "", ph_to: "", faces: "" }),
    "45 min in any liquid, temperature not said, pH not said, faces not said",
  );
  const state = {
    colours: ["blue wool", "Undyed ground"],
    dwells: [dwell, { ...dwell, colour: "" }],
  } as unknown as State;
  assert.deepEqual(coloursOf(state), ["blue wool", "red silk"]);
});

test("a stop plan is one step a line, whatever stands before it", () => {
  const typed = "1. Drain the tray.\n\n - Lift on the screen.\n2 people\n  • Blot. ";
  assert.deepEqual(stepsOf(typed), ["Drain the tray.", "Lift on the screen.", "2 people", "Blot."]);
  assert.equal(textOf(stepsOf(typed)), "Drain the tray.\nLift on the screen.\n2 people\nBlot.");
});

test("a result goes into a form in its own unit, whatever unit it is shown in", () => {
  const value = { name: "litres", title: "", unit: "L", low: null, high: null };
  const of = (n: number, shown: string): Result => ({
    values: [{ ...value, value: n, shown }],
    verdicts: [],
    tables: [],
    pictures: [],
    unknown: [],
    working: [],
    cautions: [],
    sources: [],
  });
  assert.equal(figureOf(of(0.5, "500 mL"), "litres"), "0.5");
  assert.equal(figureOf(of(38.4376, "38.4 L"), "litres"), "38.4");
  assert.equal(figureOf(of(12345, "12.3 m³"), "litres"), "12300");
  assert.equal(figureOf(of(1, "1 L"), "water_mass"), "");
  assert.equal(figureOf(null, "litres"), "");
});
