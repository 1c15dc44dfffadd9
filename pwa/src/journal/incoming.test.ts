import assert from "node:assert/strict";
import { test } from "node:test";
import { brokenChains, DEV, draft, JOB, newCore, NOON, pairedDb, stamperOf } from "../testing/kit";
import { saveDraft } from "./drafts";
import { storeIncoming, Unfit, type Incoming } from "./incoming";
import { Deposed, getMeta, raiseEpoch } from "./meta";
import { entriesOf, waiting } from "./reading";
import type { EntryRow } from "./schema";
import { stampDraft } from "./stamp";

const stamper = stamperOf(await newCore());
const OTHER = "01JEEEEEEEEEEEEEEEEEEEEEEE";

/** Entries that another device wrote. */
function theirs(count: number, dev = OTHER, job = JOB): EntryRow[] {
  const rows: EntryRow[] = [];
  let head = { n: 0, name: "" };
  for (let i = 0; i < count; i++) {
    const { line, n, name } = stamper.stamp(draft(`theirs ${i}`, { job }), dev, head, "0".repeat(16), NOON + i);
    rows.push({ job, dev, n, name, line });
    head = { n, name };
  }
  return rows;
}

const nothing: Incoming = {
  drop: [],
  store: [],
  clock: "",
  receipts: [],
  forget: false,
  summaries: [],
  generation: undefined,
};

test("entries come in order, once, and move the clock", async () => {
  const db = await pairedDb();
  const epoch = await raiseEpoch(db);
  const rows = theirs(5);
  await storeIncoming(db, { ...nothing, store: rows.slice(0, 3), clock: "019cb00000000005" }, epoch);
  await storeIncoming(db, { ...nothing, store: rows.slice(1), clock: "019cb00000000001" }, epoch);
  assert.equal((await db.getAll("entries")).length, 5);
  assert.equal(await getMeta(db, "clock"), "019cb00000000005");
  assert.deepEqual(await brokenChains(db), []);
});

test("a gap or another entry in a taken place stores nothing", async () => {
  const db = await pairedDb();
  const epoch = await raiseEpoch(db);
  const rows = theirs(3);
  await assert.rejects(storeIncoming(db, { ...nothing, store: [rows[0]!, rows[2]!] }, epoch), Unfit);
  assert.equal((await db.getAll("entries")).length, 0);
  await storeIncoming(db, { ...nothing, store: rows }, epoch);
  const other = { ...rows[2]!, name: "another", line: "{}" };
  await assert.rejects(storeIncoming(db, { ...nothing, store: [other] }, epoch), Unfit);
  await assert.rejects(storeIncoming(db, { ...nothing, store: rows }, epoch - 1), Deposed);
});

test("a dropped chain makes room for the branch that the studio machine holds", async () => {
  const db = await pairedDb();
  const epoch = await raiseEpoch(db);
  await storeIncoming(db, { ...nothing, store: theirs(3) }, epoch);
  await storeIncoming(db, { ...nothing, drop: [[JOB, OTHER]], store: theirs(2) }, epoch);
  assert.equal((await db.getAll("entries")).length, 2);
  assert.deepEqual(await brokenChains(db), []);
});

test("summaries: forgotten, kept beside our own, removed with a sample", async () => {
  const db = await pairedDb();
  const epoch = await raiseEpoch(db);
  const said = (job: string, text: string) => ({ job, open: true, removed: false, text });
  await storeIncoming(
    db,
    { ...nothing, store: theirs(2), summaries: [said(JOB, "a"), said("B", "b")], generation: "1.1" },
    epoch,
  );
  await db.put("summaries", { job: JOB, studio: "a", open: true, own: "mine" });
  await storeIncoming(db, { ...nothing, forget: true, summaries: [said("C", "c")], generation: "2.1" }, epoch);
  assert.deepEqual(
    (await db.getAll("summaries")).map((s) => [s.job, s.studio, s.own]),
    [
      [JOB, undefined, "mine"],
      ["C", "c", undefined],
    ],
  );
  assert.equal(await getMeta(db, "generation"), "2.1");
  await storeIncoming(db, { ...nothing, summaries: [{ job: JOB, open: false, removed: true, text: "" }] }, epoch);
  assert.equal((await db.getAll("entries")).length, 0);
  assert.equal(await db.get("summaries", JOB), undefined);
});

test("a removed sample in which this phone has written something unsent stays", async () => {
  const db = await pairedDb();
  const epoch = await raiseEpoch(db);
  await saveDraft(db, draft("mine"));
  await stampDraft(db, stamper, "mine", {}, epoch, () => NOON);
  await storeIncoming(
    db,
    { ...nothing, store: theirs(2), summaries: [{ job: JOB, open: false, removed: true, text: "" }] },
    epoch,
  );
  assert.equal((await db.getAll("entries")).length, 3);
  assert.deepEqual(await waiting(db, DEV), [{ job: JOB, dev: DEV, from: 1, to: 1 }]);
});

test("entries are read in chunks, none twice and none left out", async () => {
  const db = await pairedDb();
  const epoch = await raiseEpoch(db);
  await storeIncoming(
    db,
    {
      ...nothing,
      store: [
        ...theirs(7),
        ...theirs(5, "01JZZZZZZZZZZZZZZZZZZZZZZZ"),
        ...theirs(3, OTHER, "01JCCCCCCCCCCCCCCCCCCCCCCC"),
      ],
    },
    epoch,
  );
  const sizes: number[] = [];
  const seen = new Set<string>();
  for await (const rows of entriesOf(db, JOB, 4)) {
    sizes.push(rows.length);
    for (const row of rows) seen.add(`${row.dev} ${row.n}`);
  }
  assert.deepEqual([sizes, seen.size], [[4, 4, 4], 12]);
});
