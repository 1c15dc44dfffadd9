// How much room the phone has. What is told here must come before it is too late: a browser gives no
// warning of its own, it only refuses.

export interface Room {
  usage: number;
  quota: number;
  low: boolean;
}

/** Below this much free room, or this share of the quota, the person is told. A wash day writes under 2 MB. */
const LOW_BYTES = 20_000_000;
const LOW_SHARE = 0.05;

export function roomOf(usage: number, quota: number): Room {
  const free = quota - usage;
  return { usage, quota, low: quota > 0 && free < Math.max(LOW_BYTES, LOW_SHARE * Math.min(quota, 1e9)) };
}

/** Asks the browser; zeros where it does not say (old WebKit). */
export async function askRoom(): Promise<Room> {
  try {
    const { usage = 0, quota = 0 } = await navigator.storage.estimate();
    return roomOf(usage, quota);
  } catch {
    return { usage: 0, quota: 0, low: false };
  }
}

/** True of the error that a browser gives when it keeps no more. */
export function isFull(e: unknown): boolean {
  return e instanceof DOMException && e.name === "QuotaExceededError";
}
