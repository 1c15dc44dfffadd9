// What this browser is and what it can give.

/** iPhone or iPad. An iPad calls itself a Mac, but is touched. */
export function isIos(): boolean {
  return (
    /iPhone|iPad|iPod/.test(navigator.userAgent) ||
    (/Macintosh/.test(navigator.userAgent) && navigator.maxTouchPoints > 1)
  );
}

/** The app was opened from the home screen, not in a browser's tab. On iOS it has a storage of its own. */
export function isInstalled(): boolean {
  return (
    matchMedia("(display-mode: standalone)").matches || (navigator as { standalone?: boolean }).standalone === true
  );
}

/** What the device could not give, as sentences with what follows from it. */
export function lacks(): string[] {
  const out: string[] = [];
  if (!isSecureContext)
    out.push(
      "This address is not secure, so the app cannot be kept for times without a network. Pair it again over https.",
    );
  if (!("serviceWorker" in navigator))
    out.push("The app itself cannot be kept here: without a network it does not load.");
  if (!("wakeLock" in navigator))
    out.push(
      "It has no proper way to keep the screen on: a picture out of sight plays instead while a bath runs. Set the device's own screen time longer too.",
    );
  if (!("locks" in navigator)) out.push("Several tabs cannot agree on who writes: keep only one open.");
  if (!("AudioContext" in globalThis))
    out.push("It gives no sound: it shows what rings, and another device must be heard.");
  if (!("speechSynthesis" in globalThis)) out.push("It cannot speak: what rings is a figure of notes only.");
  if (!("vibrate" in navigator))
    out.push("It cannot tremble, when it rings or when a press is long enough: watch the button instead.");
  if (!("CompressionStream" in globalThis))
    out.push("Entries are sent uncompressed: slower on a poor network, nothing is lost.");
  return out;
}

/** Offers a text as a file to save. */
export async function saveFile(name: string, text: string, type: string): Promise<void> {
  const file = new File([text], name, { type });
  // An installed app on iOS has no downloads; it hands files on.
  if (isIos() && isInstalled() && navigator.canShare?.({ files: [file] })) {
    await navigator.share({ files: [file] });
    return;
  }
  const url = URL.createObjectURL(file);
  const a = document.createElement("a");
  a.href = url;
  a.download = name;
  a.click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
