import type { DB, SummaryRow } from "../journal/schema";
import { write } from "../journal/tx";
import type { Summary } from "./api";

/** The list of all treatments: the studio machine's line on each, and our own fold's where there is one. */
export class Treatments {
  private readonly rows = new Map<string, SummaryRow>();

  constructor(
    private readonly db: DB,
    private readonly epoch: number,
    private readonly changed: () => void,
  ) {}

  list(): Summary[] {
    return listOf([...this.rows.values()]);
  }

  /** Our own fold says so. */
  async own(job: string, text: string): Promise<void> {
    const row = this.rows.get(job) ?? { job };
    if (row.own === text) return;
    this.rows.set(job, { ...row, own: text });
    this.changed();
    await write(this.db, ["summaries"], { durability: "relaxed", epoch: this.epoch }, async (tx) => {
      // What the studio machine said meanwhile stays.
      const kept = (await tx.objectStore("summaries").get(job)) ?? { job };
      await tx.objectStore("summaries").put({ ...kept, own: text });
    });
  }

  /** What the database says has changed. */
  async reload(): Promise<void> {
    const kept = await this.db.getAll("summaries");
    const before = new Map(this.rows);
    this.rows.clear();
    for (const row of kept) {
      // Our own fold may be ahead of the database for a moment.
      const own = before.get(row.job)?.own ?? row.own;
      this.rows.set(row.job, own === undefined ? row : { ...row, own });
    }
    this.changed();
  }

  /** Whether a treatment is open; true also of one that only this phone knows. */
  isOpen(job: string): boolean {
    const row = this.rows.get(job);
    return !row || (shown(row)?.open ?? true);
  }
}

/** One line for each treatment. */
export function listOf(rows: readonly SummaryRow[]): Summary[] {
  return rows.map(shown).filter((s) => s !== undefined);
}

/**
 * Our own fold goes before the studio machine's line, since it has what was not sent yet; but not of
 * a closed treatment, whose later entries do not come to this phone.
 */
function shown(row: SummaryRow): Summary | undefined {
  const own = row.own === undefined ? undefined : (JSON.parse(row.own) as Summary);
  const studio = row.studio === undefined ? undefined : (JSON.parse(row.studio) as Summary);
  return own && studio && !own.open && !studio.open ? studio : (own ?? studio);
}
