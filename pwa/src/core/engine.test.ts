import assert from "node:assert/strict";
import { test } from "node:test";
import {
  brokenChains,
  compileCore,
  DEV,
  draft,
  FakeTime,
  JOB,
  NOON,
  pairedDb,
  read,
  settle,
  until,
} from "../testing/kit";
import { ARMED, CHUNK, HELLO, holds, OFFER, PUSH, SUBSCRIBE, UNSUBSCRIBE, StudioSocket } from "../testing/studio";
import { createHash } from "node:crypto";
import { picture } from "../testing/picture";
import { saveDraft } from "../journal/drafts";
import { getMeta, raiseEpoch } from "../journal/meta";
import type { DB } from "../journal/schema";
import { Engine, MAX_OPENED } from "./engine";
import type { News } from "./messages";

/** What the studio machine answers to plain requests, by path. */
const answers = new Map<string, { status: number; body: object }>();
Object.assign(globalThis, {
  fetch: async (path: string) => {
    const a = answers.get(path);
    if (!a) throw new Error("offline");
    return new Response(JSON.stringify(a.body), { status: a.status });
  },
});
const me = (device: string) =>
  answers.set("/api/me", { status: 200, body: { device, name: "Runa's phone", studio: "Marram House" } });

async function start(db: DB) {
  const time = new FakeTime();
  const sockets: StudioSocket[] = [];
  const news: Partial<News> = {};
  const engine = new Engine({
    db,
    epoch: await raiseEpoch(db),
    build: "build",
    compile: compileCore,
    connect: () => {
      const s = new StudioSocket();
      sockets.push(s);
      return s;
    },
    now: time.now,
    after: time.after,
    random: () => 0,
    tell: (n) => Object.assign(news, n),
    deposed: () => undefined,
  });
  await engine.start();
  await until("the core", () => engine.standing.status.core === "ready");
  /** The connection that the phone wants now, opened; not the one of before. */
  const socket = async (before?: StudioSocket) => {
    let s: StudioSocket | undefined;
    await until("a connection", async () => {
      await time.pass(100);
      s = sockets.filter((one) => !one.closed && one !== before).pop();
      return s !== undefined;
    });
    if (!s) throw new Error("no connection");
    s.open();
    const opened = s;
    await until("hello", () => opened.got.some((f) => f[0] === HELLO));
    return opened;
  };
  const tap = async (id: string, part = {}) => {
    await saveDraft(db, draft(id, part));
    return engine.stamp(id);
  };
  const status = () => engine.standing.status;
  return { engine, time, news, socket, tap, status };
}

const pushes = (s: StudioSocket) => s.got.filter((f) => f[0] === PUSH);

test("an entry is pushed at once and counted as unsent until its receipt comes", async () => {
  me(DEV);
  const db = await pairedDb();
  const { socket, tap, status } = await start(db);
  const s = await socket();
  s.welcome(NOON);
  await until("the link", () => status().link === "on");
  await tap("note");
  await until("the push", () => pushes(s).length === 1);
  await until("the count", () => status().unsent === 1);
  const head = (await db.getAll("heads"))[0]!;
  s.acknowledge(pushes(s)[0]!, head);
  await until("the receipt", () => status().unsent === 0);
  assert.equal((await db.get("receipts", [JOB, DEV]))?.n, 1);
});

test("what was written offline goes right behind the hello", async () => {
  const db = await pairedDb();
  answers.clear();
  const { socket, tap, status } = await start(db);
  await tap("one");
  await tap("two");
  await until("the count", () => status().unsent === 2);
  const s = await socket();
  await until("the push", () => pushes(s).length === 1);
  assert.equal(status().link, "connecting");
});

test("a clock that is wrong is recorded in the chains of open treatments", async () => {
  me(DEV);
  const db = await pairedDb();
  const { socket, tap, status, time } = await start(db);
  await tap("before");
  await time.pass(100);
  const s = await socket();
  s.welcome(time.now() + 90_000);
  await until("the clock entry", async () => (await db.count("entries")) === 2);
  assert.equal(status().offset_ms, 90_000);
  await tap("after");
  const lines = (await db.getAll("entries")).map(read);
  assert.deepEqual(
    lines.map((l) => l.kind),
    ["note", "clock", "note"],
  );
  assert.deepEqual(lines[1]?.body, { offset_ms: 90_000 });
  assert.deepEqual(await brokenChains(db), []);
});

test("a fork is healed: the phone goes on under another id and issues its entries again", async () => {
  const NEXT = "01JFFFFFFFFFFFFFFFFFFFFFFF";
  me(DEV);
  const db = await pairedDb();
  const { socket, tap, status, time } = await start(db);
  const s = await socket();
  s.welcome(NOON);
  await until("the link", () => status().link === "on");
  await tap("mine");
  await until("the push", () => pushes(s).length === 1);
  // The claim cannot be sent now: it waits, noted.
  s.refuse(pushes(s)[0]!, { job: JOB, dev: DEV, n: 1 });
  await until("the fork to be noted", async () => (await getMeta(db, "succession")) !== null);
  await settle();
  assert.equal(await getMeta(db, "dev"), DEV);
  await tap("meanwhile");
  answers.set("/api/successor", { status: 200, body: { device: NEXT } });
  me(NEXT);
  await time.pass(10_000);
  await until("the next id", () => status().dev === NEXT);
  const rows = await db.getAll("entries");
  assert.deepEqual(
    rows.map((r) => [r.dev, read(r).body.text]),
    [
      [NEXT, "mine"],
      [NEXT, "meanwhile"],
    ],
  );
  assert.equal(await db.count("aside"), 2);
  assert.deepEqual(await brokenChains(db), []);
  const next = await socket(s);
  await until("the push", () => pushes(next).length === 1);
});

test("a phone that is shut out stops asking, keeps writing, and goes on when it is paired anew", async () => {
  const AGAIN = "01JGGGGGGGGGGGGGGGGGGGGGGG";
  const db = await pairedDb();
  answers.set("/api/me", { status: 401, body: { code: "revoked", say: "" } });
  const { engine, tap, status, socket } = await start(db);
  await until("to be shut out", () => status().revoked);
  assert.equal(status().link, "off");
  assert.ok("entry" in (await tap("kept")));
  me(AGAIN);
  await engine.paired();
  await until("the new id", () => status().dev === AGAIN && status().paired);
  assert.deepEqual(
    (await db.getAll("entries")).map((r) => r.dev),
    [AGAIN],
  );
  const s = await socket();
  await until("the push", () => pushes(s).length === 1);
});

test("the studio machine's full disk is said, and taken back", async () => {
  me(DEV);
  const db = await pairedDb();
  const { socket, status } = await start(db);
  const s = await socket();
  s.welcome(NOON);
  const notice = (code: string) => s.say([0x0c, code.length], new TextEncoder().encode(code));
  notice("disk-full");
  await until("it to be said", () => status().diskFull);
  assert.match(status().problem, /studio machine cannot keep more/);
  notice("room");
  await until("it to be taken back", () => !status().diskFull && status().problem === "");
});

test("who would ring is counted by the studio machine, and out of its reach by itself", async () => {
  me(DEV);
  const db = await pairedDb();
  const { engine, socket, status, time } = await start(db);
  await engine.arm("tab", true);
  await until("its own word", () => status().armed === 1);
  const s = await socket();
  s.welcome(NOON);
  const said = () => s.got.filter((f) => f[0] === ARMED).map((f) => f[1]);
  await until("the link", () => status().link === "on");
  assert.deepEqual(said(), [1]);
  s.ringers(3);
  await until("three", () => status().armed === 3);
  // Another tab of this phone changes nothing.
  await engine.arm("other tab", true);
  await engine.arm("tab", false);
  assert.deepEqual(said(), [1]);
  await engine.arm("other tab", false);
  assert.deepEqual(said(), [1, 0]);
  await engine.arm("tab", true);
  s.onclose?.(new Event("close") as CloseEvent);
  await until("its own word", () => status().armed === 1);
  // A tab that closed is silent.
  await time.pass(200_000);
  assert.equal(status().armed, 0);
});

test("a studio machine of version 1 is told nothing of it", async () => {
  me(DEV);
  const db = await pairedDb();
  const { engine, socket, status } = await start(db);
  await engine.arm("tab", true);
  const s = await socket();
  s.welcome(NOON, 1);
  await until("the link", () => status().link === "on");
  await engine.arm("tab", false);
  await engine.arm("tab", true);
  assert.deepEqual(
    s.got.filter((f) => f[0] === ARMED),
    [],
  );
  assert.equal(status().armed, 1);
});

test("a photograph goes up behind its entry, resumes where it stopped, and is counted until it is there", async () => {
  me(DEV);
  const db = await pairedDb();
  const { engine, socket, status } = await start(db);
  const bytes = picture(2 * 128 * 1024 + 77);
  const blob = createHash("sha256").update(bytes).digest("base64url");
  assert.equal(await engine.sum(bytes), blob);
  const body = JSON.stringify({ blob, type: "image/jpeg", bytes: bytes.length, w: 800, h: 600 });
  await saveDraft(db, draft("picture", { kind: "photo", body }), undefined, {
    blob,
    job: JOB,
    type: "image/jpeg",
    bytes,
  });
  assert.ok("entry" in (await engine.stamp("picture")));
  await until("entry and photograph to be counted", () => status().unsent === 2);
  const of = (s: StudioSocket, type: number) => s.got.filter((f) => f[0] === type);
  const s = await socket();
  await until("the push", () => pushes(s).length === 1);
  assert.deepEqual(of(s, OFFER), []);
  s.welcome(NOON);
  await until("the offer", () => of(s, OFFER).length === 1);
  assert.ok(s.got.indexOf(of(s, OFFER)[0]!) > s.got.indexOf(pushes(s)[0]!));
  s.acknowledge(pushes(s)[0]!, (await db.getAll("heads"))[0]!);
  s.want(of(s, OFFER)[0]!, 0);
  await until("the chunks", () => of(s, CHUNK).length === 3);
  // Two arrived when the line broke.
  s.onclose?.(new Event("close") as CloseEvent);
  const again = await socket(s);
  again.welcome(NOON);
  await until("the offer", () => of(again, OFFER).length === 1);
  assert.equal(status().unsent, 1);
  again.want(of(again, OFFER)[0]!, 2);
  await until("the last chunk", () => of(again, CHUNK).length === 1);
  const last = of(again, CHUNK)[0]!;
  assert.deepEqual([last[33], [...last.slice(34)]], [2, [...bytes.slice(2 * 128 * 1024)]]);
  again.have(of(again, OFFER)[0]!);
  await until("nothing to be unsent", () => status().unsent === 0);
  assert.equal((await db.get("photos", blob))?.sent, true);
});

test("of closed treatments that were opened, the longest untouched is let go of and followed no longer", async () => {
  me(DEV);
  const db = await pairedDb();
  const jobs = Array.from({ length: MAX_OPENED + 1 }, (_, i) => `01J${String(i).padStart(23, "0")}`);
  for (const job of jobs) await db.put("summaries", { job, open: false, studio: `{"job":"${job}","open":false}` });
  const { engine, socket, status } = await start(db);
  const s = await socket();
  s.welcome(NOON);
  await until("the link", () => status().link === "on");
  const unsubscribed = () => s.got.filter((f) => f[0] === UNSUBSCRIBE);
  const open = async (job: string) => {
    const opened = engine.open(job);
    await until("to ask for it", () => s.got.some((f) => f[0] === SUBSCRIBE && holds(f, job)));
    s.caughtUp(job);
    return opened;
  };
  for (const job of jobs.slice(0, -1)) await open(job);
  // What is here already is not asked for again.
  await engine.open(jobs[0]!);
  assert.deepEqual(unsubscribed(), []);
  await open(jobs.at(-1)!);
  await until("one to be let go of", () => unsubscribed().length === 1);
  assert.ok(holds(unsubscribed()[0]!, jobs[1]!));
  assert.deepEqual(await getMeta(db, "opened"), [...jobs.slice(2, -1), jobs[0], jobs.at(-1)]);
});
