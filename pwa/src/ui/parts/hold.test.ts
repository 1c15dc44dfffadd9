import assert from "node:assert/strict";
import { test } from "node:test";
import {
  HOLD,
  holdSays,
  holdSaysBriefly,
  KEY,
  newPress,
  nextTime,
  press,
  type Outcome,
  type Press,
  type Touch,
} from "./hold";

/** Plays touches in order and returns what came of each, leaving out nothing. */
function play(touches: readonly Touch[], p: Press = newPress("hold")): { outs: Outcome[]; p: Press } {
  const outs: Outcome[] = [];
  for (const t of touches) {
    const { next, out } = press(p, t);
    p = next;
    if (out !== null) outs.push(out);
  }
  return { outs, p };
}

const down = (t: number, id = 1, more: Partial<Touch & { do: "down" }> = {}): Touch => ({
  do: "down",
  id,
  x: 50,
  y: 50,
  t,
  inside: true,
  ...more,
});
const up = (t: number, id = 1, x = 50, y = 50): Touch => ({ do: "up", id, x, y, t });
const time = (t: number): Touch => ({ do: "time", t });

const cases: [name: string, touches: Touch[], want: Outcome[]][] = [
  ["held for a second", [down(0), time(500), up(1000)], ["ready", "done"]],
  ["held for exactly the shortest", [down(0), up(HOLD.shortest)], ["done"]],
  ["held for exactly the longest", [down(0), up(HOLD.longest)], ["done"]],
  ["one millisecond too short", [down(0), up(HOLD.shortest - 1)], ["short"]],
  ["one millisecond too long", [down(0), up(HOLD.longest + 1)], ["long"]],
  ["never let go", [down(0), time(500), time(2501), time(9000)], ["ready", "long"]],
  ["let go after it was called too long", [down(0), time(2501), up(3000)], ["long"]],
  ["slid while held", [down(0), { do: "move", id: 1, x: 63, y: 50, t: 300 }, up(1000)], ["moved"]],
  ["trembled while held", [down(0), { do: "move", id: 1, x: 57, y: 57, t: 300 }, up(1000, 1, 57, 57)], ["done"]],
  ["slid at the very end", [down(0), up(1000, 1, 50, 80)], ["moved"]],
  [
    "slid and came back",
    [down(0), { do: "move", id: 1, x: 90, y: 50, t: 300 }, { do: "move", id: 1, x: 50, y: 50, t: 400 }, up(1000)],
    ["moved"],
  ],
  ["a drop beside it", [down(0), down(300, 2, { inside: false }), up(1000)], ["second"]],
  ["a drop on it", [down(0), down(300, 2), up(1000)], ["second"]],
  ["a drop that was there before", [down(0, 2, { inside: false }), down(300), up(1300)], ["second"]],
  [
    "again after the drop has gone",
    [down(0), down(300, 2), up(400, 2), up(1000), down(2000), up(3000)],
    ["second", "done"],
  ],
  ["again while the drop stays", [down(0), down(300, 2), up(1000), down(2000), up(3000)], ["second", "second"]],
  ["the browser takes the touch", [down(0), { do: "cancel", id: 1, t: 700 }], ["taken"]],
  ["pressed elsewhere", [down(0, 1, { inside: false }), up(1000)], []],
  ["one key held and released", [down(0, KEY), up(800, KEY)], ["done"]],
  ["one key held too long", [down(0, KEY), time(2501), up(2600, KEY)], ["long"]],
  ["two short presses of a key", [down(0, KEY), up(80, KEY), down(900, KEY), up(980, KEY)], ["armed", "done"]],
  [
    "the second press of a key too late",
    [down(0, KEY), up(80, KEY), down(9000, KEY), up(9080, KEY)],
    ["armed", "armed"],
  ],
  [
    "a switch pressed twice",
    [
      { do: "activate", t: 0 },
      { do: "activate", t: 2000 },
    ],
    ["armed", "done"],
  ],
  [
    "a switch that bounces",
    [
      { do: "activate", t: 0 },
      { do: "activate", t: 120 },
    ],
    ["armed"],
  ],
  ["a switch pressed once", [{ do: "activate", t: 0 }, time(HOLD.confirm + 1)], ["armed", "lapsed"]],
  ["a tap does not confirm a switch", [{ do: "activate", t: 0 }, down(1000), up(1080)], ["armed", "short"]],
  ["a hold also confirms a switch", [{ do: "activate", t: 0 }, down(1000), up(2000)], ["armed", "done"]],
];

for (const [name, touches, want] of cases) {
  test(`held press: ${name}`, () => assert.deepEqual(play(touches).outs, want));
}

test("held press: two touches act where the person has asked for that, one never does", () => {
  const twice = newPress("twice");
  assert.deepEqual(play([down(0), up(80), down(1000), up(1080)], twice).outs, ["armed", "done"]);
  assert.deepEqual(play([down(0), up(1000)], twice).outs, ["armed"]);
  assert.deepEqual(play([down(0), up(80), down(9000), up(9080)], twice).outs, ["armed", "armed"]);
  assert.deepEqual(play([down(0), up(80, 1, 80, 50), down(1000), up(1080, 1, 20, 50)], twice).outs, ["armed", "done"]);
});

test("held press: it asks to be told the time at its next turn", () => {
  let p = newPress("hold");
  assert.equal(nextTime(p), null);
  p = press(p, down(100)).next;
  assert.equal(nextTime(p), 600);
  p = press(p, time(600)).next;
  assert.equal(nextTime(p), 2601);
  p = press(newPress("hold"), { do: "activate", t: 100 }).next;
  assert.equal(nextTime(p), 100 + HOLD.confirm + 1);
});

/** A stream of numbers from a seed, so that a failure can be played again. */
function random(seed: number): () => number {
  let s = seed >>> 0;
  return () => {
    s = (Math.imul(s, 1664525) + 1013904223) >>> 0;
    return s / 2 ** 32;
  };
}

interface Drop {
  id: number;
  from: number;
  to: number;
  inside: boolean;
  slides: number;
}

function touchesOf(drops: readonly Drop[]): Touch[] {
  const all = drops.flatMap((d): Touch[] => {
    const end = 50 + d.slides;
    const moves: Touch[] = d.slides > 0 ? [{ do: "move", id: d.id, x: end, y: 50, t: (d.from + d.to) / 2 }] : [];
    return [down(d.from, d.id, { inside: d.inside }), ...moves, up(d.to, d.id, end)];
  });
  return all.sort((a, b) => a.t - b.t);
}

/** The rule, said a second time over whole touches: alone, still, inside, released in time. */
function acts(drops: readonly Drop[]): number {
  return drops.filter((d) => {
    const held = d.to - d.from;
    const alone = drops.every((o) => o === d || o.to < d.from || o.from > d.to);
    return d.inside && alone && d.slides <= HOLD.drift && held >= HOLD.shortest && held <= HOLD.longest;
  }).length;
}

test("held press: rain changes nothing", () => {
  for (let seed = 1; seed <= 400; seed++) {
    const r = random(seed);
    const rain: Drop[] = [];
    for (let id = 1; id <= 60; id++) {
      const from = r() * 20000;
      // Splashes are brief, pooled drops press for long, streams run down the glass.
      const kind = r();
      const held = kind < 0.5 ? 5 + r() * 400 : kind < 0.8 ? 2600 + r() * 9000 : 5 + r() * 9000;
      rain.push({ id, from, to: from + held, inside: r() < 0.5, slides: kind < 0.8 ? r() * 40 : 20 + r() * 300 });
    }
    assert.equal(play(touchesOf(rain)).outs.filter((o) => o === "done").length, 0, `seed ${seed}`);
  }
});

test("held press: random touches act exactly when one is alone, still and released in time", () => {
  let acted = 0;
  for (let seed = 1; seed <= 4000; seed++) {
    const r = random(seed);
    const drops: Drop[] = [];
    for (let id = 1; id <= 1 + Math.floor(r() * 5); id++) {
      const from = Math.floor(r() * 12000) + id / 10;
      drops.push({
        id,
        from,
        to: from + Math.floor(r() * 4000),
        inside: r() < 0.8,
        slides: r() < 0.6 ? 0 : Math.floor(r() * 30),
      });
    }
    const want = acts(drops);
    acted += want;
    const { outs } = play(touchesOf(drops));
    assert.equal(outs.filter((o) => o === "done").length, want, `seed ${seed}: ${JSON.stringify(drops)}`);
  }
  assert.ok(acted > 500, `too few presses that count to prove anything: ${acted}`);
});

test("held press: what did nothing says so, at length and briefly", () => {
  for (const out of ["short", "long", "moved", "second", "taken", "lapsed"] as const) {
    assert.match(holdSays(out, "End wash"), /nothing was recorded|Too short/);
    assert.match(holdSaysBriefly(out, "End wash"), /nothing was recorded|Too short/);
    assert.ok(holdSaysBriefly(out, "End wash").length < 40);
  }
});
