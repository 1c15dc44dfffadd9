import { allDrafts, dropDraft } from "../journal/drafts";
import type { DB, DraftRow, EntryRow } from "../journal/schema";
import { stampDraft, type Made, type Stamper } from "../journal/stamp";
import type { Fault } from "../journal/tx";
import type { CoreHost } from "./host";
import type { Outcome } from "./messages";
import * as ops from "./ops";
import { NOT_ACCEPTED } from "./sentences";

export interface StampingHost {
  db: DB;
  epoch: number;
  core: CoreHost;
  fault: Fault;
  now(): number;
  /** Studio time minus this device's time. */
  offset(): number;
  /** Sees to it that the core knows the treatment as it stands. */
  ensure(job: string): Promise<boolean>;
  wrote(rows: EntryRow[]): void;
  failed(e: unknown): void;
}

/** Makes entries of drafts: checked, stamped, kept. */
export class Stamping {
  constructor(private readonly host: StampingHost) {}

  /** The core as the journal's transactions call it. */
  readonly stamper: Stamper = {
    stamp: (u, dev, head, clock, now) => {
      const s = this.host.core.try((c) => ops.stamp(c, u, dev, head, clock, now));
      if (!s) throw new Error("the core is not up");
      return s;
    },
  };

  /** Whatever fails, the draft stays and is stamped later. */
  async one(id: string): Promise<Outcome> {
    const row = await this.host.db.get("drafts", id);
    if (!(await this.host.core.ready())) return { draft: id };
    try {
      return await this.stamp(id, row);
    } catch (e) {
      this.host.failed(e);
      return { draft: id };
    }
  }

  /** What was tapped while there was no core, no id, or nobody to stamp it. */
  async all(): Promise<void> {
    if (!(await this.host.core.ready())) return;
    for (const draft of await allDrafts(this.host.db)) await this.one(draft.id);
  }

  private async stamp(id: string, row: DraftRow | undefined): Promise<Outcome> {
    const { db, epoch, core, fault, now } = this.host;
    let made: Made = {};
    if (row) {
      await this.host.ensure(row.job);
      // A draft that waited is judged by the time of its tap.
      const checked = core.try((c) => ops.check(c, row, row.made_ms, this.host.offset()));
      if (!checked) return { draft: id };
      made = "body" in checked ? { body: checked.body, bv: checked.bv } : { bv: checked.bv };
      if ("errors" in checked && !row.promised && (await dropDraft(db, id, epoch))) return { errors: checked.errors };
    }
    const stamped = await stampDraft(db, this.stamper, id, made, epoch, now, fault);
    if (!stamped) return { errors: [{ field: "", value: "", say: NOT_ACCEPTED }] };
    this.host.wrote(stamped.wrote);
    return { entry: stamped.entry.name };
  }
}
