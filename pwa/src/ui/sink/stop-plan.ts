// What the screens need of a stop. Its steps, agreed or general, are the core's.
import type { Abort, State } from "../../core/api";

/** Stands on every step: the one thing that must never be done. */
export const NEVER_LIFT = "Never lift a filled tray: drain it.";

/** The latest stop that nobody has given a reason for. */
export function abortWithoutReason(state: State): Abort | null {
  return state.aborts.filter((a) => a.reason === "").at(-1) ?? null;
}

/** The stop that is asked about: the latest that nobody has given a reason for, else the latest. */
export function askedAbort(state: State): Abort | null {
  return abortWithoutReason(state) ?? state.aborts.at(-1) ?? null;
}
