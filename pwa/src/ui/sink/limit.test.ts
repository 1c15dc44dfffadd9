import assert from "node:assert/strict";
import { test } from "node:test";
import type { Limit, Reading, State, Step, Warning, Watch } from "../../core/api";
import { conductivityBody, k25Inputs, liquorOf, nearEnd } from "./conductivity";
import { dueOf } from "./due";
import { limitBar, limitLabel, limitLacks } from "./limit";
import { momentOf, momentSays, NOW } from "./moment";
import { pendingFor } from "./pending";
import { markOf, readingSays, valueSays } from "./quantities";
import { abortWithoutReason, askedAbort } from "./stop-plan";
import { holding, owesReason, ownWarnings, unsaid } from "./warned";

const MIN = 60_000;
const limit = (more: Partial<Limit> = {}) =>
  ({ s: 5400, mark_s: 4320, untested: [], say: "", ...more }) as unknown as Limit;

test("limit: the bar has its 80 % mark from the first second", () => {
  assert.deepEqual(limitBar(limit(), 0), { gone: 0, over: 0, mark: 0.8, end: 1, is: "within" });
});

test("limit: near from the mark on, past from the end on, and the bar makes room for what is over", () => {
  assert.equal(limitBar(limit(), 72 * MIN)?.is, "near");
  assert.equal(limitBar(limit(), 90 * MIN)?.is, "past");
  const twice = limitBar(limit(), 180 * MIN);
  assert.deepEqual([twice?.gone, twice?.over, twice?.mark, twice?.end], [0.5, 0.5, 0.4, 0.5]);
});

test("limit: without a dwell there is no bar, and it is said", () => {
  const none = limit({ s: 0, say: "No test recorded for red silk." });
  assert.equal(limitBar(none, 5 * MIN), null);
  assert.equal(limitLabel(none), "Immersed");
  assert.equal(limitLacks(none), "No test recorded for red silk.");
  assert.equal(limitLacks(limit({ s: 0 })), "No test recorded.");
});

test("limit: many reasons are shortened to the colours", () => {
  const say = "Red: tested at 20 °C, the plan has 22 °C. Brown: tested at 20 °C, the plan has 22 °C.";
  const many = limit({ s: 0, untested: ["red: tested at 20 °C", "brown: tested at 20 °C"], say });
  assert.equal(limitLacks(many), "No test that fits: red, brown.");
});

test("limit: one colour without a test is said beside the limit of the others", () => {
  const part = limit({ untested: ["red silk"], say: "No test recorded for red silk." });
  assert.equal(limitLabel(part), "Immersed, of 90 min tested");
  assert.equal(limitLacks(part), "No test recorded for red silk.");
  assert.equal(limitLacks(limit()), "");
});

const reading = (more: object) => ({ of: "s", value: "21.5", at: { ms: 10 * MIN }, ...more }) as unknown as Reading;
const bath = { entry: "s", target_s: 480, begun: { ms: 0 } } as unknown as Step;
const withTemp = (r: Reading) => ({ last: { temperature: r } }) as unknown as State;

test("conductivity: the liquor's temperature is the last of this bath, no older than five minutes", () => {
  assert.equal(liquorOf(withTemp(reading({})), bath, 14 * MIN), "21.5");
  assert.equal(liquorOf(withTemp(reading({})), bath, 16 * MIN), "");
  assert.equal(liquorOf(withTemp(reading({ of: "other" })), bath, 11 * MIN), "");
  assert.equal(liquorOf({ last: {} } as unknown as State, bath, 0), "");
});

test("conductivity: at the end in the last two minutes and past the target", () => {
  assert.deepEqual(
    [5 * MIN, 6 * MIN, 9 * MIN].map((t) => nearEnd(bath, t)),
    [false, true, true],
  );
  assert.equal(nearEnd(null, 0), false);
});

test("conductivity: never corrected twice, never without a temperature", () => {
  assert.deepEqual(k25Inputs("84", "21.5", false), { way: "linear", value: "84", temp: "21.5" });
  assert.deepEqual(k25Inputs("84", "21.5", true), { way: "compensated", value: "84" });
  assert.equal(k25Inputs("84", "", false), null);
  assert.equal(k25Inputs("", "21.5", false), null);
});

test("conductivity: of the source water it belongs to no bath", () => {
  const r = { value: "4", of: "s", liquor: "21", compensated: false, source: true, atEnd: true, instrument: "" };
  assert.deepEqual(conductivityBody(r), { q: "conductivity", value: "4", unit: "uS/cm", source: true, liquor_c: "21" });
  assert.equal(conductivityBody({ ...r, source: false })["at_end"], true);
});

test("due: of the shown step alone", () => {
  const watch = { due: [{ q: "ph", of: "s", at_ms: 5 }] } as unknown as Watch;
  assert.equal(dueOf(watch, bath, "ph"), 5);
  assert.equal(dueOf(watch, bath, "temperature"), null);
  assert.equal(dueOf(watch, { ...bath, entry: "other" }, "ph"), null);
});

test("warnings: those that hold, limits first", () => {
  const w = (id: string, from_ms: number, tone: string): Warning => ({ id, from_ms, tone, say: id, of: "" });
  const list = [w("a", 1, "caution"), w("b", 2, "limit"), w("c", 3, "caution"), w("later", 99, "limit")];
  assert.deepEqual(
    holding(list, 10).map((x) => x.id),
    ["b", "c", "a"],
  );
});

test("warnings: what the clock and the keys of the shown step say is not said twice", () => {
  const w = (id: string, of: string): Warning => ({ id, from_ms: 0, tone: "caution", say: id, of });
  const list = [w("past:s", "s"), w("reading:s", "s"), w("temperature:r", "s"), w("past:o", "other")];
  assert.deepEqual(
    unsaid(list, bath).map((x) => x.id),
    ["temperature:r", "past:o"],
  );
  assert.equal(unsaid(list, null).length, 4);
  assert.equal(owesReason([w("uncleared:s", "s")]), "s");
  assert.equal(owesReason(list), "");
});

test("moment: now says nothing, earlier says when and how", () => {
  const now = new Date(2026, 2, 4, 10, 12).getTime();
  assert.deepEqual(momentOf(NOW, now), { at: {}, body: {} });
  const late = momentOf({ ago: 10, how: "memory" }, now);
  assert.equal(Date.parse(late.at.at ?? ""), now - 10 * MIN);
  assert.deepEqual(late.body, { how: "memory" });
  assert.equal(momentSays({ ago: 10, how: "memory" }, now), "at 10:02, from memory");
  assert.equal(momentSays(NOW, now), "now");
});

test("pending: until the fold has it, in its own treatment", () => {
  const kept = { job: "J", place: 2, k25: 90, before: 1 };
  const rinse = (n: number) => ({ points: Array.from({ length: n }) }) as unknown as NonNullable<Watch["rinse"]>;
  assert.equal(pendingFor("J", rinse(1), kept), kept);
  assert.equal(pendingFor("J", rinse(2), kept), null);
  assert.equal(pendingFor("K", rinse(1), kept), null);
  assert.equal(pendingFor("J", null, { ...kept, before: 0 })?.k25, 90);
});

test("stop: the latest that nobody has given a reason for", () => {
  const aborts = [
    { entry: "a", reason: "" },
    { entry: "b", reason: "blue" },
  ];
  assert.equal(abortWithoutReason({ aborts } as unknown as State)?.entry, "a");
  assert.equal(askedAbort({ aborts } as unknown as State)?.entry, "a");
  assert.equal(askedAbort({ aborts: [{ entry: "b", reason: "blue" }] } as unknown as State)?.entry, "b");
});

test("readings that came late or from memory are marked", () => {
  assert.deepEqual(
    [
      markOf({ late: true, how: "memory" }),
      markOf({ late: true, how: "clock" }),
      markOf({ late: false, how: "estimate" }),
      markOf({ late: false, how: "" }),
    ],
    ["from memory", "late", "estimate", ""],
  );
});

test("readings in words", () => {
  assert.deepEqual(
    [readingSays("colour", "2"), readingSays("suds", "0"), readingSays("ph", "6.4"), valueSays("suds", "1")],
    ["Colour 2, faint", "No suds", "pH 6.4", "yes"],
  );
});

test("the screen says that its clock was set back, and that what is closed does not ring", () => {
  const steps = [{ entry: "s", what: "rinse", ordinal: 1, ended: null, begun: { ms: 1_000_000 } }];
  const at = (open: boolean, now: number, wet_since_ms: number | null = 1_000_000, ran = steps as unknown[]) =>
    ownWarnings({ open, steps: ran, wet_since_ms } as unknown as State, now).map((w) => w.id);
  assert.deepEqual(at(true, 950_000), []);
  assert.deepEqual(at(true, 900_000), ["clock"]);
  assert.deepEqual(at(false, 2_000_000), ["closed"]);
  assert.deepEqual(at(false, 2_000_000, 1_000_000, []), ["closed"], "wet, though nothing runs");
  assert.deepEqual(at(false, 2_000_000, null, []), [], "closed and dry is as it should be");
});
