// Ids of one and the same device: a copied or restored phone goes on under a second id, and both count.
import type { Device } from "./machine";

/** Other ids of this device that may still come in. Who shuts out a lost phone must shut out these too. */
export function stillIn(device: Device, all: readonly Device[]): Device[] {
  const first = firstOf(device, all);
  return all.filter((d) => d.id !== device.id && d.revoked_ms === 0 && firstOf(d, all) === first);
}

/** The id that was paired with a code. */
function firstOf(device: Device, all: readonly Device[]): string {
  let at = device;
  for (let i = 0; i < all.length; i++) {
    const before = all.find((d) => d.id === at.succeeds);
    if (!before) break;
    at = before;
  }
  return at.id;
}
