// Which warnings hold at a time.
import type { Step, Warning } from "../../core/api";

/** Warnings that hold now: what is past a limit before what to look at, the latest of each first. */
export function holding(list: readonly Warning[], nowMs: number): Warning[] {
  return list
    .filter((w) => w.from_ms <= nowMs)
    .sort((a, b) => Number(b.tone === "limit") - Number(a.tone === "limit") || b.from_ms - a.from_ms);
}

/** Kinds of warning that the face of the shown step says by itself: its clock, its keys, its next check, the tile of the tested dwell. */
const SAID = ["past:", "reading:", "check:", "outside:"];

/** Warnings that the screen does not say already in larger letters. */
export function unsaid(list: readonly Warning[], shown: Step | null): Warning[] {
  return list.filter((w) => w.of !== shown?.entry || !SAID.some((kind) => w.id.startsWith(kind)));
}

/** Entry of the step that was begun uncleared and has no reason yet; empty for none. */
export function owesReason(list: readonly Warning[]): string {
  return list.find((w) => w.id.startsWith("uncleared:"))?.of ?? "";
}
