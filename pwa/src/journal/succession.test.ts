import assert from "node:assert/strict";
import { test } from "node:test";
import * as linkOps from "../core/link-ops";
import {
  brokenChains,
  DEV,
  draft,
  JOB,
  Killed,
  killAt,
  newCore,
  NOON,
  pairedDb,
  read,
  stamperOf,
} from "../testing/kit";
import { saveDraft } from "./drafts";
import { getMeta, raiseEpoch } from "./meta";
import { openJournal, type DB, type Succession } from "./schema";
import { stampDraft } from "./stamp";
import { carryOut, noteSuccession, type Reissuer } from "./succession";

const core = await newCore();
const reissuer: Reissuer = { reissue: (...args) => linkOps.reissue(core, ...args) };
const NEXT = "01JFFFFFFFFFFFFFFFFFFFFFFF";
const OTHER_JOB = "01JBBBBBBBBBBBBBBBBBBBBBBB";

/** A phone with five entries in one treatment, two of them acknowledged, and two in another, one of them. */
async function phone(): Promise<{ db: DB; epoch: number }> {
  const db = await pairedDb();
  const epoch = await raiseEpoch(db);
  for (const [job, count, acked] of [
    [JOB, 5, 2],
    [OTHER_JOB, 2, 1],
  ] as const) {
    for (let i = 1; i <= count; i++) {
      await saveDraft(db, draft(`${job} ${i}`, { job }));
      const s = await stampDraft(db, stamperOf(core), `${job} ${i}`, {}, epoch, () => NOON);
      if (i === acked) await db.put("receipts", { job, dev: DEV, n: i, name: s?.entry.name ?? "", sig: "" });
    }
  }
  return { db, epoch };
}

const places = async (db: DB) =>
  (await db.getAll("heads")).map(
    (h) => `${h.job === JOB ? "first" : "other"} ${h.dev === NEXT ? "next" : "old"} ${h.n}`,
  );

const forkAt4: Succession = { nonce: "n", old: DEV, next: NEXT, forked: [{ job: JOB, from: 4 }] };

test("a succession killed between any two steps issues each entry again once", async () => {
  for (let n = 0; ; n++) {
    const { fault, steps } = killAt(n);
    const { db, epoch } = await phone();
    const before = new Map((await db.getAll("entries")).map((row) => [row.name, row]));
    await noteSuccession(db, forkAt4, epoch);
    try {
      await carryOut(db, reissuer, forkAt4, epoch, fault);
    } catch (e) {
      if (!(e instanceof Killed)) throw e;
    }
    db.close();
    const after = await openJournal();
    const pending = await getMeta(after, "succession");
    if (pending) await carryOut(after, reissuer, pending, await raiseEpoch(after));
    const where = `killed ${steps[n] ?? "nowhere"}`;
    assert.deepEqual(await brokenChains(after), [], where);
    assert.deepEqual(await places(after), ["first old 3", "first next 2", "other old 1", "other next 1"], where);
    assert.equal(await getMeta(after, "dev"), NEXT, where);
    for (const row of await after.getAll("entries")) {
      if (row.dev !== NEXT) continue;
      const old = before.get(read(row).was ?? "");
      assert.ok(old, `${where}: an entry that was none`);
      assert.deepEqual(read(row).body, read(old).body);
      assert.equal(row.draft, old.draft, `${where}: a tap sent again would be doubled`);
      assert.equal((await after.get("aside", old.name))?.line, old.line, `${where}: not kept aside`);
    }
    after.close();
    if (n >= steps.length) {
      assert.ok(steps.length >= 4);
      return;
    }
  }
});

test("a browser that is paired anew takes along what was not acknowledged", async () => {
  const { db, epoch } = await phone();
  const s: Succession = { nonce: "", old: DEV, next: NEXT, forked: [] };
  assert.deepEqual((await carryOut(db, reissuer, s, epoch)).sort(), [JOB, OTHER_JOB]);
  assert.deepEqual(await places(db), ["first old 2", "first next 3", "other old 1", "other next 1"]);
  assert.deepEqual(await brokenChains(db), []);
});

test("a fork from the first entry on leaves nothing of the old chain", async () => {
  const { db, epoch } = await phone();
  await carryOut(db, reissuer, { ...forkAt4, forked: [{ job: JOB, from: 1 }] }, epoch);
  assert.deepEqual(await places(db), ["first next 5", "other old 1", "other next 1"]);
  assert.equal(await db.get("receipts", [JOB, DEV]), undefined);
});

test("a claim that is noted is not noted anew with another nonce", async () => {
  const { db, epoch } = await phone();
  await noteSuccession(db, { ...forkAt4, next: "" }, epoch);
  await noteSuccession(db, { ...forkAt4, next: "", nonce: "another" }, epoch);
  assert.equal((await getMeta(db, "succession"))?.nonce, "n");
});
