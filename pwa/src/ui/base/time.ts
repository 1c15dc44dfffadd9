// The one place that asks the clock. Screens read the time here, so that a day can be played to them,
// and are drawn anew once a second, when the second changes.
import { signal } from "@preact/signals";
import type { Core } from "../../core/api";

/** This device's clock, in Unix milliseconds, whatever is played. What rings goes by it. */
export function clockMs(): number {
  return Date.now();
}

let played: (() => number) | null = null;

/** The time that screens show: this device's, or the one that is played. Unix milliseconds. */
export function nowMs(): number {
  return played ? played() : clockMs();
}

/** Screens show a time that is played. */
export function isPlayed(): boolean {
  return played !== null;
}

/**
 * The time that screens follow: `nowMs` in whole seconds, so that a clock neither skips a second nor shows one twice.
 * Never counted: read anew each time. It stands still while the page is hidden.
 */
export const deviceNow = signal(wholeSecond(nowMs()));

/** The studio's time, which the times in a dossier are corrected to. Follows `deviceNow`. */
export function studioNow(core: Core): number {
  return deviceNow.value + core.status.value.offset_ms;
}

/** Gives the screens another time instead of the device's, or the device's again. It may run faster. */
export function playTime(f: (() => number) | null): void {
  played = f;
  read();
  if (started) schedule();
}

/** How often a played time is looked at, in milliseconds. */
const PLAYED_MS = 200;

let started = false;
let timer: ReturnType<typeof setTimeout> | undefined;

/** Starts `deviceNow`. It is read at once when the page is seen again. */
export function startTime(): void {
  started = true;
  const look = () => {
    read();
    schedule();
  };
  document.addEventListener("visibilitychange", look);
  window.addEventListener("pageshow", look);
  look();
}

function schedule(): void {
  clearTimeout(timer);
  if (document.hidden) return;
  timer = setTimeout(
    () => {
      read();
      schedule();
    },
    played ? PLAYED_MS : untilNextSecond(clockMs()),
  );
}

function read(): void {
  deviceNow.value = wholeSecond(nowMs());
}

function wholeSecond(ms: number): number {
  return Math.floor(ms / 1000) * 1000;
}

/** Milliseconds until the second changes, from 1 to 1000. */
export function untilNextSecond(ms: number): number {
  return 1000 - (((Math.floor(ms) % 1000) + 1000) % 1000);
}
