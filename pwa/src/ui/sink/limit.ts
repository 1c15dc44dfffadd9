// The immersion clock against the tested dwell, as it is drawn and said.
import type { Limit } from "../../core/api";
import { duration } from "../base/words";

/** "90 min", "2 h 30 min": a dwell as people say it. */
export function dwellSays(s: number): string {
  return s <= 120 * 60 && s % 60 === 0 ? `${s / 60} min` : duration(s * 1000);
}

/** What stands above the time immersed. */
export function limitLabel(limit: Limit | null): string {
  return limit && limit.s > 0 ? `Immersed, of ${dwellSays(limit.s)} tested` : "Immersed";
}

/** What is missing of the tests; empty where every colour has one that fits. */
export function limitLacks(limit: Limit | null): string {
  if (!limit || (limit.s > 0 && limit.untested.length === 0)) return "";
  const colours = limit.untested.map((u) => u.split(":")[0] ?? u);
  // Why none fits is behind the tile where it would be too much for it.
  if (limit.say.length > 64 && colours.length > 0) return `No test that fits: ${colours.join(", ")}.`;
  return limit.say || "No test recorded.";
}

export interface LimitBar {
  /** Parts of the bar's width, 0 to 1: until the tested dwell, and past it. */
  gone: number;
  over: number;
  /** Where 80 % and all of it lie. */
  mark: number;
  end: number;
  is: "within" | "near" | "past";
}

/** The bar; null where no dwell is known, so that nothing pretends to be a limit. */
export function limitBar(limit: Limit | null, immersedMs: number): LimitBar | null {
  if (!limit || limit.s <= 0) return null;
  const s = Math.max(0, immersedMs / 1000);
  const whole = Math.max(limit.s, s);
  return {
    gone: Math.min(s, limit.s) / whole,
    over: Math.max(0, s - limit.s) / whole,
    mark: limit.mark_s / whole,
    end: limit.s / whole,
    is: s >= limit.s ? "past" : s >= limit.mark_s ? "near" : "within",
  };
}
