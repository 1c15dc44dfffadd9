import assert from "node:assert/strict";
import { test } from "node:test";
import { age, bytes, clockText, count, duration, isPast, listed, minutes, rfc3339, when } from "./words";

const MIN = 60_000;

const clocks: [name: string, elapsedMs: number, targetS: number, want: string][] = [
  ["at the begin", 0, 480, "8:00"],
  ["a moment later still the full time", 1, 480, "8:00"],
  ["after a whole second", 1000, 480, "7:59"],
  ["in the last second", 479_001, 480, "0:01"],
  ["at the target", 480_000, 480, "0:00"],
  ["half a second over", 480_500, 480, "0:00"],
  ["one second over", 481_000, 480, "+0:01"],
  ["twelve minutes over", 480_000 + 12 * MIN, 480, "+12:00"],
  ["a week over", 480_000 + 7 * 24 * 60 * MIN, 480, "+168:00:00"],
  ["an hour and more left", 0, 4000, "1:06:40"],
  ["without a target it counts up", 61_999, 0, "1:01"],
  ["a clock that was set back", -5000, 480, "8:00"],
];

for (const [name, elapsed, target, want] of clocks) {
  test(`clock: ${name}`, () => assert.equal(clockText(elapsed, target), want));
}

test("clock: it says past exactly when it shows a plus", () => {
  for (let ms = 470_000; ms < 490_000; ms += 37)
    assert.equal(isPast(ms, 480), clockText(ms, 480).startsWith("+"), `at ${ms} ms`);
});

test("clock: second by second it never jumps or stands still", () => {
  const seen: string[] = [];
  for (let s = 0; s <= 20; s++) seen.push(clockText(470_000 + s * 1000, 480));
  assert.equal(new Set(seen).size, seen.length);
});

test("durations in words", () => {
  assert.deepEqual(
    [0, 32_000, 8 * MIN, 8 * MIN + 12_000, 41 * MIN + 30_000, 74 * MIN, 120 * MIN, 51 * 60 * MIN].map(duration),
    ["0 s", "32 s", "8 min", "8 min 12 s", "41 min", "1 h 14 min", "2 h", "2 days 3 h"],
  );
  assert.deepEqual([0, 59_000, 41 * MIN, 74 * MIN].map(minutes), ["0 min", "0 min", "41 min", "1 h 14 min"]);
  assert.deepEqual([-5, 0, 3 * MIN, 125 * MIN, 50 * 60 * MIN].map(age), ["now", "now", "3 min", "2 h", "2 days"]);
});

test("a moment names as much of the date as it needs", () => {
  const now = new Date(2026, 2, 4, 15, 0).getTime();
  assert.equal(when(new Date(2026, 2, 4, 10, 2).getTime(), now), "10:02");
  assert.equal(when(new Date(2026, 1, 4, 10, 2).getTime(), now), "4 February 10:02");
  assert.equal(when(new Date(2025, 1, 4, 10, 2).getTime(), now), "4 February 2025 10:02");
});

test("RFC 3339 with the device's own offset names the same instant", () => {
  const ms = Date.UTC(2026, 2, 4, 9, 2, 11);
  assert.match(rfc3339(ms), /^2026-03-0\dT\d\d:02:11[+-]\d\d:\d\d$/);
  assert.equal(Date.parse(rfc3339(ms)), ms);
  assert.equal(rfc3339(ms + 999), rfc3339(ms));
  assert.ok(Number.isNaN(Date.parse(rfc3339(9e15))));
});

test("RFC 3339 of a time before there were time zones, whose offsets had seconds", (t) => {
  const ms = Date.UTC(1836, 9, 12, 17, 22);
  // Some engines give whole minutes, others what ECMAScript asks for: Tokyo was 9 h 18 min 59 s east.
  for (const [offset, says] of [
    [-(558 + 59 / 60), "1836-10-13T02:41:00+09:19"],
    [-558, "1836-10-13T02:40:00+09:18"],
    [296 + 2 / 60, "1836-10-12T12:26:00-04:56"],
  ] as const) {
    t.mock.method(Date.prototype, "getTimezoneOffset", () => offset);
    assert.equal(rfc3339(ms), says);
    assert.equal(Date.parse(rfc3339(ms)), ms);
  }
});

test("titles within a sentence", () => {
  assert.equal(
    listed(["Side AB", "pH wanted", "CMC of the surfactant", "X, white having Y 1"]),
    "side AB, pH wanted, CMC of the surfactant, X, white having Y 1",
  );
  assert.equal(listed([]), "");
});

test("counts and sizes", () => {
  assert.equal(count(1, "entry", "entries"), "1 entry");
  assert.equal(count(0, "entry", "entries"), "0 entries");
  assert.deepEqual([640, 64_000, 8_400_000, 2_100_000_000].map(bytes), ["640 bytes", "64 KB", "8.4 MB", "2.1 GB"]);
});

test("a time that no calendar has is said to be one", () => {
  assert.equal(when(9.2e18, Date.now()), "beyond any calendar");
});
