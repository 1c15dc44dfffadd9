import assert from "node:assert/strict";
import { test } from "node:test";
import { FakeTime, settle, until } from "../testing/kit";
import { isPacked, pack, squeezer, unpack } from "./frames";
import { DEADLINE_MS, Line, type Socket } from "./line";

class FakeSocket implements Socket {
  binaryType: BinaryType = "blob";
  bufferedAmount = 0;
  onopen: Socket["onopen"] = null;
  onmessage: Socket["onmessage"] = null;
  onclose: Socket["onclose"] = null;
  sent: Uint8Array[] = [];
  closed = false;

  send(data: Uint8Array) {
    this.sent.push(data.slice());
  }

  close() {
    this.closed = true;
  }

  open() {
    this.onopen?.(new Event("open"));
  }

  get(b: Uint8Array) {
    this.onmessage?.(new MessageEvent("message", { data: b.slice().buffer }));
  }

  breakOff() {
    this.onclose?.(new Event("close") as CloseEvent);
  }
}

function setUp({ packs = true } = {}) {
  const squeeze = packs ? squeezer() : undefined;
  const time = new FakeTime();
  const sockets: FakeSocket[] = [];
  const events: string[] = [];
  const frames: Uint8Array[] = [];
  const line = new Line({
    connect: () => {
      const s = new FakeSocket();
      sockets.push(s);
      return s;
    },
    squeezer: squeeze,
    now: time.now,
    after: time.after,
    random: () => 1,
    opened: () => events.push("opened"),
    frame: (b) => frames.push(b.slice()),
    closed: (reached) => events.push(reached ? "closed" : "not reached"),
  });
  return { time, sockets, events, frames, line, last: () => sockets[sockets.length - 1]! };
}

const long = (first: number) => Uint8Array.of(first, ...new Uint8Array(2000).fill(65));

test("frames keep their order although some are packed", async () => {
  const { line, last } = setUp();
  line.start();
  last().open();
  line.send(long(5), true);
  line.send(Uint8Array.of(3, 0), false);
  line.send(long(4), true);
  await until("three messages", () => last().sent.length === 3);
  const plain = await Promise.all(last().sent.map((m) => (isPacked(m) ? unpack(m, squeezer()!) : m)));
  assert.deepEqual(
    plain.map((p) => p[0]),
    [5, 3, 4],
  );
  assert.ok(last().sent[0]!.length < 100);
});

test("a short frame is sent and given on at once", () => {
  const { line, last, frames } = setUp();
  line.start();
  last().open();
  line.send(Uint8Array.of(1, 2), false);
  last().get(Uint8Array.of(2, 9));
  assert.deepEqual([last().sent.length, frames.length], [1, 1]);
});

test("messages are given on in their order although some are packed", async () => {
  const { line, last, frames } = setUp();
  line.start();
  last().open();
  last().get(await pack(long(4), squeezer()!));
  last().get(Uint8Array.of(7));
  await until("two frames", () => frames.length === 2);
  assert.deepEqual(
    frames.map((f) => f[0]),
    [4, 7],
  );
});

test("where the browser cannot pack, frames go plain and packed ones end the connection", () => {
  const { line, last, events } = setUp({ packs: false });
  line.start();
  last().open();
  line.send(long(5), true);
  assert.equal(last().sent[0]!.length, 2001);
  last().get(Uint8Array.of(0x84, 1));
  assert.deepEqual(events, ["opened", "closed"]);
});

test("broken frames end the connection, and the pauses grow to half a minute", async () => {
  const { line, last, sockets, time, events } = setUp();
  line.start();
  last().open();
  last().get(Uint8Array.of(0x84, 0xff, 0xff));
  await until("the connection to end", () => events.includes("closed"));
  const pauses: number[] = [];
  for (let i = 0; i < 9; i++) {
    const count = sockets.length;
    const began = time.now();
    while (sockets.length === count) await time.pass(100);
    pauses.push(time.now() - began);
    last().breakOff();
  }
  assert.deepEqual(pauses.slice(0, 4), [400, 800, 1600, 3200]);
  assert.equal(pauses[8], 30_000);
  line.nudge();
  assert.equal(sockets.length, 11, "a nudge does not wait");
});

test("only after a session that lasted are the pauses short again", async () => {
  const { line, last, sockets, time } = setUp();
  const pause = async () => {
    const count = sockets.length;
    const began = time.now();
    while (sockets.length === count) await time.pass(100);
    return time.now() - began;
  };
  line.start();
  const pauses: number[] = [];
  for (const lasted of [1000, 1000, 10_000, 1000]) {
    last().open();
    line.well();
    await time.pass(lasted);
    last().breakOff();
    pauses.push(await pause());
  }
  assert.deepEqual(pauses, [400, 800, 400, 800]);
});

test("a connection that does not open, or does not answer, is given up", async () => {
  const { line, last, sockets, time, events } = setUp();
  line.start();
  await time.pass(DEADLINE_MS + 400);
  assert.deepEqual([events, sockets[0]!.closed, sockets.length], [["not reached"], true, 2]);
  last().open();
  line.send(Uint8Array.of(1), false);
  await time.pass(DEADLINE_MS - 1);
  last().get(Uint8Array.of(2));
  await time.pass(10 * DEADLINE_MS);
  assert.equal(events.length, 2, "a quiet line is no dead one");
  line.send(Uint8Array.of(5), false);
  await time.pass(DEADLINE_MS);
  assert.deepEqual(events.slice(1), ["opened", "closed"]);
});

test("a slow line that still takes bytes is left alone", async () => {
  const { line, last, time, events } = setUp();
  line.start();
  last().open();
  last().bufferedAmount = 3;
  line.send(long(5), false);
  for (const left of [2, 1]) {
    last().bufferedAmount = left;
    await time.pass(DEADLINE_MS);
  }
  assert.deepEqual(events, ["opened"]);
  await time.pass(DEADLINE_MS);
  assert.deepEqual(events, ["opened", "closed"]);
});

test("nothing of an old connection reaches the next", async () => {
  const { line, sockets, frames, time } = setUp();
  line.start();
  sockets[0]!.open();
  line.send(long(5), true);
  sockets[0]!.breakOff();
  await time.pass(400);
  sockets[1]!.open();
  sockets[0]!.get(Uint8Array.of(9));
  await settle();
  assert.deepEqual([sockets[1]!.sent.length, frames.length], [0, 0]);
  line.stop();
  await time.pass(100_000);
  assert.equal(sockets.length, 2);
});

test("a slow line that takes photographs bit by bit is no dead one", async () => {
  const { line, last, time, sockets } = setUp();
  line.start();
  last().open();
  last().bufferedAmount = 1000;
  line.send(new Uint8Array(1000), false);
  // More is given than leaves.
  for (let i = 1; i <= 5; i++) {
    line.send(new Uint8Array(1000), false);
    last().bufferedAmount += 900;
    await time.pass(DEADLINE_MS);
  }
  assert.equal(sockets.length, 1);
  assert.equal(last().closed, false);
  await time.pass(2 * DEADLINE_MS);
  assert.equal(sockets[0]?.closed, true);
});

test("whoever sends much waits until most of it has left, or the connection is gone", async () => {
  const { line, last, time } = setUp();
  await line.drained();
  line.start();
  last().open();
  let left = 0;
  const wait = () => void line.drained().then(() => left++);
  last().bufferedAmount = 300_000;
  wait();
  await time.pass(500);
  assert.equal(left, 0);
  last().bufferedAmount = 1000;
  await time.pass(100);
  assert.equal(left, 1);
  last().bufferedAmount = 300_000;
  wait();
  last().breakOff();
  await time.pass(100);
  assert.equal(left, 2);
});
