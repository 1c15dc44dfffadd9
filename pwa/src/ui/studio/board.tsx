// A treatment on the studio page of a wash day: its clocks large, and what must be looked at.
import { minutes, when } from "../base/words";
import type { Card, Open } from "../board";
import { CardOf } from "../card";
import { Icon } from "../parts/icon";
import { limitBar, limitLabel, limitLacks } from "../sink/limit";
import { holding } from "../sink/warned";
import { immersedMs, nameOf } from "../treatment";

/** Warnings that are read across a room; more are at the sink. */
const MOST = 3;

interface BoardProps {
  of: Open;
  cards: readonly Card[];
  /** Studio time. */
  now: number;
}

export function Board({ of, cards, now }: BoardProps) {
  const { state, watch } = of;
  const name = state ? nameOf(state) : of.summary.name;
  const hold = holding(watch?.warnings ?? [], now);
  return (
    <article class="board" aria-label={name} data-test="board">
      <ul class="cards large">
        {cards.map((c) => (
          <CardOf key={c.step?.entry ?? of.summary.job} card={c} now={now} />
        ))}
      </ul>
      <Tiles of={of} now={now} />
      {hold.length > 0 && (
        <ul class="warnings" data-test="board-warnings">
          {hold.slice(0, MOST).map((w) => (
            <li key={w.id} class={w.tone}>
              <Icon is={w.tone === "limit" ? "past" : "look"} />
              <span>{w.say}</span>
            </li>
          ))}
          {hold.length > MOST && <li>and {hold.length - MOST} more at the sink</li>}
        </ul>
      )}
    </article>
  );
}

function Tiles({ of: { state, watch }, now }: { of: Open; now: number }) {
  if (!state) return null;
  const limit = watch?.dwell ?? null;
  const gone = immersedMs(state, now);
  const is = limitBar(limit, gone)?.is ?? "within";
  const lacks = limitLacks(limit);
  const wet = state.wet_since_ms;
  return (
    <div class="board-tiles">
      <p class={`board-tile ${is}`} data-test="board-immersed">
        <small>{limitLabel(limit)}</small>
        <b>
          {is !== "within" && <Icon is="past" />}
          {minutes(gone)}
        </b>
        {is !== "within" && <small>{is === "near" ? "past 80 %" : "past it"}</small>}
        {lacks && <small>{lacks}</small>}
      </p>
      <p class="board-tile" data-test="board-wet">
        <small>{wet !== null ? `Wet since ${when(wet, now)}` : "Wet"}</small>
        <b>{wet !== null ? minutes(now - wet) : state.dry ? "dry" : "not yet wet"}</b>
      </p>
    </div>
  );
}
