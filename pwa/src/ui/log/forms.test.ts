import assert from "node:assert/strict";
import { test } from "node:test";
import type { LogLine } from "../../core/api";
import { bodyTexts, canAmend, standing, textsBody } from "./forms";
import { localInput, localOffset, readLocal } from "./local-time";

const begin = {
  what: "wash",
  liquid: "tap water",
  litres: 12,
  target_s: 480,
  mono: { s: "x", ms: 5 },
  uncleared: true,
};

test("an amendment starts from the old values", () => {
  assert.deepEqual(bodyTexts("begin", begin), { what: "wash", liquid: "tap water", litres: "12", target_s: "8" });
});

test("an amended body carries over what no field shows, but not the counter", () => {
  const texts = { what: "rinse", liquid: "tap water", litres: "12,5", target_s: "8.5" };
  assert.deepEqual(textsBody("begin", begin, texts), {
    what: "rinse",
    liquid: "tap water",
    litres: "12,5",
    target_s: 510,
    uncleared: true,
  });
});

test("what is no number is handed on for the core to judge", () => {
  const texts = { what: "wash", liquid: "x", litres: "many", target_s: "soon" };
  const body = textsBody("begin", begin, texts);
  assert.equal(body["litres"], "many");
  assert.equal(body["target_s"], "soon");
});

test("an empty optional text is left out", () => {
  assert.deepEqual(textsBody("open", { name: "Flag", number: "7" }, { name: "Flag", number: " " }), { name: "Flag" });
});

test("a drying is amended without being asked for a bath's liquid, litres or target", () => {
  const drying = { what: "drying", face: "up", held: "weights", sides: 1 };
  assert.deepEqual(bodyTexts("begin", drying), { what: "drying", target_s: "" });
  assert.deepEqual(textsBody("begin", drying, { what: "drying", target_s: "" }), drying);
  assert.equal(textsBody("begin", drying, { what: "drying", target_s: "90" })["target_s"], 5400);
});

test("a gel without litres stays without, a wash cannot lose its own", () => {
  const gel = { what: "gel", liquid: "agarose", target_s: 600 };
  assert.deepEqual(textsBody("begin", gel, bodyTexts("begin", gel)), gel);
  assert.equal(textsBody("begin", begin, { ...bodyTexts("begin", begin), litres: "" })["litres"], "");
});

test("a strike or a clock cannot be amended", () => {
  assert.deepEqual(["begin", "note", "strike", "clock", "amend", "imported"].map(canAmend), [
    true,
    true,
    false,
    false,
    false,
    false,
  ]);
});

const line: LogLine = {
  entry: "a",
  dev: "",
  n: 1,
  kind: "note",
  say: "first",
  at: { ms: Date.UTC(2026, 2, 4, 9, 2, 11), at: "2026-03-04T10:02:11+01:00", corrected: false, recorded_ms: 0 },
  by: "RV",
  struck: null,
  amended: [],
  was: "",
  doubt: "",
  late: false,
  body: { text: "first" },
};
const amend = (entry: string, stands: boolean, struck = false) => ({
  entry,
  say: entry,
  why: "",
  by: "OT",
  ms: 0,
  struck,
  stands,
  at: "",
  body: { text: entry },
});

test("the version to amend is the one that stands; of two, both are offered", () => {
  assert.deepEqual(
    standing(line).map((v) => v.entry),
    ["a"],
  );
  const amended = { ...line, amended: [amend("b", false), amend("c", true), amend("d", true), amend("e", true, true)] };
  assert.deepEqual(
    standing(amended).map((v) => v.entry),
    ["c", "d"],
  );
});

test("a time goes into a form and back to the same instant, also from a clock that was off", () => {
  for (const offMs of [0, 7_200_000]) {
    const off = { ...line, at: { ...line.at, ms: line.at.ms + offMs, corrected: offMs !== 0 } };
    const input = localInput(off.at.at, localOffset(off));
    const back = readLocal(input, localOffset(off));
    assert.equal(Date.parse(back ?? ""), Date.parse(off.at.at));
  }
  assert.equal(readLocal("", 0), null);
});

test("of a reckoning only what it is for is amended; its figures stay as they were reckoned", () => {
  const body = { name: "tray", inputs: { length: "90" }, values: [{ name: "litres", value: 54 }], text: "plan" };
  assert.deepEqual(bodyTexts("reckoned", body), { text: "plan" });
  assert.deepEqual(textsBody("reckoned", body, { text: " " }), {
    name: "tray",
    inputs: { length: "90" },
    values: [{ name: "litres", value: 54 }],
  });
});
