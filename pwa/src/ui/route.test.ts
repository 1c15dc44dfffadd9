import assert from "node:assert/strict";
import { test } from "node:test";
import { parseRoute, type Route } from "./route";

const routes: [string, Route][] = [
  ["", { at: "now" }],
  ["#", { at: "now" }],
  ["#/", { at: "now" }],
  ["#/all", { at: "all" }],
  ["#/new", { at: "new" }],
  ["#/t/01J8FLAG", { at: "sink", job: "01J8FLAG" }],
  ["#/t/01J8FLAG/log", { at: "log", job: "01J8FLAG" }],
  ["#/t/01J8FLAG/about", { at: "about", job: "01J8FLAG" }],
  ["#/t/01J8FLAG/hand", { at: "hand", job: "01J8FLAG" }],
  ["#/t/01J8FLAG/day/2026-03-04", { at: "day", day: "2026-03-04", job: "01J8FLAG" }],
  ["#/t/01J8FLAG/day", { at: "nowhere" }],
  ["#/day/2026-03-04", { at: "day", day: "2026-03-04", job: "" }],
  ["#/day/2026-02-30", { at: "nowhere" }],
  ["#/day/yesterday", { at: "nowhere" }],
  ["#/t/01J8FLAG/ready", { at: "ready", job: "01J8FLAG", part: "" }],
  ["#/t/01J8FLAG/ready/dwell", { at: "ready", job: "01J8FLAG", part: "dwell" }],
  ["#/shelf", { at: "shelf", part: "" }],
  ["#/shelf/waters", { at: "shelf", part: "waters" }],
  ["#/shelf/batch", { at: "batch" }],
  ["#/t/01J8FLAG/other", { at: "nowhere" }],
  ["#/t", { at: "nowhere" }],
  ["#/reckon", { at: "reckonings", job: "" }],
  ["#/reckon/tray", { at: "reckon", name: "tray", job: "" }],
  ["#/t/01J8FLAG/reckon", { at: "reckonings", job: "01J8FLAG" }],
  ["#/t/01J8FLAG/reckon/tray", { at: "reckon", name: "tray", job: "01J8FLAG" }],
  ["#/t/01J8FLAG/reckoned/abc", { at: "reckoned", job: "01J8FLAG", entry: "abc" }],
  ["#/t/01J8FLAG/reckoned", { at: "nowhere" }],
  ["#/studio", { at: "studio" }],
  ["#/studio/x", { at: "nowhere" }],
  ["#/pair", { at: "pair", code: "" }],
  ["#/pair/K7QD-2M9F", { at: "pair", code: "K7QD-2M9F" }],
  ["#/pair/%ZZ", { at: "pair", code: "%ZZ" }],
  ["#/phone", { at: "phone" }],
  ["#/elsewhere", { at: "nowhere" }],
];

for (const [hash, want] of routes) {
  test(`route: “${hash}”`, () => assert.deepEqual(parseRoute(hash), want));
}
