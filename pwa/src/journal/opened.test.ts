import assert from "node:assert/strict";
import { test } from "node:test";
import { DEV, draft, JOB, newCore, NOON, pairedDb, stamperOf } from "../testing/kit";
import { saveDraft } from "./drafts";
import { storeIncoming, Unfit, type Incoming } from "./incoming";
import { getMeta, raiseEpoch } from "./meta";
import { dropTreatment, noteOpened } from "./opened";
import type { DB, EntryRow } from "./schema";
import { stampDraft } from "./stamp";

const core = stamperOf(await newCore());
const OTHER = "01JEEEEEEEEEEEEEEEEEEEEEEE";

const incoming = (store: EntryRow[]): Incoming => ({
  drop: [],
  store,
  clock: "0000000000000000",
  receipts: [],
  forget: false,
  summaries: [],
  generation: undefined,
});

async function write(db: DB, id: string, epoch: number): Promise<EntryRow> {
  await saveDraft(db, draft(id));
  const stamped = await stampDraft(db, core, id, {}, epoch, () => NOON);
  assert.ok(stamped);
  return stamped.entry;
}

/** A phone with three own entries, all acknowledged, and one of another device. */
async function phone() {
  const db = await pairedDb();
  const epoch = await raiseEpoch(db);
  const own: EntryRow[] = [];
  for (const id of ["a", "b", "c"]) own.push(await write(db, id, epoch));
  const { n, name } = own[2]!;
  await db.put("receipts", { job: JOB, dev: DEV, n, name, sig: "" });
  const theirs: EntryRow = { job: JOB, dev: OTHER, n: 1, name: "theirs", line: "{}" };
  await storeIncoming(db, incoming([theirs]), epoch);
  await noteOpened(db, JOB, epoch);
  return { db, epoch, own, theirs };
}

test("a treatment that was let go of leaves the head of the own chain, which goes on from there", async () => {
  const { db, epoch, own, theirs } = await phone();
  assert.equal(await dropTreatment(db, JOB, epoch), true);
  assert.deepEqual([await db.count("entries"), await db.count("heads"), await db.count("receipts")], [0, 1, 1]);
  assert.deepEqual(await getMeta(db, "opened"), []);
  const next = await write(db, "d", epoch);
  assert.equal(next.n, 4);
  // Opened again, all of it comes from the start; a session may break in between.
  const again = own.map(({ draft: _, ...row }) => row);
  await storeIncoming(db, incoming(again.slice(0, 2)), epoch);
  assert.equal((await db.get("heads", [JOB, DEV]))?.dropped, 3);
  await storeIncoming(db, incoming([...again, theirs]), epoch);
  assert.deepEqual(
    (await db.getAll("entries")).map((row) => [row.dev, row.n]),
    [
      [DEV, 1],
      [DEV, 2],
      [DEV, 3],
      [DEV, 4],
      [OTHER, 1],
    ],
  );
  const head = await db.get("heads", [JOB, DEV]);
  assert.deepEqual([head?.n, head?.name, head?.dropped], [4, next.name, undefined]);
});

test("what comes below a head must lead to it, and nothing else may be missing there", async () => {
  const { db, epoch, own } = await phone();
  await db.delete("entries", [JOB, DEV, 2]);
  const [, second, third] = own.map(({ draft: _, ...row }) => row);
  await assert.rejects(storeIncoming(db, incoming([second!]), epoch), Unfit);
  await dropTreatment(db, JOB, epoch);
  await assert.rejects(storeIncoming(db, incoming([{ ...third!, name: "another" }]), epoch), Unfit);
});

test("nothing that was not sent is let go of", async () => {
  const { db, epoch } = await phone();
  await saveDraft(db, draft("waits"));
  assert.equal(await dropTreatment(db, JOB, epoch), false);
  await stampDraft(db, core, "waits", {}, epoch, () => NOON);
  assert.equal(await dropTreatment(db, JOB, epoch), false);
  assert.equal(await db.count("entries"), 5);
});
