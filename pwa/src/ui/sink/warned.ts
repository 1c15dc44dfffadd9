// Which warnings hold at a time.
import type { Warning } from "../../core/api";

/** Warnings that hold now: what is past a limit before what to look at, the latest of each first. */
export function holding(list: readonly Warning[], nowMs: number): Warning[] {
  return list
    .filter((w) => w.from_ms <= nowMs)
    .sort((a, b) => Number(b.tone === "limit") - Number(a.tone === "limit") || b.from_ms - a.from_ms);
}
