// The file of unsent entries: JSON lines, first a head that says what it is, then each entry exactly
// as it was written. The studio machine imports it; a person can read it.
import type { DB, DraftRow } from "./schema";
import { allMeta } from "./meta";
import { allDrafts } from "./drafts";
import { chainFrom, waiting } from "./reading";

export interface UnsentHead {
  sinkside: "unsent";
  v: 1;
  dev: string;
  saved: string;
  /** Taps that never became entries, so that what was typed is not lost with the phone. */
  drafts?: Pick<DraftRow, "job" | "kind" | "body" | "at" | "by">[];
}

export interface Unsent {
  head: UnsentHead;
  lines: string[];
}

export function writeUnsent(u: Unsent): string {
  return [JSON.stringify(u.head), ...u.lines].map((l) => l + "\n").join("");
}

/** Reads what `writeUnsent` wrote; throws a sentence when it is something else. */
export function readUnsent(text: string): Unsent {
  const [first = "", ...lines] = text.split("\n");
  let head: unknown;
  try {
    head = JSON.parse(first);
  } catch {
    throw new Error("This is no file of unsent entries: its first line cannot be read.");
  }
  if (!isHead(head)) throw new Error("This is no file of unsent entries of a kind that is known here.");
  return { head, lines: lines.filter((l) => l !== "") };
}

function isHead(v: unknown): v is UnsentHead {
  return typeof v === "object" && v !== null && "sinkside" in v && v.sinkside === "unsent" && "v" in v && v.v === 1;
}

/** Everything of this phone that has not reached the studio machine. */
export async function collectUnsent(db: DB, saved: string): Promise<Unsent> {
  const meta = await allMeta(db);
  const lines: string[] = [];
  for (const w of await waiting(db, meta.dev)) {
    for (const row of await chainFrom(db, w.job, w.dev, w.from)) lines.push(row.line);
  }
  const drafts = (await allDrafts(db)).map(({ job, kind, body, at, by }) => ({ job, kind, body, at, by }));
  const head: UnsentHead = { sinkside: "unsent", v: 1, dev: meta.dev, saved, ...(drafts.length > 0 ? { drafts } : {}) };
  return { head, lines };
}
