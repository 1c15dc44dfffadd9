// A question that takes the whole screen. Escape and the way back leave it without an act.
import { createContext, type ComponentChildren, type ComponentType } from "preact";
import { useContext, useEffect, useId, useRef } from "preact/hooks";
import { signal } from "@preact/signals";
import { Icon } from "./icon";

interface SheetProps {
  title: string;
  aside?: ComponentChildren;
  onClose: () => void;
  children: ComponentChildren;
  onKey?: (e: KeyboardEvent) => void;
}

/** Sheets that are open, the uppermost last: only its way back is offered. */
export const openSheets = signal<readonly string[]>([]);

/** What stands over every screen. A sheet makes the page below it dead to the touch, so the uppermost carries it. */
export const OverAll = createContext<ComponentType | null>(null);

export function Sheet({ title, aside, onClose, onKey, children }: SheetProps) {
  const dialog = useRef<HTMLDialogElement>(null);
  const id = useId();
  const Over = useContext(OverAll);
  useEffect(() => {
    const before = document.activeElement;
    dialog.current?.showModal();
    openSheets.value = [...openSheets.peek(), id];
    return () => {
      openSheets.value = openSheets.peek().filter((x) => x !== id);
      if (before instanceof HTMLElement && before.isConnected) before.focus({ preventScroll: true });
    };
  }, []);
  return (
    <dialog
      ref={dialog}
      class="sheet"
      aria-labelledby={id}
      onCancel={(e) => {
        e.preventDefault();
        onClose();
      }}
      onKeyDown={(e) => {
        // A question over a question keeps its keys to itself.
        e.stopPropagation();
        onKey?.(e);
      }}
    >
      {Over && openSheets.value.at(-1) === id && <Over />}
      <header class="sheet-top">
        <button
          type="button"
          class="key back"
          data-test={openSheets.value.at(-1) === id ? "sheet-back" : undefined}
          onClick={onClose}
        >
          <Icon is="back" />
          Back
        </button>
        <h2 id={id}>{title}</h2>
        {aside && <span class="aside">{aside}</span>}
      </header>
      {children}
    </dialog>
  );
}
