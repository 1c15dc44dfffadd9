import assert from "node:assert/strict";
import { test } from "node:test";
import type { Batch, LogLine, Result, Water } from "../../core/api";
import { rfc3339 } from "../base/words";
import { stands } from "./entries";
import {
  BATCH,
  batchRest,
  batchTexts,
  blankTexts,
  INSTRUMENT,
  itemAt,
  itemBody,
  toggled,
  WATER,
  waterTexts,
} from "./items";
import { batchStands, waterSays } from "./says";
import { BLANK, batchBody, expiresAt, isMaking, labelOf, lacks, solutionAsked } from "./solution-asked";

const NOON = new Date(2026, 2, 4, 12, 0).getTime();
const DAY = 86_400_000;

const water: Water = {
  entry: "w1",
  name: "deionised water",
  source: "deionised",
  conductivity: "1.2",
  liquor_c: "21",
  compensated: false,
  ph: "",
  hardness: "",
  hardness_unit: "",
  stock_l: "250",
  make_l_h: "30",
  by: "RV",
  at_ms: NOON,
};

test("a water goes into its form and out again; what is empty stays not said", () => {
  assert.deepEqual(itemBody("water", water.name, WATER, { ...waterTexts(water), stock_l: "180,5" }), {
    what: "water",
    name: "deionised water",
    source: "deionised",
    conductivity: "1.2",
    liquor_c: "21",
    stock_l: "180,5",
    make_l_h: "30",
  });
  assert.equal(waterSays(water, NOON), "deionised, 1.2 µS/cm at 21 °C, 250 L there, made at 30 L/h, RV 12:00");
});

test("a water measured earlier says when; a text that is no time is no time", () => {
  assert.deepEqual(itemAt({}), {});
  assert.deepEqual(itemAt({ at: "2026-03-04T12:00" }), { at: rfc3339(NOON) });
  assert.equal(itemAt({ at: "noon" }), null);
  assert.equal(itemBody("water", "tap water", WATER, { at: "2026-03-04T12:00" })["at"], undefined);
});

test("an instrument measures several things and says when it was calibrated", () => {
  const measures = INSTRUMENT[0];
  assert.ok(measures);
  const chosen = toggled(measures, toggled(measures, "", "conductivity"), "temperature");
  assert.equal(chosen, "temperature conductivity");
  assert.equal(toggled(measures, chosen, "temperature"), "conductivity");
  const texts = { ...blankTexts(INSTRUMENT), measures: chosen, compensates: "yes", calibrated: "2026-03-04T12:00" };
  assert.deepEqual(itemBody("instrument", " Meter 2 ", INSTRUMENT, texts), {
    what: "instrument",
    name: "Meter 2",
    measures: ["temperature", "conductivity"],
    compensates: true,
    calibrated: rfc3339(NOON),
  });
});

const batch: Batch = {
  entry: "b1",
  name: "SDS 1 g/L",
  product: "sodium dodecyl sulfate",
  charge: "anionic",
  lot: "",
  active_pct: "28",
  cmc_g_l: "2.34",
  target: "1",
  unit: "g/L",
  litres: "40",
  product_g: "143",
  water: "deionised water",
  ph: "",
  by: "RV",
  made_ms: NOON,
  expires_ms: NOON + DAY,
  gone: false,
};

test("a corrected batch still says all that it said", () => {
  const body = itemBody("batch", batch.name, BATCH, { ...batchTexts(batch), gone: "yes" }, batchRest(batch));
  assert.deepEqual(body, {
    what: "batch",
    name: "SDS 1 g/L",
    active_pct: "28",
    cmc_g_l: "2.34",
    target: "1",
    unit: "g/L",
    litres: "40",
    product_g: "143",
    water: "deionised water",
    made: rfc3339(NOON),
    product: "sodium dodecyl sulfate",
    charge: "anionic",
    expires: rfc3339(NOON + DAY),
    gone: true,
  });
});

test("a batch is expired from its time on, and open where nobody set one", () => {
  assert.equal(batchStands(batch, NOON).is, "good");
  assert.equal(batchStands(batch, NOON + DAY).is, "expired");
  assert.equal(batchStands({ ...batch, expires_ms: null }, NOON).is, "open");
  assert.equal(batchStands({ ...batch, gone: true }, NOON + DAY).is, "gone");
});

const making = { ...BLANK, product: "sodium dodecyl sulfate", active: "28", target: "1", litres: "40" };

test("a solution is asked as typed, without a CMC that nobody knows", () => {
  assert.deepEqual(lacks(BLANK), ["litres", "strength wanted", "active content"]);
  assert.deepEqual(lacks(making), []);
  assert.deepEqual(solutionAsked({ ...making, density: "1,04" }), {
    litres: { value: "40", unit: "L" },
    target: { value: "1", unit: "g/L" },
    form: "paste",
    active: { value: "28", unit: "% w/w" },
    density: { value: "1,04", unit: "g/mL" },
  });
  const powder = { ...making, form: "powder", density: "1,04", cmc: "2,34", unit: "× CMC" } as const;
  const asked = solutionAsked(powder);
  assert.equal(asked["density"], undefined);
  assert.deepEqual(asked["cmc"], { value: "2,34", unit: "g/L" });
  assert.deepEqual(asked["target"], { value: "1", unit: "× CMC" });
});

test("a label is proposed from what is known, and one that is typed stands", () => {
  assert.equal(labelOf({ ...making, water: "deionised water" }), "sodium dodecyl sulfate 1 g/L in deionised water");
  assert.equal(labelOf({ ...making, name: " A " }), "A");
  assert.equal(labelOf(BLANK), "");
});

test("what is made up is recorded with the mass that was shown", () => {
  const value = { title: "", unit: "g", low: null, high: null, value: 142.857 };
  const values = [{ ...value, name: "product_mass", shown: "0.143 kg" }];
  const result: Result = {
    values,
    verdicts: [],
    tables: [],
    pictures: [],
    unknown: [],
    working: [],
    cautions: [],
    sources: [],
  };
  assert.deepEqual(batchBody({ ...making, days: "7" }, NOON, result), {
    what: "batch",
    name: "sodium dodecyl sulfate 1 g/L",
    product: "sodium dodecyl sulfate",
    active_pct: "28",
    target: "1",
    unit: "g/L",
    litres: "40",
    product_g: "143",
    made: rfc3339(NOON),
    expires: rfc3339(NOON + 7 * DAY),
  });
});

test("days that are no number are left for the core to refuse", () => {
  assert.equal(expiresAt({ ...BLANK, days: "" }, NOON), null);
  assert.equal(expiresAt({ ...BLANK, days: "a week" }, NOON), "a week");
  assert.equal(expiresAt({ ...BLANK, days: "1,5" }, NOON), rfc3339(NOON + 1.5 * DAY));
});

test("an unfinished solution is known again", () => {
  assert.equal(isMaking(JSON.parse(JSON.stringify(making))), true);
  assert.equal(isMaking({ ...making, form: "brick" }), false);
  assert.equal(isMaking(null), false);
});

test("an item's entries are found as last amended, struck ones left out", () => {
  const body = { what: "water", name: "tap water" };
  const line = { kind: "item", struck: null, amended: [], body } as unknown as LogLine;
  assert.equal(stands(line, "water", "tap water"), true);
  assert.equal(stands(line, "liquid", "tap water"), false);
  assert.equal(stands({ ...line, struck: { entry: "s", by: "RV", why: "x", ms: 0 } }, "water", "tap water"), false);
  const renamed = { stands: true, struck: false, body: { what: "water", name: "rain water" } };
  const amended = { ...line, amended: [renamed] } as unknown as LogLine;
  assert.equal(stands(amended, "water", "tap water"), false);
  assert.equal(stands(amended, "water", "rain water"), true);
});
