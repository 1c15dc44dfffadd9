import assert from "node:assert/strict";
import { test } from "node:test";
import { initialsFault, tidyInitials } from "./initials";

test("initials are tidied and never cut", () => {
  assert.equal(tidyInitials(" r.v. "), "RV");
  assert.equal(tidyInitials("Osk Tarrin of Marram"), "OskTarrinofMarram");
});

const faults: [typed: string, wants: RegExp][] = [
  ["", /^Type the initials/],
  ["RV", /^$/],
  ["twelve12char", /^$/],
  ["OskTarrinMarram", /^Initials are at most 12 characters; this has 15\.$/],
  // A character that takes two units of a string is one to whoever typed it.
  ["🧵".repeat(12), /^$/],
  ["🧵".repeat(13), /this has 13/],
];

for (const [typed, wants] of faults) {
  test(`initials "${typed}" are ${wants.source === "^$" ? "taken" : "told what is wrong"}`, () =>
    assert.match(initialsFault(typed), wants));
}
