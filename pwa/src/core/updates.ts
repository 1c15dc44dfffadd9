import { signal } from "@preact/signals";

const LOOK_EVERY_MS = 60 * 60 * 1000;

/**
 * Registers the service worker and watches for a newer app. A newer one waits until the person takes
 * it: nothing is reloaded under wet hands.
 */
export class Updates {
  /** A newer app has been fetched and waits. */
  readonly waiting = signal(false);
  private registration: ServiceWorkerRegistration | undefined;
  private applying = false;

  constructor() {
    if (!("serviceWorker" in navigator)) return;
    navigator.serviceWorker.addEventListener("controllerchange", () => {
      // The first worker ever takes over too; that needs no reload.
      if (this.applying) location.reload();
    });
    // After the first screen, which it must not slow down.
    if (document.readyState === "complete") void this.register();
    else addEventListener("load", () => void this.register(), { once: true });
  }

  apply(): void {
    const waiting = this.registration?.waiting;
    if (!waiting) return location.reload();
    this.applying = true;
    waiting.postMessage("take over");
  }

  /** Has what was no part of the first download fetched and kept, beside the library. */
  keepTheRest(): void {
    navigator.serviceWorker?.controller?.postMessage("keep the rest");
  }

  private async register(): Promise<void> {
    try {
      const r = await navigator.serviceWorker.register("/sw.js", { updateViaCache: "none" });
      this.registration = r;
      // A newer one may have been found while this call was under way.
      const follow = () => {
        r.installing?.addEventListener("statechange", () => this.look());
        this.look();
      };
      r.addEventListener("updatefound", follow);
      follow();
      const again = () => void r.update().catch(() => undefined);
      setInterval(again, LOOK_EVERY_MS);
      document.addEventListener("visibilitychange", () => {
        if (document.visibilityState === "visible") again();
      });
    } catch (e) {
      console.warn("the app cannot be kept for offline use:", e);
    }
  }

  private look(): void {
    this.waiting.value = Boolean(this.registration?.waiting && navigator.serviceWorker.controller);
  }
}
