// The keys above the thumb: readings with their last value and what is due, acts, a note, the rest.
import type { Reading } from "../../core/api";
import { age } from "../base/words";
import { Icon, type IconName } from "../parts/icon";
import type { Asked, Bench } from "./bench";
import { dueOf } from "./due";
import { AT_BOARD, AT_SINK, markOf, QUANTITIES, valueSays, type Q } from "./quantities";
import { useTicking } from "../base/ticking";

export function Keys({ bench }: { bench: Bench }) {
  const drying = bench.shown?.what === "drying";
  return (
    <section class={drying ? "keys dries" : "keys"} aria-label="Readings, acts, note and more">
      {(drying ? AT_BOARD : AT_SINK).map((q) => (
        <ReadingKey key={q} bench={bench} q={q} last={bench.state.last[q]} />
      ))}
      {!drying && (
        <FaceKey bench={bench} to="acts" icon="sponge">
          Acts
        </FaceKey>
      )}
      <FaceKey bench={bench} to="note" icon="note">
        Note
      </FaceKey>
      <FaceKey bench={bench} to="more" icon="list">
        More
      </FaceKey>
    </section>
  );
}

function FaceKey({ bench, to, icon, children }: { bench: Bench; to: Asked; icon: IconName; children: string }) {
  return (
    <button type="button" class="key face" data-test={to} onClick={() => bench.ask(to)}>
      <Icon is={icon} />
      {children}
    </button>
  );
}

function ReadingKey({ bench, q, last }: { bench: Bench; q: Q; last: Reading | undefined }) {
  const quantity = QUANTITIES[q];
  const dueMs = dueOf(bench.watch, bench.shown, q);
  const due = useTicking((now) => dueMs !== null && now >= dueMs, [dueMs]).value;
  const old = useTicking((now) => (last ? age(now - last.at.ms).replace(/^now$/, "just now") : "none yet"), [last]);
  const mark = last ? markOf(last) : "";
  return (
    <button
      type="button"
      class={due ? "key reading due" : "key reading"}
      data-test={`reading-${q}`}
      onClick={() => bench.ask(q)}
    >
      <span class="unseen">{quantity.title}, </span>
      <small>{quantity.key}</small>
      <b>{last ? valueSays(q, last.value) : "–"}</b>
      <small class="age">
        {due ? (
          <>
            <Icon is="clock" />
            now
          </>
        ) : mark ? (
          <em>{mark.replace("from ", "")}</em>
        ) : (
          old
        )}
      </small>
    </button>
  );
}
