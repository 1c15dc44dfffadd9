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

  async load(): Promise<void> {
    for (const row of await this.db.getAll("summaries")) if (!this.rows.has(row.job)) this.rows.set(row.job, row);
    this.changed();
  }

  list(): Summary[] {
    return listOf([...this.rows.values()]);
  }

  /** Our own fold says so. */
  async own(job: string, text: string): Promise<void> {
    const row = this.rows.get(job) ?? { job };
    if (row.own === text) return;
    await this.put([{ ...row, own: text }]);
  }

  /** The studio machine says so. */
  async studio(lines: readonly { job: string; text: string }[]): Promise<void> {
    await this.put(lines.map(({ job, text }) => ({ ...(this.rows.get(job) ?? { job }), studio: text })));
  }

  private async put(rows: SummaryRow[]): Promise<void> {
    for (const row of rows) this.rows.set(row.job, row);
    this.changed();
    await write(this.db, ["summaries"], { durability: "relaxed", epoch: this.epoch }, async (tx) => {
      for (const row of rows) await tx.objectStore("summaries").put(row);
    });
  }
}

/** One line for each treatment that was not removed. */
export function listOf(rows: readonly SummaryRow[]): Summary[] {
  const list: Summary[] = [];
  for (const row of rows) {
    const studio = row.studio === undefined ? undefined : (JSON.parse(row.studio) as Summary);
    if (studio?.removed) continue;
    const shown = row.own === undefined ? studio : (JSON.parse(row.own) as Summary);
    if (shown) list.push(shown);
  }
  return list;
}
