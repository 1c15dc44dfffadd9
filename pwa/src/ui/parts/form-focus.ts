// The key that opens a form goes away as the form comes, and the focus with it; so does the form when it is
// left. Here the focus is led on, for who works with a keyboard or a screen reader.
import type { RefObject } from "preact";
import { useEffect, useRef } from "preact/hooks";

const isLost = () => document.activeElement === null || document.activeElement === document.body;

/** `back` is the test mark of the key that opened the form, looked for in the part that it stood in. */
export function useFormFocus(back: string): RefObject<HTMLFormElement | null> {
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => {
    const part = form.current?.closest("li, section, .opened");
    if (isLost()) form.current?.focus({ preventScroll: true });
    return () => {
      requestAnimationFrame(() => {
        if (isLost()) part?.querySelector<HTMLElement>(`[data-test="${back}"]`)?.focus({ preventScroll: true });
      });
    };
  }, [back]);
  return form;
}
