// One of a few, side by side.
import type { ComponentChildren } from "preact";
import { Icon } from "./icon";

interface ChipsProps<T extends string | number> {
  label: string;
  choices: readonly (readonly [T, ComponentChildren])[];
  now: T | null;
  onChoose: (v: T) => void;
  /** Marks for tests: `test-VALUE`. */
  test: string;
  /** In a column, for long words. */
  long?: boolean;
  /** Three to a row, for many short words. */
  even?: boolean;
}

export function Chips<T extends string | number>({ label, choices, now, onChoose, test, long, even }: ChipsProps<T>) {
  return (
    <div class={long ? "chips long" : even ? "chips even" : "chips"} role="group" aria-label={label}>
      {choices.map(([value, say]) => (
        <button
          type="button"
          key={value}
          class={value === now ? "key chosen" : "key"}
          aria-pressed={value === now}
          data-test={`${test}-${value}`}
          onClick={() => onChoose(value)}
        >
          {value === now && <Icon is="tick" />}
          <span>{say}</span>
        </button>
      ))}
    </div>
  );
}

/** A yes-or-no that is seen without being opened. */
export function Toggle({
  on,
  test,
  onChange,
  children,
}: {
  on: boolean;
  test: string;
  onChange: (on: boolean) => void;
  children: ComponentChildren;
}) {
  return (
    <button
      type="button"
      class={on ? "key option chosen" : "key option"}
      aria-pressed={on}
      data-test={test}
      onClick={() => onChange(!on)}
    >
      <Icon is={on ? "tick" : "empty"} />
      <span>{children}</span>
    </button>
  );
}
