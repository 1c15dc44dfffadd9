import assert from "node:assert/strict";
import { test } from "node:test";
import type { FieldValue, State, Step, Tick, Watch } from "../../core/api";
import {
  bathLike,
  bathOfKind,
  firstBath,
  isBath,
  NOTHING,
  planOf,
  plannedBath,
  plannedSays,
  targetSeconds,
  type Bath,
} from "./bath";
import { openItems } from "../ready/ticks";
import { beginBody, isUntested } from "./begin";

const yes: FieldValue = { value: "yes", entry: "e", by: "RV", at_ms: 0 };
const tick = (item: string, ...is: FieldValue[]): Tick => ({ item, title: item, is });

const state = (more: Partial<State> = {}) => ({ steps: [], plans: [], checklist: [], ...more }) as unknown as State;
const watch = (more: Partial<Watch> = {}) =>
  ({ dwell: { s: 5400, untested: [] }, next: { say: "", at_ms: null, place: 0 }, ...more }) as unknown as Watch;
const step = (more: Partial<Step>) => ({ what: "wash", litres: "8", target_s: 480, where: "", ...more }) as Step;

const wash: Bath = { ...NOTHING, what: "wash", liquid: "Tap water", litres: "8,5", minutes: "8" };

test("begin: values go as typed, empty ones are left out", () => {
  assert.deepEqual(beginBody(wash, state(), watch()), {
    what: "wash",
    liquid: "Tap water",
    litres: "8,5",
    target_s: 480,
  });
  const full: Bath = { ...wash, temp: "22", batch: "B7", where: "large tray", planned: 2 };
  assert.deepEqual(beginBody(full, state(), watch()), {
    what: "wash",
    liquid: "Tap water",
    litres: "8,5",
    target_s: 480,
    temp_c: "22",
    batch: "B7",
    planned: 2,
    where: "large tray",
  });
});

test("begin: litres are asked of a tray and may be missing of a gel", () => {
  assert.equal("litres" in beginBody({ ...wash, what: "gel", litres: "" }, state(), watch()), false);
  assert.equal(beginBody({ ...wash, litres: "" }, state(), watch())["litres"], "");
});

test("begin: a drying says how it lies and nothing of a bath", () => {
  assert.deepEqual(beginBody({ ...wash, what: "drying", minutes: "", air: "0.3", where: "board" }, state(), watch()), {
    what: "drying",
    face: "up",
    held: "weights",
    airflow: "gentle",
    sides: 1,
    air_m_s: "0.3",
    where: "board",
  });
});

test("begin: the first wetting admits what was not ticked and what is untested, later ones do not again", () => {
  const checklist = [tick("weighed", yes), tick("photographed"), tick("fans_ready", { ...yes, value: "no" })];
  const untested = watch({ dwell: { s: 0, untested: [] } as unknown as Watch["dwell"] });
  const first = beginBody(wash, state({ checklist }), untested);
  assert.deepEqual(first["unticked"], ["photographed", "fans_ready"]);
  assert.equal(first["uncleared"], true);
  const later = beginBody(wash, state({ checklist, steps: [step({})] }), untested);
  assert.equal("unticked" in later || "uncleared" in later, false);
  const drying = beginBody({ ...wash, what: "drying" }, state({ checklist }), untested);
  assert.equal("unticked" in drying, false);
});

test("begin: a tick that people disagree about is open", () => {
  assert.deepEqual(
    openItems([tick("weighed", yes, { ...yes, value: "no" })]).map((t) => t.item),
    ["weighed"],
  );
});

test("begin: one untested colour is enough to be uncleared; what is not known yet is not called untested", () => {
  assert.equal(isUntested(watch()), false);
  assert.equal(isUntested(watch({ dwell: { s: 600, untested: ["red silk"] } as unknown as Watch["dwell"] })), true);
  assert.equal(isUntested(null), false);
});

const baths = [
  { what: "wash", liquid: "Wash A", litres: "8", target_s: 480, temp_c: "22", batch: "A1" },
  { what: "rinse", liquid: "Deionised water", litres: "12", target_s: 300, temp_c: "22", batch: "" },
];
const plan = { entry: "p", by: "RV", at_ms: 0, baths };
const at = (place: number) => watch({ next: { say: "", at_ms: null, place } });

test("plan: the next bath is filled in from it", () => {
  const b = firstBath(state({ plans: [plan] }), at(2));
  assert.deepEqual(
    [b.what, b.liquid, b.litres, b.minutes, b.temp, b.planned],
    ["rinse", "Deionised water", "12", "5", "22", 2],
  );
});

test("plan: a place is said among those of its kind", () => {
  const rinse = baths[1]!;
  const long = [baths[0]!, rinse, { ...rinse, litres: "10" }];
  assert.equal(plannedSays(long, 1), "wash, 8 L");
  assert.equal(plannedSays(long, 3), "rinse 2 of 2, 10 L");
  assert.equal(plannedSays(long, 9), "");
});

test("plan: another kind leaves it, the planned kind comes back to it", () => {
  const s = state({ plans: [plan], steps: [step({ what: "wash", liquid: "Wash A" })] });
  assert.equal(bathOfKind(s, at(2), "wash").planned, 0);
  assert.equal(bathOfKind(s, at(2), "rinse").planned, 2);
});

test("plan: over is none, of two the later is followed", () => {
  assert.equal(plannedBath(state({ plans: [plan] }), at(0)), null);
  assert.equal(plannedBath(state({ plans: [plan] }), at(9)), null);
  assert.equal(planOf(state({ plans: [plan, { ...plan, baths: [] }] }))?.length, 0);
});

test("bath: another kind than the last takes its liquid, and litres only where a tray is filled", () => {
  const s = state({ steps: [step({ what: "wash", liquid: "Tap water", batch: "B7", temp_c: "22" })] });
  assert.deepEqual([bathLike(s, "rinse").litres, bathLike(s, "rinse").batch], ["8", ""]);
  assert.deepEqual([bathLike(s, "gel").litres, bathLike(s, "gel").liquid], ["", "Tap water"]);
});

test("bath: what an older version kept is not taken for a bath", () => {
  assert.equal(isBath({ what: "wash", liquid: "", litres: "", minutes: "" }), false);
  assert.equal(isBath(wash), true);
});

test("bath: minutes become whole seconds, what is no number stays as typed", () => {
  assert.deepEqual(["8", "1,5", "", "soon"].map(targetSeconds), [480, 90, "", "soon"]);
  assert.deepEqual(["+10", "1 000", "1'000", "1.5 "].map(targetSeconds), [600, 60000, 60000, 90]);
  const refused = ["1e2", "0x10", "1,234", "12,5,6", "Infinity", "-5", "٣"];
  assert.deepEqual(refused.map(targetSeconds), refused);
});
