// What passes between a tab's screens and its worker, and between the workers of several tabs.
import type { DraftRow } from "../journal/schema";
import type { FieldError, LogPage, Problem, Reckoning, Result, Status, Summary, UnsentFile } from "./api";
import type { Sent } from "./page-clock";

/** What became of a tap. */
export type Outcome =
  /** It is an entry, by this name. */
  | { entry: string }
  /** It is safe as a draft and will become an entry. */
  | { draft: string }
  /** A check refused it; nothing was written. */
  | { errors: FieldError[] };

/** A folded treatment as JSON texts: the receiver parses what it shows, and no more. */
export interface Shown {
  state: string;
  /** Empty for the studio's own log, of which nothing must be watched. */
  watch: string;
}

/** What only the tab that leads can answer. */
export interface LeaderCalls {
  /** Makes a saved draft an entry. */
  stamp(draft: string): Promise<Outcome>;
  /** The folded treatment, null while nothing is known. From now on changes are sent. */
  watch(job: string): Promise<Shown | null>;
  /** A treatment as it stood at a time of its log, in studio milliseconds. */
  asOf(job: string, ms: number): Promise<Shown | null>;
  /** Whether this tab would ring. Said again at times: a tab that closes says nothing. */
  arm(tab: string, armed: boolean): Promise<null>;
  open(job: string): Promise<null>;
  log(job: string, from: number, count: number): Promise<LogPage>;
  worked(job: string): Promise<Record<string, unknown>[]>;
  /** By one of the reckonings that the core of the log carries; the others are the desk's. */
  reckon(name: string, inputs: object): Promise<Result | { problems: Problem[] }>;
  /** Names bytes by their SHA-256, where the browser cannot. */
  sum(bytes: Uint8Array): Promise<string>;
  /** This browser has been paired, or must look again whether it is. */
  paired(): Promise<null>;
}

/** What a tab's own worker answers, the leader's calls passed on. */
export interface WorkerCalls extends LeaderCalls {
  tap(draft: DraftRow): Promise<Outcome>;
  /** A tap with a photograph; the worker completes the draft's body. */
  keepPhoto(draft: DraftRow, image: Blob): Promise<Outcome>;
  /** The photograph of this name; null when neither phone nor studio machine has it. */
  photo(blob: string): Promise<Blob | null>;
  unsentFile(): Promise<UnsentFile>;
  pair(code: string, label: string): Promise<{ ok: true } | { say: string }>;
}

/** What the worker of the library of reckonings answers. */
export interface DeskCalls {
  list(): Promise<Reckoning[]>;
  run(name: string, inputs: object): Promise<Result | { problems: Problem[] }>;
}

export interface FromDesk {
  reply: Reply;
}

/** What the leader tells all tabs. */
export interface News {
  status: Status;
  treatments: Summary[];
  /** Null: the treatment is gone. */
  folded: { job: string; shown: Shown | null };
}

export interface Request {
  id: string;
  method: string;
  args: unknown[];
}

export type Reply = { id: string; value: unknown } | { id: string; failed: string };

/** Each says when it was sent. */
export type ToWorker = Told & Sent;

export type Told =
  | { ask: Request }
  /** The person looks at this tab again. */
  | { nudge: true }
  /** The person looks away: the browser may end this tab without a word. */
  | { hidden: true }
  /** Whether this tab would ring. */
  | { arm: boolean };

export type FromWorker =
  | { reply: Reply }
  | { news: Partial<News> }
  /** Another tab's newer app waits for this one to let go of the database. */
  | { outdated: true }
  /** The database cannot be opened. */
  | { failed: string };

/** Between workers. `ask` goes to whoever leads; `hello` asks the leader for all its news. */
export type BetweenTabs =
  | { ask: Request; from: string }
  | { reply: Reply; to: string }
  | { news: Partial<News> }
  | { beat: { from: string; epoch: number } }
  | { hello: true };

/** Calls a method by name and makes a reply of what comes, for `serve` on the other side. */
export async function answer(calls: object, r: Request): Promise<Reply> {
  const method = (calls as Record<string, unknown>)[r.method];
  if (typeof method !== "function") return { id: r.id, failed: `there is no ${r.method}` };
  try {
    return { id: r.id, value: await (method as (...a: unknown[]) => unknown).apply(calls, r.args) };
  } catch (e) {
    return { id: r.id, failed: e instanceof Error ? e.message : String(e) };
  }
}
