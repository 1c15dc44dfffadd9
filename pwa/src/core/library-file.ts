// The file of the library of reckonings. It is no part of what the app needs from its first minute, so
// it is fetched when the app is up, and kept beside the app's own files for when there is no network.

const CACHE = "library";

/** The library, from this device where it is kept, else from the studio machine; then it is kept. */
export async function libraryFile(): Promise<Response> {
  const cache = await openCache();
  const kept = await cache?.match(__LIBRARY_URL__);
  if (kept) return kept;
  const got = await fetch(__LIBRARY_URL__);
  if (!got.ok) throw new Error(`the library of reckonings: ${got.status}`);
  await cache?.put(__LIBRARY_URL__, got.clone());
  return got;
}

export async function isLibraryKept(): Promise<boolean> {
  return (await (await openCache())?.match(__LIBRARY_URL__)) !== undefined;
}

/** Lets go of the libraries of other versions of the app. */
export async function dropOldLibraries(): Promise<void> {
  const cache = await openCache();
  for (const request of (await cache?.keys()) ?? []) {
    if (new URL(request.url).pathname !== __LIBRARY_URL__) await cache?.delete(request);
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
