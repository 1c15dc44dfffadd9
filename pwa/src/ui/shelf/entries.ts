// The shelf's log behind an item: which entries put it there, so that it can be taken off with a reason.
import type { Core, LogLine } from "../../core/api";
import { SHELF } from "../../core/ids";
import { wholeLog } from "../log/whole";

/** Entries that stand and put an item of this kind and name on the shelf. */
export async function entriesOf(core: Core, what: string, name: string): Promise<string[]> {
  const lines = await wholeLog(core, SHELF);
  return lines.filter((l) => stands(l, what, name)).map((l) => l.entry);
}

export function stands(l: LogLine, what: string, name: string): boolean {
  if (l.kind !== "item" || l.struck) return false;
  const latest = l.amended.filter((a) => a.stands && !a.struck).at(-1);
  const body = latest ? latest.body : l.body;
  return member(body, "what") === what && member(body, "name") === name;
}

function member(body: unknown, key: string): string {
  if (typeof body !== "object" || body === null) return "";
  const v = (body as Record<string, unknown>)[key];
  return typeof v === "string" ? v : "";
}
