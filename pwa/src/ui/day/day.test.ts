import assert from "node:assert/strict";
import { test } from "node:test";
import type { LogLine, Moment, Reading, Rinse, State, Step } from "../../core/api";
import { gapsOf } from "./gaps";
import { isLate, marksOf } from "./marks";
import { linesOf, otherLines, readingsOf, rinseOf, ticked, tickedBy, unticked, whoWrote } from "./sheet";
import { clock, isIn, ownClock, sentence, spanOf, touches } from "./span";

const MIN = 60_000;
const span = spanOf("2026-03-04");
const noon = span.from + 12 * 60 * MIN;

const moment = (ms: number, more: Partial<Moment> = {}): Moment => ({
  ms,
  at: new Date(ms).toISOString(),
  corrected: false,
  recorded_ms: ms,
  ...more,
});
const reading = (q: string, ms: number) => ({ q, at: moment(ms) }) as Reading;
const bath = (from: number, to: number | null, read: number[], what = "rinse") =>
  ({
    entry: "s",
    what,
    ordinal: 2,
    immerses: what !== "drying",
    begun: moment(from),
    ended: to === null ? null : moment(to),
    readings: read.map((ms) => reading("ph", ms)),
  }) as Step;
const state = (more: object) =>
  ({ fields: {}, steps: [], loose: [], acts: [], checklist: [], ...more }) as unknown as State;
const line = (kind: string, ms: number, more: object = {}) =>
  ({ kind, by: "RV", at: moment(ms), struck: null, amended: [], doubt: "", ...more }) as unknown as LogLine;

test("a day is from midnight to midnight at this place, and what runs through it touches it", () => {
  assert.ok(isIn(span, span.from) && !isIn(span, span.to) && isIn(span, span.to - 1));
  assert.ok(touches(span, span.from - 5 * MIN, span.from + MIN));
  assert.ok(touches(span, span.from - 5 * MIN, null));
  assert.ok(!touches(span, span.from - 5 * MIN, span.from - MIN));
  assert.equal(clock(span, noon + 9000), "12:00:09");
  assert.match(clock(span, span.to), /^5 March 00:00/);
});

test("the author's own clock stands beside the time where it was in another zone", () => {
  const here = -new Date(noon).getTimezoneOffset();
  const at = (east: number) => {
    const own = new Date(noon + east * MIN).toISOString().slice(0, 19);
    const sign = east < 0 ? "-" : "+";
    const two = (n: number) => String(n).padStart(2, "0");
    return `${own}${sign}${two(Math.floor(Math.abs(east) / 60))}:${two(Math.abs(east) % 60)}`;
  };
  assert.equal(ownClock(moment(noon, { at: at(here) })), "");
  const other = here === 330 ? 120 : 330;
  assert.equal(ownClock(moment(noon, { at: at(other) })), `${at(other).slice(11, 16)} ${at(other).slice(19)}`);
});

test("late, from memory, estimated, and by a clock put right each have a word and a sign", () => {
  const words = marksOf({ at: moment(noon, { corrected: true }), late: true, how: "memory" }, true).map((m) => m.word);
  assert.deepEqual(words, ["late", "from memory", "clock put right", "corrected"]);
  assert.deepEqual(marksOf({ at: moment(noon), late: false, how: "estimate" })[0]?.word, "estimated");
  assert.deepEqual(marksOf({ at: moment(noon), late: false, how: "clock" }), []);
  assert.ok(isLate(moment(noon, { recorded_ms: noon + 3 * MIN })));
});

test("gaps are said with their ends, never filled", () => {
  const s = state({ steps: [bath(noon, noon + 40 * MIN, [noon + 2 * MIN, noon + 30 * MIN])] });
  assert.deepEqual(gapsOf(s, span, noon + 60 * MIN), [
    "Rinse 2: no reading between 12:02:00 and 12:30:00; one was asked for every 10 min.",
  ]);
  const short = state({ steps: [bath(noon, noon + 5 * MIN, [])] });
  assert.deepEqual(gapsOf(short, span, noon + 60 * MIN), ["Rinse 2: no reading at all."]);
});

test("a bath without an end says so, and its gap ends now", () => {
  const s = state({ steps: [bath(noon, null, [noon + MIN])] });
  assert.deepEqual(gapsOf(s, span, noon + 20 * MIN), [
    "Rinse 2: no reading between 12:01:00 and 12:20:00; one was asked for every 10 min.",
    "Rinse 2: no end has been written.",
  ]);
});

test("drying is looked at often first and hourly later", () => {
  const looked = [15, 30, 45, 60, 75, 90, 105, 120, 178].map((m) => noon + m * MIN);
  const s = state({ steps: [bath(noon, noon + 200 * MIN, looked, "drying")] });
  assert.deepEqual(gapsOf(s, span, noon + 300 * MIN), []);
  const late = state({ steps: [bath(noon, noon + 40 * MIN, [noon + 10 * MIN], "drying")] });
  assert.equal(gapsOf(late, span, noon + 300 * MIN).length, 1);
});

test("only what happened or was written that day is on the sheet, and every kind has a place", () => {
  const before = span.from - MIN;
  const lines = [
    line("note", before),
    line("note", noon),
    line("reading", before, { at: moment(before, { recorded_ms: noon }) }),
  ];
  assert.equal(linesOf(lines, span).length, 2);
  const all = [line("note", noon), line("heard", noon), line("reading", noon), line("amend", noon), line("new", noon)];
  assert.deepEqual(
    otherLines(all).map((l) => l.kind),
    ["note", "heard", "new"],
  );
  const tick = line("set", noon, { body: { field: "check.weighed", value: "yes" }, by: "OT" });
  assert.deepEqual(otherLines([tick]), []);
  assert.deepEqual(tickedBy([...all, tick]), { by: ["OT"], from: noon, to: noon });
  assert.deepEqual(whoWrote([...all, line("note", noon, { by: "OT" })]), ["RV", "OT"]);
  const s = state({ steps: [bath(noon, null, [noon + 3 * MIN, before])], loose: [reading("ph", noon + MIN)] });
  assert.deepEqual(
    readingsOf(s, span).map((r) => r.step?.entry ?? "none"),
    ["none", "s"],
  );
});

test("the curve of a day stands on that day's readings, and has no fit where others are in it", () => {
  const rinse = { points: [{ at_ms: noon }, { at_ms: noon + MIN }], curve: [{ place: 1 }], say: "Three more." };
  const one = rinseOf(rinse as Rinse, span);
  assert.ok(one?.whole && one.rinse.curve.length === 1);
  const two = rinseOf({ ...rinse, points: [...rinse.points, { at_ms: span.to }] } as Rinse, span);
  assert.deepEqual([two?.whole, two?.rinse.points.length, two?.rinse.curve.length], [false, 2, 0]);
  assert.equal(rinseOf({ ...rinse, points: [] } as unknown as Rinse, span), null);
});

test("what was not ticked is said, two answers among it", () => {
  const tick = (title: string, ...values: string[]) => ({ item: title, title, is: values.map((value) => ({ value })) });
  const s = state({ checklist: [tick("A", "yes"), tick("B"), tick("C", "no"), tick("D", "yes", "no")] });
  assert.deepEqual(ticked(s), ["A"]);
  assert.deepEqual(unticked(s), ["B", "C", "D (two answers: choose in the log)"]);
});

test("a sentence has one full stop", () => {
  assert.equal(sentence("a digit was lost"), "a digit was lost.");
  assert.equal(sentence("Not tested. "), "Not tested.");
});
