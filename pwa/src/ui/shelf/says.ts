// What stands on the shelf, in a line each.
import type { Batch, Instrument, Water } from "../../core/api";
import { when } from "../base/words";
import { CHARGES, INSTRUMENT, WATER, type ItemField } from "./items";

type Choices = readonly (readonly [string, string])[];

function word(choices: Choices, value: string): string {
  return choices.find(([v]) => v === value)?.[1] ?? value;
}

function choicesOf(fields: readonly ItemField[], name: string): Choices {
  return fields.find((f) => f.name === name)?.choices ?? [];
}

function list(parts: readonly (string | false)[]): string {
  return parts.filter(Boolean).join(", ");
}

export function waterSays(w: Water, now: number): string {
  const at = w.compensated ? " at 25 °C" : w.liquor_c ? ` at ${w.liquor_c} °C` : "";
  return list([
    w.source && word(choicesOf(WATER, "source"), w.source),
    w.conductivity ? `${w.conductivity} µS/cm${at}` : "conductivity not measured",
    w.ph && `pH ${w.ph}`,
    w.hardness && `hardness ${w.hardness} ${w.hardness_unit}`.trim(),
    w.stock_l && `${w.stock_l} L there`,
    w.make_l_h && `made at ${w.make_l_h} L/h`,
    `${w.by} ${when(w.at_ms, now)}`,
  ]);
}

export function instrumentSays(i: Instrument, now: number): string {
  const measures = i.measures.map((m) => word(choicesOf(INSTRUMENT, "measures"), m));
  return list([
    measures.length > 0 ? measures.join(" and ") : "what it measures is not said",
    i.compensates && "gives conductivity at 25 °C by itself",
    i.calibrated_ms === null ? "calibration not said" : `calibrated ${when(i.calibrated_ms, now)}`,
    i.note,
  ]);
}

export function batchSays(b: Batch, now: number): string {
  return list([
    b.product,
    b.charge !== "" && word(CHARGES, b.charge),
    b.target && `${b.target} ${b.unit}`,
    b.litres && `${b.litres} L`,
    b.water && `in ${b.water}`,
    b.cmc_g_l ? false : b.charge !== "" && b.charge !== "none" && "CMC not known",
    b.ph && `pH ${b.ph}`,
    `made ${when(b.made_ms, now)}, entered by ${b.by}`,
  ]);
}

/** Whether a batch may still be used, as far as anybody said. */
export function batchStands(b: Batch, now: number): { say: string; is: "gone" | "expired" | "good" | "open" } {
  if (b.gone) return { say: "used up or poured away", is: "gone" };
  if (b.expires_ms === null) return { say: "no end was set", is: "open" };
  if (b.expires_ms <= now) return { say: `past its expiry since ${when(b.expires_ms, now)}`, is: "expired" };
  return { say: `good until ${when(b.expires_ms, now)}`, is: "good" };
}
