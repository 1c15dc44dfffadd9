// Every pointer that is on the glass, wherever it is: a held press must be alone.

type Watch = (e: PointerEvent) => void;

const on = new Set<number>();
const watches = new Set<Watch>();

export function startTouches(): void {
  for (const kind of ["pointerdown", "pointermove", "pointerup", "pointercancel"] as const) {
    window.addEventListener(kind, seen, { capture: true, passive: true });
  }
  // What happens while the page is hidden is not seen: start from an empty glass.
  document.addEventListener("visibilitychange", () => document.hidden && on.clear());
}

function seen(e: PointerEvent): void {
  for (const watch of [...watches]) watch(e);
  if (e.type === "pointerdown") on.add(e.pointerId);
  else if (e.type !== "pointermove") on.delete(e.pointerId);
}

/** Tells of every pointer event on the page until the returned function is called. */
export function watchTouches(watch: Watch): () => void {
  watches.add(watch);
  return () => watches.delete(watch);
}

export function touchingNow(): number[] {
  return [...on];
}
