import assert from "node:assert/strict";
import { test } from "node:test";
import type { Cue } from "../../core/api";
import { NOTHING, plan, type Memory, type Watched } from "../ring/plan";
import { isFresh, MOST, soundNow, type Times } from "./rings";

const MIN = 60_000;
const TEN = Date.UTC(2026, 2, 4, 10);

function cue(id: string, at_ms: number, heard_by = ""): Cue {
  return { id, kind: "target", of: "E", at_ms, say: id, speak: id, loud: true, heard_by };
}

const bonnet = (...cues: Cue[]): Watched[] => [{ job: "B", name: "Child's quilted bonnet", cues }];
const ringsAt = (now: number, cues: Watched[], m: Memory = NOTHING) => plan(cues, now, m).ring;

test("a played cue sounds a few times and then only stands there", () => {
  const ring = ringsAt(TEN, bonnet(cue("target", TEN)));
  let times: Times = new Map();
  const sounded = [];
  for (let i = 0; i < MOST + 3; i++) {
    const s = soundNow(ring, times);
    sounded.push(s.sound.length);
    times = s.times;
  }
  assert.deepEqual(sounded, [1, 1, 1, 0, 0, 0]);
});

test("what rings anew sounds at once, what has long sounded stays silent beside it", () => {
  const worn: Times = new Map([["B first", MOST]]);
  const ring = ringsAt(TEN, bonnet(cue("first", TEN - MIN), cue("second", TEN)));
  assert.equal(isFresh(ring, worn), true);
  const s = soundNow(ring, worn);
  assert.deepEqual(
    s.sound.map((r) => r.cue.id),
    ["second"],
  );
  assert.equal(isFresh(ring, s.times), false);
});

test("a day that is taken back rings again", () => {
  const cues = bonnet(cue("target", TEN));
  const first = plan(cues, TEN, NOTHING);
  const { times } = soundNow(first.ring, new Map());
  const back = plan(cues, TEN - 10 * MIN, first.memory);
  assert.deepEqual(back.ring, []);
  const { times: forgotten } = soundNow(back.ring, times);
  const again = plan(cues, TEN, back.memory);
  assert.equal(isFresh(again.ring, forgotten), true);
});

test("a loud cue rings at once however far a played second goes, and not when the record says who had it", () => {
  const before = plan(bonnet(cue("target", TEN)), TEN - 15_000, NOTHING).memory;
  assert.equal(ringsAt(TEN + 14_000, bonnet(cue("target", TEN)), before).length, 1);
  assert.equal(ringsAt(TEN + 14_000, bonnet(cue("target", TEN, "OT")), before).length, 0);
});
