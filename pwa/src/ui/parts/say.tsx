// One place that speaks to screen readers, so that sentences do not interrupt each other.
import { signal } from "@preact/signals";

const said = signal({ text: "", odd: false });

/** Has a screen reader say a sentence; the same one twice is said twice. */
export function announce(text: string): void {
  said.value = { text, odd: !said.peek().odd };
}

export function Announcer() {
  const { text, odd } = said.value;
  return (
    <div class="unseen" role="status" aria-live="polite">
      {text}
      {odd ? "\u00a0" : ""}
    </div>
  );
}
