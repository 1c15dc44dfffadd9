// Acts of this person on this page: written through the core, and open to be taken back for a while.
import { signal } from "@preact/signals";
import type { Core, WriteRequest } from "../../core/api";
import { isFieldErrors } from "../../core/api";
import { SHELF } from "../../core/ids";
import { setWho, who } from "./remember";
import { nowMs } from "./time";

/** A sentence about a field; about the whole where `field` is empty. */
export interface Wrong {
  field: string;
  say: string;
}

/** How long an act can be taken back without a word. Later it is struck in the log, with a reason. */
export const TAKE_BACK_MS = 60_000;

export interface Act {
  job: string;
  entry: string;
  /** "Wash begun at 10:02" */
  say: string;
  /** Device time in milliseconds. */
  at: number;
}

/** Latest first. */
export const acts = signal<Act[]>([]);

/** The latest act in this treatment that can still be taken back. */
export function latestAct(job: string, now: number): Act | null {
  // Beside a day that is played, what was done in earnest lies in the future.
  return acts.value.find((a) => a.job === job && Math.abs(now - a.at) < TAKE_BACK_MS) ?? null;
}

/**
 * Writes an entry of who is at the sink, or of `by`. Resolves with what is wrong, or with nothing when it is durable on
 * this device.
 */
export async function record(
  core: Core,
  d: Omit<WriteRequest, "by"> & { by?: string },
  say?: string,
): Promise<Wrong[]> {
  try {
    const written = await core.write({ ...d, by: d.by ?? who.peek() });
    if (say && !isDraft(written.entry))
      acts.value = [{ job: d.job, entry: written.entry, say, at: nowMs() }, ...acts.value].slice(0, 20);
    return [];
  } catch (e) {
    return faults(e);
  }
}

/** What was written while the core was loading has no name yet by which it could be struck. */
function isDraft(entry: string): boolean {
  return entry.length === 26;
}

export async function takeBack(core: Core, a: Act): Promise<Wrong[]> {
  const wrong = await record(core, { job: a.job, kind: "strike", body: { of: a.entry, why: "taken back" } });
  if (wrong.length === 0) acts.value = acts.value.filter((x) => x !== a);
  return wrong;
}

/** What a rejected write says, as sentences. */
export function faults(e: unknown): Wrong[] {
  if (isFieldErrors(e)) return e;
  const say = e instanceof Error && e.message ? e.message : "something went wrong on this device";
  return [{ field: "", say: `Not kept: ${say}. What you entered is still here.` }];
}

/** The sentence for a field, or empty. */
export function faultAt(wrong: readonly Wrong[], field: string): string {
  return wrong.find((w) => w.field === field)?.say ?? "";
}

/** Sentences that belong to none of these fields. */
export function otherFaults(wrong: readonly Wrong[], fields: readonly string[]): string {
  return wrong
    .filter((w) => !fields.includes(w.field))
    .map((w) => w.say)
    .join(" ");
}

/** Makes these initials the ones at the sink, and puts new ones on the studio's shelf. */
export async function beAtSink(core: Core, initials: string): Promise<void> {
  setWho(initials);
  if (core.shelf.peek().initials.includes(initials)) return;
  await record(core, { job: SHELF, kind: "item", body: { what: "initials", name: initials } });
}

/** Puts a liquid on the studio's shelf unless it stands there. */
export async function shelveLiquid(core: Core, name: string): Promise<void> {
  if (core.shelf.peek().liquids.includes(name)) return;
  await record(core, { job: SHELF, kind: "item", body: { what: "liquid", name } });
}
