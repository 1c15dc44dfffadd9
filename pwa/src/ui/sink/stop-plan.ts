// The steps of a stop plan as the screen leads through them.
import type { Abort, State, StopPlan } from "../../core/api";

/** Stands on every step: the one thing that must never be done. */
export const NEVER_LIFT = "Never lift a filled tray: drain it.";

/** Where the core has not said yet what was agreed. General practice, and marked as such. */
const GENERAL: StopPlan = {
  steps: [
    "Drain the tray.",
    "Lift on the screen, two people where it is heavy.",
    "Blot both faces with fresh blotters.",
    "Fans on, cool air.",
    "Fresh absorbent on both faces, and look at it.",
  ],
  generic: true,
  caution: "Flushing can spread a dye: flush only if you have decided so for this object.",
};

export function stopPlan(plan: StopPlan | undefined): StopPlan {
  return plan && plan.steps.length > 0 ? plan : GENERAL;
}

/** The latest stop that nobody has given a reason for. */
export function abortWithoutReason(state: State): Abort | null {
  return state.aborts.filter((a) => a.reason === "").at(-1) ?? null;
}

/** The stop that its face is about: the latest. */
export function latestAbort(state: State): Abort | null {
  return state.aborts.at(-1) ?? null;
}
