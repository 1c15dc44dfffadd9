// What a begin records, and what it admits: the checklist's open items and a missing test are written
// down with the first one, never hidden, and stop nobody.
import type { State, Watch } from "../../core/api";
import { openItems } from "../ready/ticks";
import { targetSeconds, type Bath } from "./bath";
import { KINDS } from "./kinds";

/** The body of a begin. Fields that nobody has filled are left out. */
export function beginBody(b: Bath, state: State, watch: Watch | null): Record<string, unknown> {
  const body = b.what === "drying" ? dryingBody(b) : bathBody(b);
  if (b.where) body["where"] = b.where;
  return { ...body, ...admitted(b, state, watch) };
}

function bathBody(b: Bath): Record<string, unknown> {
  const body: Record<string, unknown> = { what: b.what, liquid: b.liquid };
  if (KINDS[b.what].litres === "needed" || b.litres) body["litres"] = b.litres;
  body["target_s"] = targetSeconds(b.minutes);
  if (b.temp) body["temp_c"] = b.temp;
  if (b.batch) body["batch"] = b.batch;
  if (b.planned > 0) body["planned"] = b.planned;
  return body;
}

function dryingBody(b: Bath): Record<string, unknown> {
  const body: Record<string, unknown> = {
    what: b.what,
    face: b.face,
    held: b.held,
    airflow: b.airflow,
    sides: Number(b.sides),
  };
  if (b.air) body["air_m_s"] = b.air;
  if (b.minutes) body["target_s"] = targetSeconds(b.minutes);
  return body;
}

/** Whether a wetting of the object would be its first. */
export function isFirstWetting(state: State): boolean {
  return !state.steps.some((s) => s.what !== "drying");
}

function admitted(b: Bath, state: State, watch: Watch | null): Record<string, unknown> {
  if (b.what === "drying" || !isFirstWetting(state)) return {};
  const open = openItems(state.checklist).map((t) => t.item);
  return {
    ...(open.length > 0 ? { unticked: open } : {}),
    ...(isUntested(watch) ? { uncleared: true } : {}),
  };
}

/** No tested dwell is known, or not for every colour. */
export function isUntested(watch: Watch | null): boolean {
  return watch !== null && (watch.dwell.s <= 0 || watch.dwell.untested.length > 0);
}
