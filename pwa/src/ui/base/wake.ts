// Keeping the screen on while a bath runs.
import { signal } from "@preact/signals";

/** `off`: not asked for. `kept`: the screen stays on. `cannot`: this browser or its saving mode refuses. */
export const wake = signal<"off" | "kept" | "cannot">("off");

let wanted = 0;
let lock: WakeLockSentinel | null = null;
let asking = false;

/** Keeps the screen on until the returned function is called. */
export function keepAwake(): () => void {
  wanted++;
  void ask();
  return () => {
    wanted--;
    if (wanted === 0) void letGo();
  };
}

/** The browser lets go of the lock whenever the page is hidden, so it is asked for anew. */
export function startWake(): void {
  document.addEventListener("visibilitychange", () => void ask());
}

async function ask(): Promise<void> {
  if (wanted === 0 || lock || asking || document.visibilityState !== "visible") return;
  if (!("wakeLock" in navigator)) {
    wake.value = "cannot";
    return;
  }
  asking = true;
  try {
    const got = await navigator.wakeLock.request("screen");
    got.addEventListener("release", () => {
      if (lock !== got) return;
      lock = null;
      wake.value = wanted > 0 ? "cannot" : "off";
      void ask();
    });
    lock = got;
    wake.value = "kept";
  } catch {
    wake.value = "cannot";
  } finally {
    asking = false;
  }
  if (wanted === 0) await letGo();
}

async function letGo(): Promise<void> {
  const had = lock;
  lock = null;
  wake.value = "off";
  await had?.release().catch(() => undefined);
}
