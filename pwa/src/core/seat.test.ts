import assert from "node:assert/strict";
import { test } from "node:test";
import { FakeTime, settle } from "../testing/kit";
import { FakeLocks } from "../testing/locks";
import { BEAT_MS, noLocks, Seat, SILENT_MS, type Locks, type SeatHost } from "./seat";

/** Tabs of one browser. */
class Browser {
  epoch = 0;
  readonly tabs = new Map<string, { seat: Seat; time: FakeTime; history: string[] }>();

  constructor(private readonly locks: () => Locks) {}

  open(id: string): { seat: Seat; time: FakeTime; history: string[] } {
    const time = new FakeTime();
    const history: string[] = [];
    const host: SeatHost = {
      id,
      locks: this.locks(),
      now: time.now,
      every: time.every,
      random: () => 0.5,
      raiseEpoch: async () => ++this.epoch,
      beat: (b) => {
        for (const [other, tab] of this.tabs) if (other !== id) tab.seat.hear(b);
      },
      lead: (epoch) => history.push(`lead ${epoch}`),
      follow: () => history.push("follow"),
      failed: (e) => history.push(`failed ${String(e)}`),
    };
    const tab = { seat: new Seat(host), time, history };
    this.tabs.set(id, tab);
    tab.seat.start();
    return tab;
  }

  async pass(ms: number, ...awake: string[]): Promise<void> {
    for (let left = ms; left > 0; left -= BEAT_MS) {
      for (const [id, tab] of this.tabs) {
        if (awake.includes(id)) await tab.time.pass(Math.min(left, BEAT_MS));
        else tab.time.sleep(Math.min(left, BEAT_MS));
      }
    }
  }
}

const withLocks = () => {
  const locks = new FakeLocks();
  return new Browser(() => locks);
};

test("the first tab leads; the next follows and takes over when the first closes", async () => {
  const b = withLocks();
  const one = b.open("one");
  const two = b.open("two");
  await settle();
  await b.pass(60_000, "one", "two");
  assert.deepEqual([one.history, two.history], [["lead 1"], []]);
  one.seat.stop();
  await settle();
  assert.deepEqual(two.history, ["lead 2"]);
});

test("a frozen leader is robbed and steps down when it thaws", async () => {
  const b = withLocks();
  const one = b.open("one");
  const two = b.open("two");
  await settle();
  await b.pass(3000, "one", "two");
  await b.pass(SILENT_MS - BEAT_MS, "two");
  assert.deepEqual(two.history, [], "it waits as long as a leader may be silent");
  await b.pass(3 * BEAT_MS, "two");
  assert.deepEqual(two.history, ["lead 2"]);
  await b.pass(5000, "one", "two");
  assert.deepEqual(one.history, ["lead 1", "follow"]);
  assert.equal(one.seat.leads, false);
  two.seat.stop();
  await settle();
  assert.deepEqual(one.history, ["lead 1", "follow", "lead 3"]);
});

test("a follower that slept robs nobody", async () => {
  const b = withLocks();
  const one = b.open("one");
  const two = b.open("two");
  await settle();
  await b.pass(60_000, "one");
  await b.pass(60_000, "one", "two");
  assert.deepEqual([one.history, two.history], [["lead 1"], []]);
});

test("of two followers that lose patience at once one leads in the end", async () => {
  const b = withLocks();
  b.open("one");
  const two = b.open("two");
  const three = b.open("three");
  await settle();
  await b.pass(30_000, "two", "three");
  assert.equal(Number(two.seat.leads) + Number(three.seat.leads), 1);
  const before = [two.history.length, three.history.length];
  await b.pass(60_000, "two", "three");
  assert.deepEqual([two.history.length, three.history.length], before, "they go on robbing each other");
});

test("a leader whose write was refused steps down at once", async () => {
  const b = withLocks();
  const one = b.open("one");
  await settle();
  one.seat.deposed();
  assert.deepEqual(one.history.slice(0, 2), ["lead 1", "follow"]);
});

test("a failing database is told, and nobody leads", async () => {
  const b = withLocks();
  const history: string[] = [];
  const time = new FakeTime();
  const locks = new FakeLocks();
  const seat = new Seat({
    id: "one",
    locks,
    now: time.now,
    every: time.every,
    random: () => 0,
    raiseEpoch: () => Promise.reject(new Error("no database")),
    beat: () => undefined,
    lead: () => history.push("lead"),
    follow: () => history.push("follow"),
    failed: (e) => history.push(String(e)),
  });
  seat.start();
  await settle();
  assert.deepEqual(history, ["Error: no database"]);
  assert.equal(b.epoch, 0);
});

test("without Web Locks the last to open leads, and the one before steps down", async () => {
  const b = new Browser(noLocks);
  const one = b.open("one");
  await settle();
  const two = b.open("two");
  await settle();
  await b.pass(10_000, "one", "two");
  assert.deepEqual([one.history, two.history], [["lead 1", "follow"], ["lead 2"]]);
  b.tabs.delete("two");
  await b.pass(10_000, "one");
  assert.deepEqual(one.history, ["lead 1", "follow", "lead 3"]);
});
