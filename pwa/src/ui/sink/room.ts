// How much room the window has, for drawings that come in several sizes.
import { signal, type ReadonlySignal } from "@preact/signals";

function follows(query: string): ReadonlySignal<boolean> {
  const s = signal(true);
  if (typeof matchMedia === "undefined") return s;
  const m = matchMedia(query);
  s.value = m.matches;
  m.addEventListener("change", () => (s.value = m.matches));
  return s;
}

/** High enough for a drawing under its sentence; else it stands beside it. */
export const roomy = follows("(min-height: 740px)");
/** Wide enough for the large drawing. */
export const wide = follows("(min-width: 720px)");
