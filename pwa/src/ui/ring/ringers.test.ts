import assert from "node:assert/strict";
import { test } from "node:test";
import { FIGURES, gravest, AGAIN_MS } from "./figures";
import { ringersSay, ringersSayBriefly } from "./ringers";

test("who rings is said as it is", () => {
  const says = (armed: number, link: "on" | "off", own: boolean) => ringersSay({ armed, link }, own);
  assert.equal(says(0, "on", false), "No device rings: make the sound check");
  assert.equal(says(0, "off", false), "No device rings: make the sound check");
  assert.equal(says(1, "on", true), "Only this device rings");
  assert.equal(says(0, "on", true), "Only this device rings");
  assert.equal(says(3, "on", true), "3 devices ring");
  assert.equal(says(1, "on", false), "1 other device rings, this one does not");
  assert.equal(says(2, "on", false), "2 other devices ring, this one does not");
  assert.equal(says(1, "off", true), "This device rings; no word of others");
});

test("at the sink it is said in fewer words", () => {
  const says = (armed: number, link: "on" | "off", own: boolean) => ringersSayBriefly({ armed, link }, own);
  assert.equal(says(0, "off", false), "No device rings");
  assert.equal(says(1, "on", true), "only this device rings");
  assert.equal(says(3, "on", true), "3 devices ring");
  assert.equal(says(1, "on", false), "1 device rings, not this one");
  assert.equal(says(1, "off", true), "this device rings");
});

test("a figure is over before it comes again, and its notes can be heard on small loudspeakers", () => {
  for (const [name, notes] of Object.entries(FIGURES)) {
    const s = Math.max(...notes.map((n) => n.at + n.long));
    assert.ok(s * 1000 < AGAIN_MS - 500, name);
    for (const n of notes) assert.ok(n.hz >= 500 && n.hz <= 1500, name);
  }
});

test("of several cues the gravest sounds", () => {
  const cue = (kind: string, loud: boolean) => ({
    id: "",
    kind,
    of: "",
    at_ms: 0,
    say: "",
    speak: "",
    loud,
    heard_by: "",
  });
  assert.equal(gravest([cue("ahead", false)]), "soft");
  assert.equal(gravest([cue("ahead", false), cue("target", true)]), "target");
  assert.equal(gravest([cue("target", true), cue("end", true)]), "limit");
});
