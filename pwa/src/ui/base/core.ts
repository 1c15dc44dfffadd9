// How a screen reaches the core, and the time that clocks are painted with.
import { createContext } from "preact";
import { useContext } from "preact/hooks";
import { signal } from "@preact/signals";
import type { Core } from "../../core/api";

export const CoreContext = createContext<Core | null>(null);

export function useCore(): Core {
  const core = useContext(CoreContext);
  if (!core) throw new Error("this screen stands outside of the app");
  return core;
}

/** This device's time, refreshed a few times a second while the page is seen. Never counted: read anew each time. */
export const deviceNow = signal(Date.now());

/** The studio's time, which the times in a dossier are corrected to. Follows `deviceNow`. */
export function studioNow(core: Core): number {
  return deviceNow.value + core.status.value.offset_ms;
}

/** Starts refreshing `deviceNow`. A hidden page is throttled, so the time is read at once when it is seen again. */
export function startTime(): void {
  const read = () => (deviceNow.value = Date.now());
  setInterval(() => document.hidden || read(), 200);
  document.addEventListener("visibilitychange", read);
  window.addEventListener("pageshow", read);
}
