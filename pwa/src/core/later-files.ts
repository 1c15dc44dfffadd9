// Files that the app does not need from its first minute, the library of reckonings first of all. They are fetched when
// the app is up, and kept beside the app's own files for when there is no network.

const CACHE = "library";

/** A file from this device where it is kept, else from the studio machine; then it is kept. */
export async function laterFile(url: string): Promise<Response> {
  const cache = await openCache();
  const kept = await cache?.match(url);
  if (kept) return kept;
  const got = await fetch(url);
  if (!got.ok) throw new Error(`${url}: ${got.status}`);
  await cache?.put(url, got.clone());
  return got;
}

export const libraryFile = (): Promise<Response> => laterFile(__LIBRARY_URL__);

export async function isLibraryKept(): Promise<boolean> {
  return (await (await openCache())?.match(__LIBRARY_URL__)) !== undefined;
}

/** Lets go of such files of other versions of the app. */
export async function dropOldFiles(now: readonly string[]): Promise<void> {
  const cache = await openCache();
  for (const request of (await cache?.keys()) ?? []) {
    if (!now.includes(new URL(request.url).pathname)) await cache?.delete(request);
  }
}

/** A browser may offer none, or refuse it for want of room: then the network alone is left. */
async function openCache(): Promise<Cache | undefined> {
  try {
    return await caches.open(CACHE);
  } catch {
    return undefined;
  }
}
