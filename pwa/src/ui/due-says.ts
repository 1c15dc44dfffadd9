// When something is due, in words: "at 10:12, in 2 min", "since 10:12, 2 min".
import { minutes, when } from "./base/words";
import type { DueThing } from "./board";

export function dueSays(due: DueThing, now: number): string {
  const left = due.at_ms - now;
  const at = when(due.at_ms, now);
  if (left < 0) return `${due.over ?? due.say} since ${at}, ${roughly(-left)}`;
  const today = /^\d\d:/.test(at);
  return `${due.say}${today ? ` at ${at}` : `, ${at}`}, in ${roughly(left)}`;
}

function roughly(ms: number): string {
  return ms < 60_000 ? "under 1 min" : minutes(ms);
}
