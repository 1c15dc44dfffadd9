// The checklist's three states in words. That nobody has looked is a state of its own and never told as a no.
import type { FieldValue, State, Tick } from "../../core/api";

export type TickState = "done" | "not-done" | "not-looked-at" | "choose";

export function tickState(t: Tick): TickState {
  const [first, second] = t.is;
  if (!first) return "not-looked-at";
  if (second) return "choose";
  return first.value === "yes" ? "done" : "not-done";
}

export const TICK_WORDS: Readonly<Record<TickState, string>> = {
  done: "done",
  "not-done": "not done",
  "not-looked-at": "not looked at",
  choose: "two answers",
};

/** Items that are not done: nobody looked, somebody said no, or two answers stand side by side. */
export function openItems(checklist: readonly Tick[]): Tick[] {
  return checklist.filter((t) => tickState(t) !== "done");
}

/** "11 of 14 done, 1 not done, 2 not looked at" */
export function tally(checklist: readonly Tick[]): string {
  const n = (s: TickState) => checklist.filter((t) => tickState(t) === s).length;
  const rest = (["not-done", "not-looked-at", "choose"] as const)
    .filter((s) => n(s) > 0)
    .map((s) => `${n(s)} ${s === "choose" ? "with two answers" : TICK_WORDS[s]}`);
  return [`${n("done")} of ${checklist.length} done`, ...rest].join(", ");
}

/** The entry's body that says whether an item is done, in place of all that stands. */
export function tickBody(t: Tick, value: "yes" | "no"): Record<string, unknown> {
  return { field: `check.${t.item}`, value, over: t.is.map((v) => v.entry) };
}

/** Pressing what stands already would only make the log longer. */
export function isSame(t: Tick, value: "yes" | "no"): boolean {
  return t.is.length === 1 && t.is[0]?.value === value;
}

/** "RV says done, OT says not done" */
export function answersSay(is: readonly FieldValue[]): string {
  return is.map((v) => `${v.by} says ${v.value === "yes" ? "done" : "not done"}`).join(", ");
}

/** Values of a field that no other has replaced. */
export function valuesOf(state: State, field: string): readonly FieldValue[] {
  return state.fields[field] ?? [];
}
