import assert from "node:assert/strict";
import { test } from "node:test";
import type { Cue, State, Step, Summary, Watch } from "../core/api";
import { cardsOf, dueOfStep, type Open } from "./board";
import { dueSays } from "./due-says";

const MIN = 60_000;

function step(entry: string, begunMin: number, targetMin: number): Step {
  return { entry, what: "rinse", begun: { ms: begunMin * MIN }, target_s: targetMin * 60, ended: null } as Step;
}

function cue(kind: string, of: string, atMin: number, heard_by = ""): Cue {
  return {
    id: `${kind}:${of}`,
    kind,
    of,
    at_ms: atMin * MIN,
    say: `${kind} of ${of}`,
    speak: "",
    loud: true,
    heard_by,
  };
}

function open(name: string, running: Step[], cues: Cue[], more: { drying?: number; wet?: boolean } = {}): Open {
  const drying = more.drying === undefined ? null : { of: running[0]?.entry, next_ms: more.drying * MIN };
  return {
    summary: { job: name, name, last_day: 0 } as Summary,
    state: { wet_since_ms: more.wet ? 0 : null } as State,
    watch: { cues, drying } as Watch,
    running,
  };
}

const names = (cards: ReturnType<typeof cardsOf>) =>
  cards.map((c) => `${c.of.summary.name} ${c.step?.entry ?? "rests"}`);

test("two trays and a drying board stand by what is due first, and what rests comes last", () => {
  const all = [
    open("a", [], []),
    open("b", [], [], { wet: true }),
    open("flag", [step("r1", 0, 30)], []),
    open("bonnet", [step("w1", 5, 8)], [cue("reading", "w1", 11)]),
    open("band", [step("d1", 0, 0)], [], { drying: 20 }),
  ];
  assert.deepEqual(names(cardsOf(all)), ["bonnet w1", "band d1", "flag r1", "b rests", "a rests"]);
});

test("a target that has gone by stays first, whether somebody heard it or not", () => {
  const of = open("a", [step("r", 0, 5)], [cue("target", "r", 5, "RV")]);
  assert.equal(dueOfStep(of.watch, step("r", 0, 5))?.at_ms, 5 * MIN);
});

test("what was acknowledged is not due, nor is a notice that a target comes near", () => {
  const s = step("r", 0, 0);
  const w = open("a", [s], [cue("ahead", "r", 3), cue("reading", "r", 4, "OT"), cue("reading", "r", 14)]).watch;
  assert.equal(dueOfStep(w, s)?.at_ms, 14 * MIN);
  assert.equal(dueOfStep(null, s), null);
});

test("what concerns the whole textile stands on its first card, or on the one that rests", () => {
  const mould = cue("mould", "gone", 20);
  const two = cardsOf([open("a", [step("x", 0, 60), step("y", 0, 30)], [mould])]);
  assert.deepEqual(
    two.map((c) => c.due?.at_ms),
    [20 * MIN, 60 * MIN],
  );
  assert.equal(cardsOf([open("b", [], [mould], { wet: true })])[0]?.due?.say, "mould of gone");
});

test("what is due says when and in how long, and what is past says since when", () => {
  const at = new Date(2026, 2, 4, 10, 12).getTime();
  assert.equal(
    dueSays({ at_ms: at, say: "Rinse 3: pH is due" }, at - 2 * MIN),
    "Rinse 3: pH is due at 10:12, in 2 min",
  );
  assert.equal(
    dueSays({ at_ms: at, say: "its target", over: "past its target" }, at + 5 * MIN),
    "past its target since 10:12, 5 min",
  );
  assert.equal(dueSays({ at_ms: at, say: "Look" }, at - 20_000), "Look at 10:12, in under 1 min");
  assert.equal(dueSays({ at_ms: at + 48 * 60 * MIN, say: "Look" }, at), "Look, 6 March 10:12, in 2 days");
});
