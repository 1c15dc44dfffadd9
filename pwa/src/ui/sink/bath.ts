// The next bath as it is being chosen, and where its first values come from.
import type { Core, State, Step } from "../../core/api";
import { keep, recall } from "../base/remember";

export type What = "presoak" | "wash" | "rinse";
export const WHATS: readonly What[] = ["presoak", "wash", "rinse"];

export interface Bath {
  what: What;
  liquid: string;
  /** As typed; empty while nobody has said. */
  litres: string;
  /** Minutes, as typed. */
  minutes: string;
}

const NOTHING = { liquid: "", litres: "", minutes: "" };

/** Like the last bath of this treatment; else like the last that this device began. */
export function firstBath(state: State): Bath {
  const last = state.steps.at(-1);
  const what = last && isWhat(last.what) ? last.what : recall<What>("bath", "wash", isWhat);
  return bathLike(state, what);
}

/** The values of the last bath of this kind, here or on this device; else of the last bath of any kind here. */
export function bathLike(state: State, what: What): Bath {
  const same = state.steps.filter((s) => s.what === what).at(-1);
  if (same) return fromStep(what, same);
  const remembered = recall<Bath | null>(`bath.${what}`, null, isBath);
  if (remembered) return { ...remembered, what };
  const any = state.steps.at(-1);
  return any ? fromStep(what, any) : { what, ...NOTHING };
}

function fromStep(what: What, s: Step): Bath {
  return { what, liquid: s.liquid, litres: s.litres, minutes: s.target_s > 0 ? String(s.target_s / 60) : "" };
}

export function rememberBath(b: Bath): void {
  keep("bath", b.what);
  keep(`bath.${b.what}`, b);
}

/** Liquids to choose from: those of this treatment first, then the studio's shelf. */
export function liquidsFor(core: Core, state: State): string[] {
  const here = state.steps.map((s) => s.liquid).reverse();
  return [...new Set([...here, ...core.shelf.value.liquids])].filter(Boolean);
}

/** Whole seconds of a time typed in minutes, as text; what is no number is handed on for the core to judge. */
export function targetSeconds(minutes: string): number | string {
  const n = Number(minutes.replace(",", "."));
  return minutes.trim() === "" || Number.isNaN(n) ? minutes : Math.round(n * 60);
}

function isWhat(v: unknown): v is What {
  return WHATS.includes(v as What);
}

export function isBath(v: unknown): v is Bath {
  if (typeof v !== "object" || v === null) return false;
  const b = v as Record<string, unknown>;
  return isWhat(b["what"]) && [b["liquid"], b["litres"], b["minutes"]].every((x) => typeof x === "string");
}
