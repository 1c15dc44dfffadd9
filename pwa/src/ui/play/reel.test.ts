import assert from "node:assert/strict";
import { test } from "node:test";
import { BEFORE_NEXT, madeBy, nextCut, playedAt, QUIET, reelOf, skipTo, toSee, turned, type Cut } from "./reel";

const MIN = 60_000;
const cut = (min: number, kind: string, job = "a"): Cut => ({ ms: min * MIN, job, kind, say: `${kind} ${min}` });
const day = (ms: number) => String(Math.floor(ms / (1440 * MIN)));

test("the busiest day is played, from before its first wetting to after its last entry", () => {
  const reel = reelOf(
    [cut(10, "note"), cut(1450, "open"), cut(1500, "begin"), cut(1460, "set"), cut(1600, "dry", "b")],
    day,
  );
  assert.ok(reel);
  assert.equal(reel.from, 1494 * MIN);
  assert.equal(reel.to, 1602 * MIN);
  assert.deepEqual(
    reel.cuts.map((c) => c.ms / MIN),
    [1450, 1460, 1500, 1600],
  );
  assert.equal(reelOf([], day), null);
});

test("the played clock goes a minute a second, stands, and can be set", () => {
  const t = { real: 1000, played: 500 * MIN, rate: 60 };
  assert.equal(playedAt(t, 3000), 502 * MIN);
  const stands = turned(t, 3000, { rate: 0 });
  assert.equal(playedAt(stands, 99_000), 502 * MIN);
  assert.equal(playedAt(turned(stands, 99_000, { rate: 60, played: 600 * MIN }), 100_000), 601 * MIN);
});

test("what is quiet for long is skipped, to a while before what comes next", () => {
  const reel = reelOf([cut(0, "begin"), cut(15, "reading"), cut(60, "end")], day);
  assert.ok(reel);
  assert.equal(skipTo(reel, 0), null, "a quarter of an hour is not long");
  assert.equal(skipTo(reel, 16 * MIN), 60 * MIN - BEFORE_NEXT);
  assert.equal(skipTo(reel, 60 * MIN - QUIET), null);
  assert.equal(skipTo(reel, 61 * MIN), null, "after the last entry nothing comes");
  assert.equal(nextCut(reel, 15 * MIN)?.kind, "end");
});

test("entries are revealed in order, each treatment's by itself", () => {
  const reel = reelOf([cut(0, "begin"), cut(1, "begin", "b"), cut(5, "reading"), cut(9, "abort", "b")], day);
  assert.ok(reel);
  assert.deepEqual(
    [0, 4, 5, 20].map((m) => [madeBy(reel, "a", m * MIN), madeBy(reel, "b", m * MIN)]),
    [
      [1, 0],
      [1, 1],
      [2, 1],
      [2, 2],
    ],
  );
  assert.equal(toSee(reel, 5 * MIN)?.job, "b");
  assert.equal(toSee(reel, 9 * MIN)?.kind, "abort");
  assert.equal(toSee(reel, -1), undefined);
});
