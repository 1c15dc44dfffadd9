// One place that speaks to screen readers, so that sentences do not interrupt each other.
import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";

const said = signal({ text: "", odd: false });

/** Has a screen reader say a sentence; the same one twice is said twice. */
export function announce(text: string): void {
  said.value = { text, odd: !said.peek().odd };
}

/** A sentence is taken away again, so that nobody who reads on comes across it out of its time. */
const STAYS_MS = 8000;

export function Announcer() {
  const { text, odd } = said.value;
  useEffect(() => {
    if (!text) return;
    const timer = setTimeout(() => announce(""), STAYS_MS);
    return () => clearTimeout(timer);
  }, [text, odd]);
  return (
    <div class="unseen" role="status" aria-live="polite">
      {text}
      {odd ? "\u00a0" : ""}
    </div>
  );
}
