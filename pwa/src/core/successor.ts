import { carryOut, noteSuccession, type Reissuer } from "../journal/succession";
import { getMeta } from "../journal/meta";
import type { DB } from "../journal/schema";
import type { CoreHost } from "./host";
import { newNonce } from "./ids";
import * as ops from "./link-ops";
import { claimSuccessor } from "./studio";

export interface SuccessorHost {
  db: DB;
  epoch: number;
  core: CoreHost;
}

/**
 * Takes this phone from one device id to the next: after a fork, and when its browser was paired
 * anew. Each step is kept before the next is taken, so that it goes on after a crash where it stood.
 */
export class Successor {
  constructor(private readonly host: SuccessorHost) {}

  /** The studio machine holds other entries in chains of ours. */
  async fork(forked: { job: string; from: number }[]): Promise<void> {
    const { db, epoch } = this.host;
    await noteSuccession(db, { nonce: newNonce(), old: await getMeta(db, "dev"), next: "", forked }, epoch);
  }

  /** The studio machine calls this browser by another id than it has had. */
  async renamed(old: string, next: string): Promise<void> {
    const { db, epoch } = this.host;
    const pending = await getMeta(db, "succession");
    // Perhaps the answer to a claim was lost: then this is the id that it gave.
    await noteSuccession(db, { nonce: "", old, next, forked: pending?.forked ?? [] }, epoch);
  }

  /** Carries out what is noted; undefined when that is nothing. */
  async carryOut(): Promise<{ dev: string; jobs: string[] } | "waiting" | undefined> {
    const { db, epoch, core } = this.host;
    let s = await getMeta(db, "succession");
    if (!s) return undefined;
    if (s.next === "") {
      const next = await claimSuccessor(s.nonce);
      if (next === "") return "waiting";
      s = { ...s, next };
      await noteSuccession(db, s, epoch);
    }
    if (!(await core.ready())) return "waiting";
    const jobs = await carryOut(db, this.reissuer, s, epoch);
    return { dev: s.next, jobs };
  }

  private readonly reissuer: Reissuer = {
    reissue: (old, dev, heads) => {
      const rows = this.host.core.try((c) => ops.reissue(c, old, dev, heads));
      if (!rows) throw new Error("the core is not up");
      return rows;
    },
  };
}
