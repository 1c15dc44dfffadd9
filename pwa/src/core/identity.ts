import { allMeta, setMeta } from "../journal/meta";
import type { DB } from "../journal/schema";
import type { Standing } from "./standing";
import type { Successor } from "./successor";
import { whoAmI } from "./studio";

export interface IdentityHost {
  db: DB;
  standing: Standing;
  successor: Successor;
  /** This phone has its first id: drafts can be stamped. */
  named(): void;
  /** It goes on under another id; the entries of these treatments have changed. */
  renamed(jobs: string[]): Promise<void>;
  /** The studio machine knows us: connect, if that is not done. */
  connect(): Promise<void>;
  /** It does not. */
  shutOut(): void;
  after(ms: number, f: () => void): void;
  failed(e: unknown): void;
}

/** The studio machine was out of reach when it was to say who we are, or to give an id: it is asked again after this time. */
const RETRY_MS = 10_000;

/** Who this browser is to the studio machine, and how it comes to be somebody else. */
export class Identity {
  private looking: Promise<void> = Promise.resolve();
  private queued: Promise<void> | undefined;
  private again = false;

  constructor(private readonly host: IdentityHost) {}

  /** Asks the studio machine, and goes on as whom it says. */
  look(): Promise<void> {
    // Whoever asks while an answer is on its way may know better: it is asked once more.
    this.queued ??= this.looking.then(() => {
      this.queued = undefined;
      return (this.looking = this.ask());
    });
    return this.queued;
  }

  /** The studio machine refused chains of ours: another id must go on. */
  async forked(chains: { job: string; from: number }[]): Promise<void> {
    try {
      await this.host.successor.fork(chains);
      await this.goOn();
    } catch (e) {
      this.host.failed(e);
    }
  }

  private async ask(): Promise<void> {
    try {
      const who = await whoAmI();
      if (who?.known) await this.known(who);
      else if (who) await this.unknown(who.revoked);
      // A browser that evicted our store kept its cookie: nothing else would try to reach the studio machine.
      else if (!this.host.standing.status.paired) this.askAgain();
      if (this.host.standing.status.paired) await this.goOn();
    } catch (e) {
      this.host.failed(e);
    }
  }

  private askAgain(): void {
    if (this.again) return;
    this.again = true;
    this.host.after(RETRY_MS, () => {
      this.again = false;
      void this.look();
    });
  }

  private async known(who: { dev: string; label: string; studio: string }): Promise<void> {
    const { db, standing } = this.host;
    const { dev, label, studio } = who;
    const before = (await allMeta(db)).dev;
    await Promise.all([setMeta(db, "label", label), setMeta(db, "studio", studio), setMeta(db, "revoked", false)]);
    standing.set({ paired: true, revoked: false, label, studio });
    if (before === "") {
      await setMeta(db, "dev", dev);
      standing.set({ dev });
      this.host.named();
    } else if (before !== dev) {
      await this.host.successor.renamed(before, dev);
    }
  }

  private async unknown(revoked: boolean): Promise<void> {
    await setMeta(this.host.db, "revoked", revoked);
    this.host.shutOut();
    this.host.standing.set({ paired: false, revoked, link: "off" });
  }

  /** Carries out a succession that is noted, and connects as whoever we are then. */
  private async goOn(): Promise<void> {
    const changed = await this.host.successor.carryOut();
    if (changed === "waiting") {
      this.askAgain();
    } else if (changed) {
      this.host.standing.set({ dev: changed.dev });
      await this.host.renamed(changed.jobs);
    }
    await this.host.connect();
  }
}
