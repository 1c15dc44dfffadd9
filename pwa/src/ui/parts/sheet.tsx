// A question that takes the whole screen. Escape and the way back leave it without an act.
import type { ComponentChildren } from "preact";
import { useEffect, useId, useRef } from "preact/hooks";
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
const open = signal<readonly string[]>([]);

export function Sheet({ title, aside, onClose, onKey, children }: SheetProps) {
  const dialog = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    const before = document.activeElement;
    dialog.current?.showModal();
    open.value = [...open.peek(), id];
    return () => {
      open.value = open.peek().filter((x) => x !== id);
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
      <header class="sheet-top">
        <button
          type="button"
          class="key back"
          data-test={open.value.at(-1) === id ? "sheet-back" : undefined}
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
