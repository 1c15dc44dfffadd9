import assert from "node:assert/strict";
import { test } from "node:test";
import { Unfinished, type Box } from "./unfinished";

const isText = (v: unknown): v is string => typeof v === "string";

function memory(): Box & { held: Map<string, string> } {
  const held = new Map<string, string>();
  return {
    held,
    getItem: (k) => held.get(k) ?? null,
    setItem: (k, v) => void held.set(k, v),
    removeItem: (k) => void held.delete(k),
  };
}

test("what was left unfinished is there again, and only where it was", () => {
  const box = memory();
  new Unfinished(box, "fact.A.fibre", isText).keep("wool bunting");
  assert.equal(new Unfinished(box, "fact.A.fibre", isText).read(), "wool bunting");
  assert.equal(new Unfinished(box, "fact.B.fibre", isText).read(), undefined);
});

test("an empty text counts: a person rubbed it out", () => {
  const box = memory();
  new Unfinished(box, "why", isText).keep("");
  assert.equal(new Unfinished(box, "why", isText).read(), "");
});

test("what was let go of does not come back", () => {
  const box = memory();
  const u = new Unfinished(box, "why", isText);
  u.keep("misread");
  u.forget();
  assert.equal(u.read(), undefined);
  assert.equal(box.held.size, 0);
});

test("what another version kept, or nobody can read, is nothing", () => {
  const box = memory();
  new Unfinished(box, "why", (v): v is number => typeof v === "number").keep(7);
  assert.equal(new Unfinished(box, "why", isText).read(), undefined);
  for (const k of box.held.keys()) box.setItem(k, "{");
  assert.equal(new Unfinished(box, "why", isText).read(), undefined);
});

test("a full or forbidden storage loses nothing that is on the screen", () => {
  const refuses: Box = {
    getItem: () => null,
    setItem: () => {
      throw new DOMException("full", "QuotaExceededError");
    },
    removeItem: () => {
      throw new DOMException("no", "SecurityError");
    },
  };
  for (const box of [refuses, undefined]) {
    const u = new Unfinished(box, "why", isText);
    u.keep("misread");
    u.forget();
    assert.equal(u.read(), undefined);
  }
});
