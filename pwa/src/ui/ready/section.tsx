// One part of a long calm page: its heading says how it stands, and it opens in its place.
import type { ComponentChildren } from "preact";

interface SectionProps {
  /** Marks for tests: `part-ID`. */
  id: string;
  title: string;
  /** How it stands, in a few words. */
  stands: string;
  /** Something in it wants to be looked at. */
  wants?: boolean;
  open: boolean;
  onOpen: (open: boolean) => void;
  children: ComponentChildren;
}

export function Section({ id, title, stands, wants, open, onOpen, children }: SectionProps) {
  return (
    <details
      class={wants ? "fold opens wants" : "fold opens"}
      id={`part-${id}`}
      data-test={`part-${id}`}
      open={open}
      onToggle={(e) => {
        if (e.currentTarget.open !== open) onOpen(e.currentTarget.open);
      }}
    >
      <summary data-test={`open-${id}`}>
        <span>
          <h2>{title}</h2>
          <small>{stands}</small>
        </span>
      </summary>
      {open && <div class="opened">{children}</div>}
    </details>
  );
}
