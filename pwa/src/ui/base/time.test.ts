import assert from "node:assert/strict";
import { afterEach, test } from "node:test";
import { clockMs, deviceNow, nowMs, playTime, untilNextSecond } from "./time";

afterEach(() => playTime(null));

test("a time that is played is shown instead of the device's, and the device's clock stays what it is", () => {
  const played = Date.UTC(2026, 2, 4, 9, 2, 11, 700);
  playTime(() => played);
  assert.equal(nowMs(), played);
  assert.equal(deviceNow.value, Date.UTC(2026, 2, 4, 9, 2, 11));
  assert.ok(clockMs() > played - 1e12 && clockMs() !== played);
  playTime(null);
  assert.ok(Math.abs(nowMs() - clockMs()) < 1000);
  assert.ok(clockMs() - deviceNow.value < 60_000);
});

test("the next look is when the second changes", () => {
  assert.deepEqual([0, 1, 999, 1000, 1_500.7, -1].map(untilNextSecond), [1000, 999, 1, 1000, 500, 1]);
});
