import { waitingIn } from "../journal/reading";
import type { DB } from "../journal/schema";
import type { Standing } from "./standing";
import { askRoom } from "./storage";

const ROOM_EVERY_MS = 60_000;

/** What the status counts: what has not reached the studio machine, and the room that is left. */
export class Counts {
  private counting: Promise<void> = Promise.resolve();
  private queued = false;
  private stopped = false;

  constructor(
    private readonly db: DB,
    private readonly standing: Standing,
    private readonly after: (ms: number, f: () => void) => void,
    /** Little room is left: what the studio machine has need not be kept here. */
    private readonly makeRoom: () => Promise<boolean>,
  ) {}

  /** Counts again; when a count is waiting already, that one will do. */
  unsent(): Promise<void> {
    if (this.queued) return this.counting;
    this.queued = true;
    this.counting = this.counting.then(() => this.count()).catch((e: unknown) => console.error(e));
    return this.counting;
  }

  /** Looks at the room now, and from now on. */
  async room(): Promise<void> {
    if (this.stopped) return;
    let room = await askRoom();
    if (room.low && (await this.makeRoom())) room = await askRoom();
    const { usage, quota, low } = room;
    this.standing.set({ usage, quota, storageLow: low });
    if (!low) this.standing.problem({ storage: "" });
    this.after(ROOM_EVERY_MS, () => void this.room());
  }

  stop(): void {
    this.stopped = true;
  }

  private async count(): Promise<void> {
    this.queued = false;
    this.standing.set(await countUnsent(this.db));
  }
}

/** Own entries without a receipt, drafts, and photographs that were not sent; `unsent` is all of it. */
export async function countUnsent(db: DB): Promise<{ unsent: number; drafts: number }> {
  const tx = db.transaction(["heads", "receipts", "drafts", "photos", "meta"]);
  const [heads, receipts, drafts, photos, dev] = await Promise.all([
    tx.objectStore("heads").getAll(),
    tx.objectStore("receipts").getAll(),
    tx.objectStore("drafts").count(),
    tx.objectStore("photos").getAll(),
    tx.objectStore("meta").get("dev"),
  ]);
  const entries = waitingIn(heads, receipts, String(dev)).reduce((sum, w) => sum + w.to - w.from + 1, 0);
  return { unsent: entries + drafts + photos.filter((p) => !p.sent).length, drafts };
}
