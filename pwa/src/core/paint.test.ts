import assert from "node:assert/strict";
import { test } from "node:test";
import { FakeTime } from "../testing/kit";
import { Paint, type Keeper } from "./paint";
import { unknownStatus } from "./standing";

class FakeKeeper implements Keeper {
  readonly kept = new Map<string, string>();
  full = false;

  get length() {
    return this.kept.size;
  }

  getItem(key: string) {
    return this.kept.get(key) ?? null;
  }

  setItem(key: string, value: string) {
    if (this.full) throw new DOMException("full", "QuotaExceededError");
    this.kept.set(key, value);
  }

  removeItem(key: string) {
    this.kept.delete(key);
  }

  key(i: number) {
    return [...this.kept.keys()][i] ?? null;
  }
}

const shown = (state: string) => ({ state, watch: '{"cues":[]}' });

test("what was shown is kept once it is quiet, and only the same core shows it", async () => {
  const keeper = new FakeKeeper();
  const time = new FakeTime();
  const paint = new Paint(keeper, "build 1", time.after);
  paint.keepShown("flag", shown('{"notes":1}'));
  await time.pass(1000);
  paint.keepShown("flag", shown('{"notes":2}'));
  await time.pass(1000);
  assert.equal(paint.shown("flag"), null);
  await time.pass(1000);
  assert.deepEqual(paint.shown("flag"), shown('{"notes":2}'));
  assert.equal(new Paint(keeper, "build 2", time.after).shown("flag"), null);
});

test("the overview is kept at once when the person looks away", () => {
  const keeper = new FakeKeeper();
  const time = new FakeTime();
  const paint = new Paint(keeper, "b", time.after);
  paint.keepOverview({ status: { ...unknownStatus, label: "Runa's phone" }, treatments: [] });
  paint.flush();
  assert.equal(new Paint(keeper, "b", time.after).overview()?.status.label, "Runa's phone");
});

test("few treatments are kept, never a huge one, and a full browser is no fault", () => {
  const keeper = new FakeKeeper();
  const time = new FakeTime();
  const paint = new Paint(keeper, "b", time.after);
  for (let i = 0; i < 20; i++) {
    paint.keepShown(`job ${i}`, shown("{}"));
    paint.flush();
  }
  assert.ok(keeper.length <= 8);
  assert.deepEqual(paint.shown("job 19"), shown("{}"));
  paint.keepShown("job 19", shown("x".repeat(1_000_001)));
  paint.flush();
  assert.equal(paint.shown("job 19"), null);
  keeper.full = true;
  paint.keepShown("job 20", shown("{}"));
  paint.flush();
  assert.equal(paint.shown("job 20"), null);
  const none = new Paint(undefined, "b", time.after);
  none.keepShown("job", shown("{}"));
  none.flush();
  assert.equal(none.shown("job"), null);
});
