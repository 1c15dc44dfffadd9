import { photoBytes } from "../journal/photos";
import type { DB } from "../journal/schema";

type Sum = (bytes: Uint8Array) => Promise<string>;

const JPEG = "image/jpeg";
const PATIENCE_MS = 30_000;

/** The SHA-256 of bytes, base64url; `core` works it out where the browser does not. */
export async function nameOf(bytes: Uint8Array<ArrayBuffer>, core: Sum): Promise<string> {
  // Only there in a secure context.
  const subtle = (globalThis.crypto as Crypto | undefined)?.subtle as SubtleCrypto | undefined;
  if (!subtle) return core(bytes);
  const sum = new Uint8Array(await subtle.digest("SHA-256", bytes));
  return btoa(String.fromCharCode(...sum))
    .replace(/\+/g, "-")
    .replace(/\//g, "_")
    .replace(/=+$/, "");
}

/** A photograph from the phone, or else from the studio machine; null when it is not to be had. */
export async function findPhoto(db: DB, blob: string, core: Sum): Promise<Blob | null> {
  const kept = await photoBytes(db, blob);
  if (kept) return new Blob([kept], { type: JPEG });
  try {
    const response = await fetch(`/api/blobs/${encodeURIComponent(blob)}`, {
      credentials: "same-origin",
      signal: AbortSignal.timeout(PATIENCE_MS),
    });
    if (response.status !== 200) return null;
    const bytes = new Uint8Array(await response.arrayBuffer());
    return (await nameOf(bytes, core)) === blob ? new Blob([bytes], { type: JPEG }) : null;
  } catch {
    return null;
  }
}
