// What this device remembers for its person between visits: initials, choices, half-written notes.
// Nothing of the record is kept here.
import { signal, type Signal } from "@preact/signals";
import { isPlayed } from "./time";

const PREFIX = "sinkside.";

/** A signal whose value outlives the page. Where the browser keeps nothing, it lives as long as the page. */
export function remembered<T>(key: string, first: T, ok: (v: unknown) => v is T): Signal<T> {
  const s = signal<T>(recall(key, first, ok));
  s.subscribe((v) => keep(key, v));
  return s;
}

export function recall<T>(key: string, first: T, ok: (v: unknown) => v is T): T {
  try {
    const v: unknown = JSON.parse(localStorage.getItem(PREFIX + key) ?? "null");
    return ok(v) ? v : first;
  } catch {
    return first;
  }
}

/** Keeps a value; an empty string, null or an empty list forgets it. */
export function keep(key: string, v: unknown): void {
  try {
    const empty = v === "" || v === null || (Array.isArray(v) && v.length === 0);
    if (empty) localStorage.removeItem(PREFIX + key);
    else localStorage.setItem(PREFIX + key, JSON.stringify(v));
  } catch {
    // A full or forbidden storage costs the person a choice made again, nothing of the record.
  }
}

export function isText(v: unknown): v is string {
  return typeof v === "string";
}

export function isTextMap(v: unknown): v is Record<string, string> {
  return typeof v === "object" && v !== null && Object.values(v).every(isText);
}

export function isTexts(v: unknown): v is string[] {
  return Array.isArray(v) && v.every(isText);
}

/** Initials of whoever is at the sink. Empty until someone has said. Who is at a sink that is played is not remembered. */
export const who = signal(recall("who", "", isText));

/** Initials used on this device, latest first. */
export const whoBefore = remembered("whoBefore", [], isTexts);

export function setWho(initials: string): void {
  who.value = initials;
  if (isPlayed()) return;
  keep("who", initials);
  whoBefore.value = [initials, ...whoBefore.value.filter((w) => w !== initials)].slice(0, 6);
}

export type Theme = "device" | "light" | "dim";
const isTheme = (v: unknown): v is Theme => v === "device" || v === "light" || v === "dim";

export const theme = remembered<Theme>("theme", "device", isTheme);

export type PressWay = "hold" | "twice";
const isWay = (v: unknown): v is PressWay => v === "hold" || v === "twice";

/** How this device's person changes the record: a held press, or two presses for who cannot hold. */
export const pressWay = remembered<PressWay>("pressWay", "hold", isWay);
