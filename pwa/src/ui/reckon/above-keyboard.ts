// What an on-screen keyboard hides of the page's foot. Phones lay it over the page and tell only the visual viewport.
import { useLayoutEffect } from "preact/hooks";

/** What is used of a visual viewport. */
export interface Seen {
  height: number;
  offsetTop: number;
  scale: number;
}

/** So many CSS pixels at the foot of a page of this height are hidden. */
export function hiddenAtFoot(seen: Seen, height: number): number {
  // A page that somebody has pulled larger shows less of itself without a keyboard.
  if (seen.scale > 1.01) return 0;
  return Math.max(0, Math.round(height - seen.height - seen.offsetTop));
}

/** Keeps `--hidden` of the document at what the keyboard hides, while the component is there. */
export function useAboveKeyboard(): void {
  useLayoutEffect(() => {
    const seen = window.visualViewport;
    if (!seen) return;
    const { style } = document.documentElement;
    const tell = () => style.setProperty("--hidden", `${hiddenAtFoot(seen, window.innerHeight)}px`);
    tell();
    seen.addEventListener("resize", tell);
    seen.addEventListener("scroll", tell);
    return () => {
      seen.removeEventListener("resize", tell);
      seen.removeEventListener("scroll", tell);
      style.removeProperty("--hidden");
    };
  }, []);
}
