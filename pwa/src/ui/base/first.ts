// Keeps the bath that runs in the treatment that is shown, for the first paint of the next start.
import { effect } from "@preact/signals";
import type { Core, State } from "../../core/api";
import { keepFirst, type First } from "../../early/first";
import { route } from "../route";
import { stepName } from "../treatment";

export function startFirst(core: Core): void {
  effect(() => {
    const at = route.value;
    if (at.at !== "sink") return;
    const state = core.dossier(at.job).value;
    if (state) keepFirst(firstOf(state, core.status.value.offset_ms));
  });
}

/** Null where nothing runs. */
export function firstOf(state: State, offset: number): First | null {
  const step = state.steps.filter((s) => !s.ended).at(-1);
  if (!step) return null;
  return { hash: `#/t/${state.job}`, say: stepName(step), begun: step.begun.ms, targetS: step.target_s, offset };
}
