import assert from "node:assert/strict";
import { test } from "node:test";
import { NOON } from "../testing/kit";
import { PageClock } from "./page-clock";

function clock() {
  const time = { own: NOON, steady: 5000 };
  const c = new PageClock(
    () => time.own,
    () => time.steady,
  );
  return { time, c };
}

test("a worker whose page's clock was moved follows it, and goes back with it", () => {
  const { time, c } = clock();
  assert.equal(c.now(), NOON);
  c.heard({ at: NOON + 420_000, steady: 5000 });
  assert.equal(c.now(), NOON + 420_000);
  time.own += 10_000;
  assert.equal(c.now(), NOON + 430_000);
  time.steady += 10_000;
  c.heard({ at: time.own, steady: time.steady });
  assert.equal(c.now(), time.own);
});

test("a difference of up to a second is none", () => {
  const { c } = clock();
  c.heard({ at: NOON + 1000, steady: 5000 });
  assert.equal(c.now(), NOON);
  c.heard({ at: NOON - 1001, steady: 5000 });
  assert.equal(c.now(), NOON - 1001);
});

test("a message that waited for its worker moves no clock", () => {
  const { time, c } = clock();
  time.own += 8000;
  time.steady += 8000;
  c.heard({ at: NOON, steady: 5000 });
  assert.equal(c.now(), NOON + 8000);
});

test("a steady clock that makes no sense is not believed beyond a minute", () => {
  const { c } = clock();
  c.heard({ at: NOON, steady: 5000 + 3_600_000 });
  assert.equal(c.now(), NOON);
  c.heard({ at: NOON, steady: 5000 - 3_600_000 });
  assert.equal(c.now(), NOON + 60_000);
});
