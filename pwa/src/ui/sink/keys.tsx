// The row of keys above the thumb: readings, a note, and the way to everything else.
import type { Reading } from "../../core/api";
import { studioNow, useCore } from "../base/core";
import { age } from "../base/words";
import { Icon } from "../parts/icon";
import { QUANTITIES, type Quantity } from "./quantities";
import type { Bench } from "./bench";

export function Keys({ bench }: { bench: Bench }) {
  const now = studioNow(useCore());
  return (
    <section class="keys" aria-label="Readings, note and more">
      {QUANTITIES.map((q) => (
        <ReadingKey key={q.q} quantity={q} last={bench.state.last[q.q]} now={now} ask={() => bench.ask(q.q)} />
      ))}
      <button type="button" class="key face" data-test="note" onClick={() => bench.ask("note")}>
        <Icon is="note" />
        Note
      </button>
      <button type="button" class="key face" data-test="more" onClick={() => bench.ask("more")}>
        <Icon is="list" />
        More
      </button>
    </section>
  );
}

interface ReadingKeyProps {
  quantity: Quantity;
  last: Reading | undefined;
  now: number;
  ask: () => void;
}

function ReadingKey({ quantity, last, now, ask }: ReadingKeyProps) {
  return (
    <button type="button" class="key reading" data-test={`reading-${quantity.q}`} onClick={ask}>
      <span class="unseen">{quantity.title}, </span>
      <small>{quantity.sign}</small>
      <b>{last?.value ?? "–"}</b>
      <small>{last ? age(now - last.at.ms) : "none yet"}</small>
    </button>
  );
}
