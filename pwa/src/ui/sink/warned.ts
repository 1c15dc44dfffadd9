// Which warnings hold at a time.
import type { State, Step, Warning } from "../../core/api";
import { stepName } from "../treatment";

/** Warnings that hold now: what is past a limit before what to look at, the latest of each first. */
export function holding(list: readonly Warning[], nowMs: number): Warning[] {
  return list
    .filter((w) => w.from_ms <= nowMs)
    .sort((a, b) => Number(b.tone === "limit") - Number(a.tone === "limit") || b.from_ms - a.from_ms);
}

/** How far this device's clock may stand before a begin until it is called wrong, in milliseconds. */
const BEHIND_MS = 60_000;

/** What only the screen can know: that its clock was set back, and that nobody is rung for what is closed though it is wet or runs. */
export function ownWarnings(state: State, nowMs: number): Warning[] {
  const out: Warning[] = [];
  const warn = (id: string, say: string) => out.push({ id, from_ms: 0, tone: "limit", say, of: "" });
  const ahead = state.steps.find((s) => !s.ended && s.begun.ms > nowMs + BEHIND_MS);
  if (ahead)
    warn(
      "clock",
      `${stepName(ahead)} began later than this device’s clock says it is now. Set the clock; time by another.`,
    );
  const goesOn = state.wet_since_ms !== null || state.steps.some((s) => !s.ended);
  if (!state.open && goesOn)
    warn("closed", "This treatment is closed: no device rings for it. It can be opened again.");
  return out;
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
