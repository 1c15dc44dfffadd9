import type { Status } from "./api";

/** Nothing known yet. */
export const unknownStatus: Status = {
  paired: false,
  revoked: false,
  dev: "",
  label: "",
  studio: "",
  link: "off",
  unsent: 0,
  drafts: 0,
  leader: false,
  core: "loading",
  persisted: false,
  usage: 0,
  quota: 0,
  storageLow: false,
  offset_ms: 0,
  armed: 0,
  update: false,
  diskFull: false,
  problem: "",
};

/** Sentences for the person, in the order in which they matter; the first one is shown. */
export interface Problems {
  /** The phone could not keep something. */
  storage: string;
  core: string;
  tab: string;
  studio: string;
}

/** Holds the status and tells of changes, several at once as one. */
export class Standing {
  private now: Status = unknownStatus;
  private problems: Problems = { storage: "", core: "", tab: "", studio: "" };
  private telling = false;
  private begun = false;

  constructor(private readonly tell: (s: Status) => void) {}

  get status(): Status {
    return this.now;
  }

  /** What the database says. Before it nothing is told but problems: the screens show what the last run said. */
  begin(part: Partial<Omit<Status, "problem">>): void {
    this.begun = true;
    this.set(part);
  }

  set(part: Partial<Omit<Status, "problem">>): void {
    this.change({ ...this.now, ...part });
  }

  problem(part: Partial<Problems>): void {
    this.problems = { ...this.problems, ...part };
    const { storage, core, tab, studio } = this.problems;
    this.change({ ...this.now, problem: storage || core || tab || studio });
  }

  private change(next: Status): void {
    const keys = Object.keys(next) as (keyof Status)[];
    if (keys.every((k) => next[k] === this.now[k])) return;
    this.now = next;
    if (this.telling || !(this.begun || next.problem)) return;
    this.telling = true;
    queueMicrotask(() => {
      this.telling = false;
      this.tell(this.now);
    });
  }
}
