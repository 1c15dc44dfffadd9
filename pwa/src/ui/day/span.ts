// A calendar day at this device's place, and times as the paper gives them.
import type { Moment } from "../../core/api";
import { dayKey, when } from "../base/words";

/** From its first millisecond to before the next day's; 23 or 25 hours where the clock changes. */
export interface Span {
  day: string;
  from: number;
  to: number;
}

/** `day` is 2026-03-04. */
export function spanOf(day: string): Span {
  const [y = 1970, m = 1, d = 1] = day.split("-").map(Number);
  return { day, from: new Date(y, m - 1, d).getTime(), to: new Date(y, m - 1, d + 1).getTime() };
}

export function isIn(span: Span, ms: number): boolean {
  return ms >= span.from && ms < span.to;
}

/** Whether anything between two times lies in the day; `to` is null for what still runs. */
export function touches(span: Span, from: number, to: number | null): boolean {
  return from < span.to && (to === null || to >= span.from);
}

/** "10:02:09" on that day, "24 November 10:02" on another. */
export function clock(span: Span, ms: number): string {
  if (dayKey(ms) !== span.day) return when(ms, span.from);
  const d = new Date(ms);
  return [d.getHours(), d.getMinutes(), d.getSeconds()].map((n) => String(n).padStart(2, "0")).join(":");
}

/** The author's own clock where it stood in another zone than this device's: "09:02 +01:00"; else empty. */
export function ownClock(m: Moment): string {
  const zone = /(Z|[+-]\d\d:\d\d)$/.exec(m.at)?.[1];
  if (!zone) return "";
  const east = zone === "Z" ? 0 : minutesEast(zone);
  if (east === -new Date(m.ms).getTimezoneOffset()) return "";
  const own = new Date(m.ms + east * 60_000).toISOString();
  return `${own.slice(11, 16)} ${zone === "Z" ? "+00:00" : zone}`;
}

function minutesEast(zone: string): number {
  const [h = 0, min = 0] = zone.slice(1).split(":").map(Number);
  return (zone.startsWith("-") ? -1 : 1) * (h * 60 + min);
}

/** With the full stop that its writer may have given already. */
export function sentence(text: string): string {
  return /[.!?…]["”’)]?$/.test(text.trim()) ? text.trim() : `${text.trim()}.`;
}
