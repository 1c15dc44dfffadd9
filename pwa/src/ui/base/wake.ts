// Keeping the screen on while a bath runs or a ring is awaited.
import { signal } from "@preact/signals";
import { SilentPicture } from "./silent-picture";

/** `off`: not asked for. `kept`: the screen stays on. `cannot`: this browser or its saving mode refuses. */
export const wake = signal<"off" | "kept" | "cannot">("off");

let wanted = 0;
let lock: WakeLockSentinel | null = null;
let asking = false;
const picture = new SilentPicture(() => wanted > 0 && (wake.value = "cannot"));

/** Keeps the screen on until the returned function is called. */
export function keepAwake(): () => void {
  wanted++;
  void ask();
  return () => {
    wanted--;
    if (wanted === 0) void letGo();
  };
}

/**
 * The browser lets go of the lock whenever the page is hidden, so it is asked for anew; where there is no lock, a picture
 * may play only after a touch.
 */
export function startWake(): void {
  document.addEventListener("visibilitychange", () => void ask());
  window.addEventListener("pointerup", () => void (wake.peek() === "cannot" && ask()), {
    capture: true,
    passive: true,
  });
}

async function ask(): Promise<void> {
  if (wanted === 0 || lock || asking || document.visibilityState !== "visible") return;
  asking = true;
  try {
    wake.value = (await askForLock()) || (await picture.play()) ? "kept" : "cannot";
  } finally {
    asking = false;
  }
  if (wanted === 0) await letGo();
}

async function askForLock(): Promise<boolean> {
  if (!("wakeLock" in navigator)) return false;
  try {
    const got = await navigator.wakeLock.request("screen");
    got.addEventListener("release", () => {
      if (lock !== got) return;
      lock = null;
      wake.value = wanted > 0 ? "cannot" : "off";
      void ask();
    });
    lock = got;
    picture.stop();
    return true;
  } catch {
    return false;
  }
}

async function letGo(): Promise<void> {
  const had = lock;
  lock = null;
  wake.value = "off";
  picture.stop();
  await had?.release().catch(() => undefined);
}
