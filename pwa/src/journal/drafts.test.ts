import assert from "node:assert/strict";
import { test } from "node:test";
import {
  newPhone,
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
import { allDrafts, dropDraft, entryOfDraft, promiseDraft, saveDraft } from "./drafts";
import { Deposed, raiseEpoch, setMeta } from "./meta";
import { openJournal, type DB } from "./schema";
import { NoDevice, stampClock, stampDraft, type Stamper } from "./stamp";
import type { Fault } from "./tx";

const core = stamperOf(await newCore());
const now = () => NOON;

const stampIt = (db: DB, id: string, epoch: number, fault?: Fault, by: Stamper = core) =>
  stampDraft(db, by, id, {}, epoch, now, fault);

/** Taps once, from draft to entry; says how far it came. */
async function tap(db: DB, id: string, epoch: number, fault: Fault): Promise<"entry" | "draft" | "nothing"> {
  let came: "draft" | "nothing" = "nothing";
  try {
    await saveDraft(db, draft(id), fault);
    came = "draft";
    await stampIt(db, id, epoch, fault);
    fault("after the entry");
    return "entry";
  } catch (e) {
    if (!(e instanceof Killed)) throw e;
    return came;
  }
}

/** What a start does: stamps all drafts that it finds. */
async function restart(): Promise<DB> {
  const db = await openJournal();
  const epoch = await raiseEpoch(db);
  for (const d of await allDrafts(db)) await stampIt(db, d.id, epoch);
  return db;
}

const entriesOfTap = async (db: DB, id: string) =>
  (await db.getAll("entries")).filter((row) => read(row).body.text === id);

test("a tap killed between any two steps is neither lost nor doubled", async (t) => {
  for (let n = 0; ; n++) {
    const { fault, steps } = killAt(n);
    let db = await pairedDb();
    const epoch = await raiseEpoch(db);
    // A chain to continue, and a clock entry to come before the tap's own.
    await saveDraft(db, draft("before"));
    await stampIt(db, "before", epoch);
    await setMeta(db, "offset_ms", 90_000);
    const came = await tap(db, "tap", epoch, fault);
    db.close();
    db = await restart();
    const where = `killed ${steps[n] ?? "nowhere"}`;
    const kept = await entriesOfTap(db, "tap");
    assert.ok(kept.length <= 1, `${where}: ${kept.length} entries of one tap`);
    if (came !== "nothing") assert.equal(kept.length, 1, `${where}: a safe tap became no entry`);
    assert.deepEqual(await allDrafts(db), [], `${where}: a draft is left over`);
    assert.deepEqual(await brokenChains(db), [], where);
    // The screens did not hear and ask again.
    const epoch2 = await raiseEpoch(db);
    await tap(db, "tap", epoch2, () => undefined);
    assert.equal((await entriesOfTap(db, "tap")).length, 1, `${where}: asked again it was doubled or lost`);
    assert.deepEqual(await brokenChains(db), [], `${where}, asked again`);
    db.close();
    if (n >= steps.length) {
      t.diagnostic(`${steps.length} steps: ${steps.join(", ")}`);
      assert.ok(steps.length >= 9);
      return;
    }
  }
});

test("a core that crashes while it stamps leaves the draft", async () => {
  const db = await pairedDb();
  const epoch = await raiseEpoch(db);
  await saveDraft(db, draft("tap"));
  const crashing: Stamper = {
    stamp: () => {
      throw new Error("unreachable");
    },
  };
  await assert.rejects(stampIt(db, "tap", epoch, undefined, crashing), /unreachable/);
  assert.equal((await allDrafts(db)).length, 1);
  assert.equal((await stampIt(db, "tap", epoch))?.entry.n, 1);
});

test("a phone that is not paired keeps its drafts", async () => {
  newPhone();
  const db = await openJournal();
  const epoch = await raiseEpoch(db);
  await saveDraft(db, draft("tap"));
  await assert.rejects(stampIt(db, "tap", epoch), NoDevice);
  await setMeta(db, "dev", DEV);
  assert.equal((await stampIt(db, "tap", epoch))?.entry.dev, DEV);
});

test("a tab that was deposed writes nothing more", async () => {
  const db = await pairedDb();
  const frozen = await raiseEpoch(db);
  await saveDraft(db, draft("one"));
  await saveDraft(db, draft("two"));
  const taken = await raiseEpoch(db);
  await stampIt(db, "one", taken);
  await assert.rejects(stampIt(db, "two", frozen), Deposed);
  await assert.rejects(dropDraft(db, "two", frozen), Deposed);
  assert.equal((await stampIt(db, "two", taken))?.entry.n, 2);
  assert.deepEqual(await brokenChains(db), []);
});

test("two tabs that stamp at once write one chain", async () => {
  const db = await pairedDb();
  const other = await openJournal();
  const epoch = await raiseEpoch(db);
  for (let i = 0; i < 20; i++) await saveDraft(db, draft(`tap ${i}`));
  await Promise.all(Array.from({ length: 20 }, (_, i) => stampIt(i % 2 ? db : other, `tap ${i}`, epoch)));
  assert.equal((await db.getAll("entries")).length, 20);
  assert.deepEqual(await brokenChains(db), []);
});

test("a head that lags behind its chain cannot fork it", async () => {
  const db = await pairedDb();
  const epoch = await raiseEpoch(db);
  await saveDraft(db, draft("one"));
  await stampIt(db, "one", epoch);
  await db.delete("heads", [JOB, DEV]);
  await saveDraft(db, draft("two"));
  await assert.rejects(stampIt(db, "two", epoch));
  assert.equal((await db.getAll("entries")).length, 1);
  assert.equal((await allDrafts(db)).length, 1);
});

test("a changed clock is recorded before the next entry, once", async () => {
  const db = await pairedDb();
  const epoch = await raiseEpoch(db);
  const kinds = async () => (await db.getAll("entries")).map((row) => read(row).kind);
  await setMeta(db, "offset_ms", 1999);
  await saveDraft(db, draft("one"));
  await stampIt(db, "one", epoch);
  assert.deepEqual(await kinds(), ["note"]);
  await setMeta(db, "offset_ms", -2000);
  for (const id of ["two", "three"]) {
    await saveDraft(db, draft(id));
    await stampIt(db, id, epoch);
  }
  assert.deepEqual(await kinds(), ["note", "clock", "note", "note"]);
  assert.deepEqual(await stampClock(db, core, JOB, "2026-03-04T12:02:11+01:00", epoch, now), []);
  await setMeta(db, "offset_ms", 0);
  const wrote = await stampClock(db, core, JOB, "2026-03-04T12:02:11+01:00", epoch, now);
  assert.deepEqual(
    wrote.map((row) => read(row).body),
    [{ offset_ms: 0 }],
  );
});

test("a promised draft is not dropped by a check", async () => {
  const db = await pairedDb();
  const epoch = await raiseEpoch(db);
  await saveDraft(db, draft("tap"));
  assert.equal(await promiseDraft(db, "tap"), true);
  assert.equal(await dropDraft(db, "tap", epoch), false);
  await stampIt(db, "tap", epoch);
  assert.equal(await promiseDraft(db, "tap"), false);
  assert.notEqual(await entryOfDraft(db, "tap"), undefined);
  await saveDraft(db, draft("bad"));
  assert.equal(await dropDraft(db, "bad", epoch), true);
  assert.equal(await stampIt(db, "bad", epoch), undefined);
});
