// The next step as it is being chosen, and where its first values come from: the plan, the last bath of
// its kind, or what this device began last.
import type { Core, PlannedBath, State, Step, Watch } from "../../core/api";
import { keep, recall } from "../base/remember";
import { readNumber } from "../parts/pad";
import { isWhat, KINDS, kindAct, type What } from "./kinds";

/** Everything as typed; empty while nobody has said. */
export interface Bath {
  what: What;
  liquid: string;
  litres: string;
  minutes: string;
  /** Planned temperature, °C. */
  temp: string;
  /** Batch on the shelf. */
  batch: string;
  /** The tray or board. */
  where: string;
  /** Place in the plan that it follows, from 1; 0 for none. */
  planned: number;
  face: "up" | "down";
  held: "weights" | "pins" | "none";
  airflow: "still" | "gentle" | "fan";
  /** Air speed, m/s. */
  air: string;
  sides: "1" | "2";
}

export const NOTHING: Omit<Bath, "what"> = {
  liquid: "",
  litres: "",
  minutes: "",
  temp: "",
  batch: "",
  where: "",
  planned: 0,
  face: "up",
  held: "weights",
  airflow: "gentle",
  air: "",
  sides: "1",
};

/** As the plan has it; else like the last bath of this treatment; else like the last that this device began. */
export function firstBath(state: State, watch: Watch | null): Bath {
  const planned = plannedBath(state, watch);
  if (planned) return planned;
  const last = state.steps.filter((s) => s.what !== "drying").at(-1);
  const what = last && isWhat(last.what) ? last.what : recall<What>("bath", "wash", isWhat);
  return bathLike(state, what);
}

/** The plan that is followed; of two that stand side by side the later one, until people have chosen. */
export function planOf(state: State): readonly PlannedBath[] | null {
  return state.plans.at(-1)?.baths ?? null;
}

/** The next bath of the plan; null where the plan is over or there is none. */
export function plannedBath(state: State, watch: Watch | null): Bath | null {
  const place = watch?.next.place ?? 0;
  const b = place > 0 ? planOf(state)?.[place - 1] : undefined;
  if (!b || !isWhat(b.what)) return null;
  return {
    ...NOTHING,
    what: b.what,
    liquid: b.liquid,
    litres: b.litres,
    minutes: minutesOf(b.target_s),
    temp: b.temp_c,
    batch: b.batch,
    where: lastWhere(state, b.what),
    planned: place,
  };
}

/** "rinse 3 of 5, 12 L": a place of the plan among those of its kind. */
export function plannedSays(plan: readonly PlannedBath[], place: number): string {
  const b = plan[place - 1];
  if (!b) return "";
  const kin = plan.filter((o) => o.what === b.what);
  const of = kin.length > 1 ? ` ${kin.indexOf(b) + 1} of ${kin.length}` : "";
  return `${kindAct(b.what)}${of}${b.litres ? `, ${b.litres} L` : ""}`;
}

/** The values of the last step of this kind, here or on this device; else of the last of any kind here. */
export function bathLike(state: State, what: What): Bath {
  const same = state.steps.filter((s) => s.what === what).at(-1);
  if (same) return fromStep(what, same);
  const remembered = recall<Bath | null>(`bath.${what}`, null, isBath);
  if (remembered) return { ...remembered, what, batch: "", planned: 0 };
  const any = state.steps.filter((s) => s.what !== "drying").at(-1);
  if (!any || what === "drying") return { ...NOTHING, what };
  const like = fromStep(what, any);
  return { ...like, batch: "", litres: KINDS[what].litres === "needed" ? like.litres : "" };
}

/** Another kind than the plan has, unless it is the kind that the plan has next. */
export function bathOfKind(state: State, watch: Watch | null, what: What): Bath {
  const planned = plannedBath(state, watch);
  return planned?.what === what ? planned : bathLike(state, what);
}

function fromStep(what: What, s: Step): Bath {
  return {
    ...NOTHING,
    what,
    liquid: s.liquid,
    litres: s.litres,
    minutes: minutesOf(s.target_s),
    temp: s.temp_c,
    batch: s.batch,
    where: s.where,
    face: s.face === "down" ? "down" : "up",
    held: oneOf(s.held, ["weights", "pins", "none"], NOTHING.held),
    airflow: oneOf(s.airflow, ["still", "gentle", "fan"], NOTHING.airflow),
    air: s.air_m_s,
    sides: s.sides === 2 ? "2" : "1",
  };
}

/** Where the object lay last in the same sort of place: a tray for a bath, a board for drying. */
function lastWhere(state: State, what: What): string {
  return state.steps.filter((s) => (s.what === "drying") === (what === "drying")).at(-1)?.where ?? "";
}

function minutesOf(targetS: number): string {
  return targetS > 0 ? String(targetS / 60) : "";
}

function oneOf<T extends string>(v: string, of: readonly T[], or: T): T {
  return of.find((x) => x === v) ?? or;
}

export function rememberBath(b: Bath): void {
  keep("bath", b.what === "drying" ? "wash" : b.what);
  keep(`bath.${b.what}`, b);
}

/** Liquids to choose from: those of the plan and of this treatment first, then the studio's shelf. */
export function liquidsFor(core: Core, state: State): string[] {
  const planned = (planOf(state) ?? []).map((b) => b.liquid);
  const here = state.steps.map((s) => s.liquid).reverse();
  return [...new Set([...planned, ...here, ...core.shelf.value.liquids])].filter(Boolean);
}

/** Trays and boards that this treatment has used, and common ones. */
export function placesFor(state: State): string[] {
  const here = state.steps.map((s) => s.where).reverse();
  return [...new Set([...here, "large tray", "small tray", "drying board"])].filter(Boolean);
}

/**
 * Whole seconds of a time typed in minutes, as text, with the groups of thousands that the core reads elsewhere. What is
 * no number, or could be two, is handed on for the core to refuse.
 */
export function targetSeconds(minutes: string): number | string {
  const plain = minutes
    .trim()
    .replace(/^\+\s*/, "")
    .replace(/(\d)[\s'’](?=\d{3}(?!\d))/g, "$1");
  const n = /^[1-9]\d{0,2},\d{3}$/.test(plain) ? null : readNumber(plain);
  return n === null ? minutes : Math.round(n * 60);
}

const TEXTS = ["liquid", "litres", "minutes", "temp", "batch", "where", "air"] as const;

export function isBath(v: unknown): v is Bath {
  if (typeof v !== "object" || v === null) return false;
  const b = v as Record<string, unknown>;
  return (
    isWhat(b["what"]) &&
    TEXTS.every((k) => typeof b[k] === "string") &&
    typeof b["planned"] === "number" &&
    ["up", "down"].includes(String(b["face"])) &&
    ["weights", "pins", "none"].includes(String(b["held"])) &&
    ["still", "gentle", "fan"].includes(String(b["airflow"])) &&
    ["1", "2"].includes(String(b["sides"]))
  );
}
