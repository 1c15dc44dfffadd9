// Keeping an entry from a question that is open: who signs it, what went wrong, what is said when it is there.
import type { Core } from "../../core/api";
import { record } from "../base/acts";
import { who } from "../base/remember";
import type { Bench } from "./bench";

export const NOBODY = "Say who is at the sink first: Back, then the key at the top.";

interface Kept {
  kind: string;
  body: object;
  at?: string;
}

/** Resolves with a sentence when it could not be kept; then what was typed must stay. */
export async function keepEntry(core: Core, bench: Bench, d: Kept, say: string): Promise<string> {
  if (!who.peek()) return NOBODY;
  const wrong = await record(core, { job: bench.state.job, ...d }, say);
  return wrong.map((w) => w.say).join(" ");
}

/** As `keepEntry`, and closes the question that asked. */
export async function keepAndClose(core: Core, bench: Bench, d: Kept, say: string): Promise<string> {
  const wrong = await keepEntry(core, bench, d, say);
  if (wrong === "") bench.ask(null);
  return wrong;
}

/** The step that a reading or an act belongs to, as its body names it. */
export function ofStep(bench: Bench): { of?: string } {
  return bench.shown ? { of: bench.shown.entry } : {};
}
