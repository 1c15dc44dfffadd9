// A tap is a draft before anything else happens to it: the core may be loading or have crashed, the
// tab that holds the log may be frozen. Any tab may save a draft; only the holder stamps it.
import type { DB, DraftRow } from "./schema";
import { dropPhotoOfIn, putPhotoIn, type Photo } from "./photos";
import { noFault, write, type Fault, type Names } from "./tx";

/**
 * Saves a draft, and with it the photograph that it mentions. Durable when it returns; saving it twice
 * keeps one, and none once it is an entry.
 */
export async function saveDraft(db: DB, draft: DraftRow, fault: Fault = noFault, photo?: Photo): Promise<void> {
  fault("before the draft");
  const stores: Names[] = photo ? ["drafts", "entries", "photos", "photo_data"] : ["drafts", "entries"];
  await write(db, stores, { durability: "strict" }, async (tx) => {
    const entry = await tx.objectStore("entries").index("draft").getKey(draft.id);
    fault("before the draft is put");
    if (entry === undefined) {
      await tx.objectStore("drafts").put(draft);
      fault("before the photograph");
      if (photo) await putPhotoIn(tx, photo, draft.id);
    }
    fault("before the draft commits");
  });
  fault("after the draft");
}

/** All drafts in the order in which they were tapped. */
export async function allDrafts(db: DB): Promise<DraftRow[]> {
  const rows = await db.getAll("drafts");
  return rows.sort((a, b) => a.made_ms - b.made_ms || (a.id < b.id ? -1 : 1));
}

/**
 * Tells that the person will be told that this draft is safe. False when it is no draft any more:
 * it has become an entry or was refused by a check, and the answer is on its way.
 */
export function promiseDraft(db: DB, id: string): Promise<boolean> {
  return write(db, ["drafts"], { durability: "strict" }, async (tx) => {
    const row = await tx.objectStore("drafts").get(id);
    if (!row) return false;
    await tx.objectStore("drafts").put({ ...row, promised: true });
    return true;
  });
}

/** Drops a draft that a check refused, unless it was promised meanwhile: then it returns false. */
export function dropDraft(db: DB, id: string, epoch: number): Promise<boolean> {
  return write(db, ["drafts", "photos", "photo_data"], { durability: "relaxed", epoch }, async (tx) => {
    const row = await tx.objectStore("drafts").get(id);
    if (row?.promised) return false;
    await tx.objectStore("drafts").delete(id);
    if (row?.kind === "photo") await dropPhotoOfIn(tx, id);
    return true;
  });
}

/** The name of the entry that a draft became, or undefined. */
export async function entryOfDraft(db: DB, id: string): Promise<string | undefined> {
  return (await db.getFromIndex("entries", "draft", id))?.name;
}
