// Photographs on the phone: what is known of each beside its bytes, which are read only when they are
// wanted. A photograph is named by its SHA-256 and never changes.
import type { DB, PhotoRow } from "./schema";
import { unheard, write, type WriteTx } from "./tx";

/** As the protocol cuts them. */
export const CHUNK_BYTES = 128 * 1024;

/** A photograph that is to be kept. */
export interface Photo {
  /** SHA-256, base64url. */
  blob: string;
  job: string;
  type: string;
  bytes: Uint8Array<ArrayBuffer>;
}

/** Keeps a photograph together with the draft that mentions it. */
export async function putPhotoIn(tx: WriteTx, p: Photo, draft: string): Promise<void> {
  const { blob, job, type, bytes } = p;
  const kept = await tx.objectStore("photos").get(blob);
  const drafts = [...(kept?.drafts ?? []).filter((d) => d !== draft), draft];
  unheard(tx.objectStore("photos").put({ blob, job, type, size: bytes.length, sent: kept?.sent ?? false, drafts }));
  await tx.objectStore("photo_data").put(bytes, blob);
}

/** A check refused the draft: its photograph goes too, unless another mentions the same. */
export async function dropPhotoOfIn(tx: WriteTx, draft: string): Promise<void> {
  const store = tx.objectStore("photos");
  for (const row of await store.getAll()) {
    if (!row.drafts.includes(draft)) continue;
    const drafts = row.drafts.filter((d) => d !== draft);
    if (drafts.length > 0) unheard(store.put({ ...row, drafts }));
    else removePhotoIn(tx, row.blob);
  }
}

export function removePhotoIn(tx: WriteTx, blob: string): void {
  unheard(tx.objectStore("photos").delete(blob));
  unheard(tx.objectStore("photo_data").delete(blob));
}

/** What can be sent: photographs that the studio machine lacks, and that an entry mentions. */
export async function photosToSend(db: DB): Promise<PhotoRow[]> {
  const tx = db.transaction(["photos", "drafts"]);
  const [photos, drafts] = await Promise.all([
    tx.objectStore("photos").getAll(),
    tx.objectStore("drafts").getAllKeys(),
  ]);
  const waiting = new Set(drafts);
  return photos.filter((p) => !p.sent && p.drafts.some((d) => !waiting.has(d)));
}

export function photoBytes(db: DB, blob: string): Promise<Uint8Array<ArrayBuffer> | undefined> {
  return db.get("photo_data", blob);
}

/** The studio machine has these on its disk. */
export function photosSent(db: DB, blobs: readonly string[], epoch: number): Promise<void> {
  return write(db, ["photos"], { durability: "relaxed", epoch }, async (tx) => {
    for (const blob of blobs) {
      const row = await tx.objectStore("photos").get(blob);
      if (row) unheard(tx.objectStore("photos").put({ ...row, sent: true }));
    }
  });
}

/** Makes room: lets go of what the studio machine has. True when something went. */
export function dropSentPhotos(db: DB, epoch: number): Promise<boolean> {
  return write(db, ["photos", "photo_data"], { durability: "relaxed", epoch }, async (tx) => {
    const sent = (await tx.objectStore("photos").getAll()).filter((p) => p.sent);
    for (const p of sent) removePhotoIn(tx, p.blob);
    return sent.length > 0;
  });
}
