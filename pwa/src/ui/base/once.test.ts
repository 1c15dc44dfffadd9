import assert from "node:assert/strict";
import { test } from "node:test";
import { OneAtATime } from "./once";

test("a double tap acts once, and the next tap acts again", async () => {
  const one = new OneAtATime();
  let acts = 0;
  let answer = () => {};
  const act = () => {
    acts++;
    return new Promise<void>((resolve) => (answer = resolve));
  };
  const first = one.run(act);
  await one.run(act);
  assert.equal(acts, 1, "the second tap acted while the first was on its way");
  answer();
  await first;
  const next = one.run(act);
  assert.equal(acts, 2);
  answer();
  await next;
});

test("an act that fails does not bar the next", async () => {
  const one = new OneAtATime();
  await assert.rejects(one.run(() => Promise.reject(new Error("refused"))));
  let acts = 0;
  await one.run(() => Promise.resolve(void acts++));
  assert.equal(acts, 1);
});
