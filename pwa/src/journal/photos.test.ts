import assert from "node:assert/strict";
import { test } from "node:test";
import { deleteDB, openDB } from "idb";
import { draft, JOB, Killed, killAt, newCore, newPhone, NOON, pairedDb, read, stamperOf } from "../testing/kit";
import { picture } from "../testing/picture";
import { allDrafts, dropDraft, saveDraft } from "./drafts";
import { raiseEpoch, setMeta } from "./meta";
import { dropSentPhotos, photoBytes, photosSent, photosToSend, type Photo } from "./photos";
import { DB_NAME, openJournal, type DB } from "./schema";
import { stampDraft } from "./stamp";

const core = stamperOf(await newCore());
const stamp = (db: DB, id: string, epoch: number) => stampDraft(db, core, id, {}, epoch, () => NOON);

const photo = (blob: string, bytes = 5000): Photo => ({ blob, job: JOB, type: "image/jpeg", bytes: picture(bytes) });
const photoDraft = (id: string, blob: string) => draft(id, { kind: "photo", body: JSON.stringify({ blob }) });

test("a photograph killed between any two steps is kept with its entry, or not at all", async () => {
  for (let n = 0; ; n++) {
    const { fault, steps } = killAt(n);
    let db = await pairedDb();
    let safe = false;
    try {
      await saveDraft(db, photoDraft("tap", "P"), fault, photo("P"));
      safe = true;
    } catch (e) {
      if (!(e instanceof Killed)) throw e;
    }
    db.close();
    db = await openJournal();
    const epoch = await raiseEpoch(db);
    const where = `killed ${steps[n] ?? "nowhere"}`;
    const drafts = (await allDrafts(db)).length;
    assert.equal(await db.count("photos"), drafts, where);
    assert.equal(await db.count("photo_data"), drafts, where);
    if (safe) assert.equal(drafts, 1, where);
    assert.deepEqual(await photosToSend(db), [], `${where}: offered before its entry`);
    // The screens did not hear and ask again.
    await saveDraft(db, photoDraft("tap", "P"), undefined, photo("P"));
    await stamp(db, "tap", epoch);
    assert.deepEqual(
      (await photosToSend(db)).map((p) => [p.blob, p.size]),
      [["P", 5000]],
      where,
    );
    assert.equal((await photoBytes(db, "P"))?.length, 5000);
    assert.equal((await db.getAll("entries")).filter((row) => read(row).kind === "photo").length, 1, where);
    db.close();
    if (n >= steps.length) return;
  }
});

test("a photograph whose draft was refused goes with it, unless another mentions it", async () => {
  const db = await pairedDb();
  const epoch = await raiseEpoch(db);
  await saveDraft(db, photoDraft("a", "P"), undefined, photo("P"));
  await saveDraft(db, photoDraft("b", "P"), undefined, photo("P"));
  await dropDraft(db, "a", epoch);
  assert.ok(await photoBytes(db, "P"));
  await stamp(db, "b", epoch);
  assert.equal((await photosToSend(db)).length, 1);
  await saveDraft(db, photoDraft("c", "Q"), undefined, photo("Q"));
  await dropDraft(db, "c", epoch);
  assert.deepEqual([await db.count("photos"), await db.count("photo_data")], [1, 1]);
});

test("room is made only with what the studio machine has", async () => {
  const db = await pairedDb();
  const epoch = await raiseEpoch(db);
  for (const blob of ["P", "Q"]) {
    await saveDraft(db, photoDraft(blob, blob), undefined, photo(blob));
    await stamp(db, blob, epoch);
  }
  assert.equal(await dropSentPhotos(db, epoch), false);
  await photosSent(db, ["P", "unknown"], epoch);
  assert.equal(await dropSentPhotos(db, epoch), true);
  assert.deepEqual([await photoBytes(db, "P"), (await photosToSend(db)).map((p) => p.blob)], [undefined, ["Q"]]);
  assert.ok(await photoBytes(db, "Q"));
});

test("a phone of the layout before keeps all that it has", async () => {
  newPhone();
  const old = await openDB(DB_NAME, 1, {
    upgrade(db) {
      const entries = db.createObjectStore("entries", { keyPath: ["job", "dev", "n"] });
      entries.createIndex("draft", "draft", { unique: true });
      for (const name of ["drafts", "summaries", "snapshots"])
        db.createObjectStore(name, { keyPath: name === "drafts" ? "id" : "job" });
      for (const name of ["heads", "receipts"]) db.createObjectStore(name, { keyPath: ["job", "dev"] });
      db.createObjectStore("aside", { keyPath: "name" });
      db.createObjectStore("meta");
    },
  });
  await old.put("drafts", draft("waits"));
  old.close();
  const db = await openJournal();
  await setMeta(db, "dev", "01JDDDDDDDDDDDDDDDDDDDDDDD");
  const epoch = await raiseEpoch(db);
  assert.ok((await stamp(db, "waits", epoch))?.entry);
  await saveDraft(db, photoDraft("new", "P"), undefined, photo("P"));
  assert.equal(await db.count("photos"), 1);
  db.close();
  await deleteDB(DB_NAME);
});
