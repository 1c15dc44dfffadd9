// Closed treatments that a person opened: the phone follows so many of them, and lets go of the one that
// was not looked at for the longest time. The studio machine has it all.
import { metaIn, putMetaIn } from "./meta";
import { under, type DB } from "./schema";
import { unheard, write } from "./tx";

/** Puts a treatment behind all others that were opened; gives them, the longest untouched first. */
export function noteOpened(db: DB, job: string, epoch: number): Promise<string[]> {
  return write(db, ["meta"], { durability: "relaxed", epoch }, async (tx) => {
    const opened = [...(await metaIn(tx, "opened")).filter((other) => other !== job), job];
    putMetaIn(tx, "opened", opened);
    return opened;
  });
}

/** It is followed by hand no longer; its log stays. */
export function noteClosed(db: DB, job: string, epoch: number): Promise<void> {
  return write(db, ["meta"], { durability: "relaxed", epoch }, async (tx) => {
    const opened = await metaIn(tx, "opened");
    putMetaIn(
      tx,
      "opened",
      opened.filter((other) => other !== job),
    );
  });
}

/**
 * Lets go of a treatment's log, and follows it no longer. The head of the own chain stays, with its
 * receipt: what is written later follows from it. False when something in it was not sent yet.
 */
export function dropTreatment(db: DB, job: string, epoch: number): Promise<boolean> {
  const stores = ["entries", "heads", "receipts", "drafts", "snapshots", "meta"] as const;
  return write(db, [...stores], { durability: "relaxed", epoch }, async (tx) => {
    const [dev, opened, drafts] = await Promise.all([
      metaIn(tx, "dev"),
      metaIn(tx, "opened"),
      tx.objectStore("drafts").getAll(),
    ]);
    const [own, receipt] = await Promise.all([
      tx.objectStore("heads").get([job, dev]),
      tx.objectStore("receipts").get([job, dev]),
    ]);
    if ((own?.n ?? 0) > (receipt?.n ?? 0) || drafts.some((d) => d.job === job)) return false;
    for (const name of ["entries", "heads", "receipts"] as const) unheard(tx.objectStore(name).delete(under(job)));
    if (own) unheard(tx.objectStore("heads").put({ ...own, dropped: own.n }));
    if (receipt) unheard(tx.objectStore("receipts").put(receipt));
    unheard(tx.objectStore("snapshots").delete(job));
    putMetaIn(
      tx,
      "opened",
      opened.filter((other) => other !== job),
    );
    return true;
  });
}
