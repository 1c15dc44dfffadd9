import assert from "node:assert/strict";
import { test } from "node:test";
import type { Cue } from "../../core/api";
import { acknowledge, dismiss, isMemory, NOTHING, plan, type Memory, type Watched } from "./plan";

const MIN = 60_000;
const HOUR = 60 * MIN;
const TEN = Date.UTC(2026, 2, 4, 10);

function cue(id: string, at: number, more: Partial<Cue> = {}): Cue {
  return { id, kind: "target", of: "E", at_ms: at, say: id, speak: id, loud: true, heard_by: "", ...more };
}

const flag = (...cues: Cue[]): Watched[] => [{ job: "FLAG", name: "Harbour-office signal flag", cues }];
const ids = (rings: readonly { cue: Cue }[]) => rings.map((r) => r.cue.id);

/** A device that looks once a second. */
function looking(from: number, to: number, watched: Watched[], m: Memory = { ...NOTHING, last: from }) {
  const sounded: string[] = [];
  let rang = 0;
  for (let now = from; now <= to; now += 1000) {
    const p = plan(watched, now, m);
    sounded.push(...ids(p.soft));
    if (p.ring.length > 0) rang++;
    m = p.memory;
  }
  return { sounded, rang, m };
}

test("a loud cue rings from its time on, and until somebody has it", () => {
  const due = flag(cue("target", TEN));
  assert.deepEqual(ids(plan(due, TEN - 1, NOTHING).ring), []);
  assert.deepEqual(ids(plan(due, TEN, NOTHING).ring), ["target"]);
  assert.deepEqual(ids(plan(due, TEN + 40 * MIN, NOTHING).ring), ["target"]);
  assert.deepEqual(ids(plan(flag(cue("target", TEN, { heard_by: "OT" })), TEN + MIN, NOTHING).ring), []);
});

test("a soft cue sounds once, and not again when the page is loaded anew", () => {
  const watched = flag(cue("ahead", TEN, { loud: false }));
  const { sounded, m } = looking(TEN - 30_000, TEN + 30_000, watched);
  assert.deepEqual(sounded, ["ahead"]);
  const kept: unknown = JSON.parse(JSON.stringify(m));
  assert.ok(isMemory(kept));
  const again = plan(watched, TEN + 31_000, kept);
  assert.deepEqual([ids(again.soft), ids(again.missed)], [[], []]);
});

test("what passed while the page slept is told until it is dismissed; what is loud rings", () => {
  const watched = flag(cue("ahead", TEN, { loud: false }), cue("target", TEN + 5 * MIN));
  const woke = plan(watched, TEN + 20 * MIN, { ...NOTHING, last: TEN - MIN });
  assert.deepEqual([ids(woke.ring), ids(woke.soft), ids(woke.missed)], [["target"], [], ["ahead"]]);
  const later = plan(watched, TEN + 21 * MIN, woke.memory);
  assert.deepEqual(ids(later.missed), ["ahead"]);
  const read = plan(watched, TEN + 22 * MIN, dismiss(later.memory));
  assert.deepEqual([ids(read.missed), ids(read.soft), ids(read.ring)], [[], [], ["target"]]);
});

test("a hidden page whose timer came a minute late still sounds, without the words, and tells of it", () => {
  const p = plan(flag(cue("ahead", TEN, { loud: false })), TEN + 50_000, { ...NOTHING, last: TEN - 10 * MIN });
  assert.deepEqual([ids(p.soft), ids(p.missed), p.soft[0]?.late], [["ahead"], ["ahead"], true]);
  assert.deepEqual(ids(plan(flag(cue("ahead", TEN, { loud: false })), TEN + 51_000, p.memory).soft), []);
});

test("a hidden page whose timer came in time has missed nothing", () => {
  const p = plan(flag(cue("ahead", TEN, { loud: false })), TEN + 400, { ...NOTHING, last: TEN - 10 * MIN });
  assert.deepEqual([ids(p.soft), ids(p.missed), p.soft[0]?.late], [["ahead"], [], false]);
});

test("what is older than twelve hours does not ring, but is told", () => {
  const watched = flag(cue("target", TEN));
  assert.deepEqual(ids(plan(watched, TEN + 12 * HOUR, NOTHING).ring), ["target"]);
  const old = plan(watched, TEN + 12 * HOUR + 1, NOTHING);
  assert.deepEqual([ids(old.ring), ids(old.missed)], [[], ["target"]]);
  assert.deepEqual(ids(plan(watched, TEN + 13 * HOUR, dismiss(old.memory)).missed), []);
});

test("a device that sees a treatment for the first time does not tell of its old soft cues", () => {
  const p = plan(flag(cue("ahead", TEN, { loud: false })), TEN + 2 * MIN, NOTHING);
  assert.deepEqual([ids(p.soft), ids(p.missed)], [[], []]);
});

test("an acknowledgement that arrives silences, here and on what was missed", () => {
  const ringing = plan(flag(cue("target", TEN)), TEN + MIN, NOTHING);
  assert.deepEqual(ids(ringing.ring), ["target"]);
  const heard = flag(cue("target", TEN, { heard_by: "OT" }));
  assert.deepEqual(ids(plan(heard, TEN + MIN + 1000, ringing.memory).ring), []);
  const old = plan(flag(cue("target", TEN)), TEN + 20 * HOUR, NOTHING);
  assert.deepEqual(ids(plan(heard, TEN + 20 * HOUR, old.memory).missed), []);
});

test("acknowledged here it is silent before the entry is folded, and rings again if that entry is struck", () => {
  const watched = flag(cue("target", TEN), cue("end", TEN + MIN));
  const p = plan(watched, TEN + 2 * MIN, NOTHING);
  const mine = acknowledge(
    p.memory,
    p.ring.map((r) => r.key),
  );
  const silent = plan(watched, TEN + 3 * MIN, mine);
  assert.deepEqual(ids(silent.ring), []);
  const folded = plan(
    flag(cue("target", TEN, { heard_by: "RV" }), cue("end", TEN + MIN, { heard_by: "RV" })),
    TEN + 4 * MIN,
    silent.memory,
  );
  assert.deepEqual(folded.memory.mine, []);
  assert.deepEqual(ids(plan(watched, TEN + 5 * MIN, folded.memory).ring), ["target", "end"]);
});

test("two devices come to the same, each by itself", () => {
  const watched = flag(cue("ahead", TEN, { loud: false }), cue("target", TEN + MIN));
  const phone = looking(TEN - MIN, TEN + 2 * MIN, watched);
  const desk = looking(TEN - MIN + 313, TEN + 2 * MIN, watched);
  assert.deepEqual(phone.sounded, desk.sounded);
  assert.ok(phone.rang > 50 && desk.rang > 50);
});

test("a clock that is set back or forth: nothing sounds twice, nothing loud is lost", () => {
  const watched = flag(cue("ahead", TEN, { loud: false }), cue("target", TEN + 5 * MIN));
  const first = looking(TEN - 5000, TEN + 5000, watched);
  assert.deepEqual(first.sounded, ["ahead"]);
  const back = plan(watched, TEN + 3000, first.m);
  assert.deepEqual([ids(back.soft), ids(back.missed)], [[], []]);
  const forth = plan(watched, TEN + 3 * HOUR, back.memory);
  assert.deepEqual([ids(forth.ring), ids(forth.missed)], [["target"], []]);
});

test("a cue that a correction put off comes anew", () => {
  const early = plan(flag(cue("return", TEN, { loud: false })), TEN + 100, { ...NOTHING, last: TEN - 900 });
  assert.deepEqual(ids(early.soft), ["return"]);
  const putOff = flag(cue("return", TEN + 10 * MIN, { loud: false }));
  const waits = plan(putOff, TEN + 1100, early.memory);
  assert.equal(waits.next, TEN + 10 * MIN);
  assert.deepEqual(looking(TEN + 9 * MIN, TEN + 11 * MIN, putOff, waits.memory).sounded, ["return"]);
});

test("summer time begins between two looks: an absolute time stays what it is", () => {
  // 29 March 2026, 01:00 UTC: clocks go from 01:00 to 02:00 in Europe/London, where this studio is.
  const change = Date.UTC(2026, 2, 29, 1);
  const watched = flag(cue("ahead", change - 1, { loud: false }), cue("target", change + 4 * MIN));
  for (const zone of ["Europe/London", "America/St_Johns", "Asia/Kathmandu"]) {
    process.env["TZ"] = zone;
    const { sounded, rang } = looking(change - MIN, change + 5 * MIN, watched);
    assert.deepEqual([sounded, rang], [["ahead"], 61], zone);
  }
});

test("the next look is for the next cue of any treatment, loud or soft", () => {
  const watched = [
    ...flag(cue("target", TEN + 9 * MIN), cue("heard", TEN + MIN, { heard_by: "IB" })),
    { job: "BONNET", name: "Child's quilted bonnet", cues: [cue("check", TEN + 3 * MIN, { loud: false })] },
  ];
  assert.equal(plan(watched, TEN, NOTHING).next, TEN + 3 * MIN);
  assert.equal(plan(watched, TEN + 9 * MIN, NOTHING).next, null);
});

test("what is remembered goes with its cue, and stays while the cues are not known yet", () => {
  const p = plan(flag(cue("target", TEN)), TEN + 20 * HOUR, NOTHING);
  const loading: Watched[] = [{ job: "FLAG", name: "", cues: null }];
  const kept = plan(loading, TEN + 20 * HOUR, p.memory);
  assert.equal(kept.memory.missed.length, 1);
  assert.equal(plan(flag(), TEN + 20 * HOUR, kept.memory).memory.missed.length, 0);
  assert.equal(plan([], TEN + 20 * HOUR, kept.memory).memory.missed.length, 0);
});

test("of the same name in two treatments there are two", () => {
  const two: Watched[] = [
    { job: "A", name: "a", cues: [cue("mould::24", TEN)] },
    { job: "B", name: "b", cues: [cue("mould::24", TEN, { heard_by: "RV" })] },
  ];
  assert.deepEqual(
    plan(two, TEN, NOTHING).ring.map((r) => r.job),
    ["A"],
  );
});

test("of a sample that comes to a device, only what is due from then on rings", () => {
  const sample: Watched[] = [
    { job: "S", name: "s", sample: true, cues: [cue("old", TEN - HOUR), cue("new", TEN + MIN)] },
  ];
  const loading: Watched[] = [{ job: "S", name: "s", sample: true, cues: null }];
  const first = plan(sample, TEN, plan(loading, TEN - 1000, NOTHING).memory);
  assert.deepEqual([ids(first.ring), ids(first.missed)], [[], []]);
  assert.deepEqual(ids(plan(sample, TEN + MIN, first.memory).ring), ["new"]);
  const begun: Watched[] = [{ ...sample[0]!, cues: [cue("old", TEN - HOUR), cue("back-dated", TEN - MIN)] }];
  assert.deepEqual(ids(plan(begun, TEN + 1000, first.memory).ring), ["back-dated"]);
});
