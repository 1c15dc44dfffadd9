import assert from "node:assert/strict";
import { test } from "node:test";
import { stillIn } from "./kin";
import type { Device } from "./machine";

const device = (id: string, succeeds = "", revoked_ms = 0): Device => ({
  id,
  label: "Osk's phone",
  created_ms: 1,
  seen_ms: 1,
  revoked_ms,
  succeeds,
  this: false,
});

test("the other ids of a lost phone are found, in either direction, and no one else's", () => {
  const all = [device("a"), device("b", "a"), device("c", "b"), device("other"), device("d", "a", 5)];
  const ids = (id: string) => stillIn(all.find((d) => d.id === id) ?? device(id), all).map((d) => d.id);
  assert.deepEqual(ids("a"), ["b", "c"]);
  assert.deepEqual(ids("c"), ["a", "b"]);
  assert.deepEqual(ids("d"), ["a", "b", "c"]);
  assert.deepEqual(ids("other"), []);
});

test("ids that succeed each other in a ring end", () => {
  const all = [device("a", "b"), device("b", "a")];
  assert.doesNotThrow(() => stillIn(device("a", "b"), all));
});
