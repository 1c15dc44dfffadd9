// The one bath that a start paints before anything else: kept by the app whenever it changes, read by
// a script of a few lines that runs long before the app has been read. Only ever shown, and replaced by
// the app as soon as that is there.

const KEY = "sinkside first";

/** Times in milliseconds; `offset` is the studio's time minus this device's. */
export interface First {
  /** Where it is shown, "#/t/01J…". */
  hash: string;
  /** "Rinse 2" */
  say: string;
  begun: number;
  targetS: number;
  offset: number;
}

/** Null lets go of it. */
export function keepFirst(f: First | null): void {
  try {
    if (f) localStorage.setItem(KEY, JSON.stringify(f));
    else localStorage.removeItem(KEY);
  } catch {
    // No room: the next start is a little slower to show the clock.
  }
}

/** What was kept for this address, if anything can be read. */
export function readFirst(hash: string): First | null {
  try {
    const f = JSON.parse(localStorage.getItem(KEY) ?? "null") as First | null;
    return f?.hash === hash && Number.isFinite(f.begun + f.targetS + f.offset) ? f : null;
  } catch {
    return null;
  }
}
