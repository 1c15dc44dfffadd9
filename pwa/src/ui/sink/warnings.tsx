// What to look at, in calm sentences: the worst first, the others behind one key.
import type { Warning } from "../../core/api";
import { useCore } from "../base/core";
import { when } from "../base/words";
import { Icon } from "../parts/icon";
import { Sheet } from "../parts/sheet";
import type { Bench } from "./bench";
import { nowAt, useTicking } from "../base/ticking";
import { holding, owesReason, ownWarnings, unsaid } from "./warned";

const NONE: readonly Warning[] = [];

function useHolding(bench: Bench): Warning[] {
  const core = useCore();
  const list = bench.watch?.warnings ?? NONE;
  // Which of them hold changes seldom; only then the sentence is drawn again.
  void useTicking((now) => holding(list, now).length + ownWarnings(bench.state, now).length, [list, bench.state]).value;
  const now = nowAt(core);
  return [...ownWarnings(bench.state, now), ...holding(list, now)];
}

export function Warnings({ bench }: { bench: Bench }) {
  const hold = unsaid(useHolding(bench), bench.shown);
  const first = hold[0];
  if (!first) return null;
  return (
    <button
      type="button"
      class={`warn ${first.tone}`}
      data-test="warning"
      data-tone={first.tone}
      onClick={() => bench.ask("warnings")}
    >
      <Icon is={first.tone === "limit" ? "past" : "look"} />
      <span>{first.say}</span>
      {hold.length > 1 && <small>and {hold.length - 1} more</small>}
    </button>
  );
}

export function WarningsSheet({ bench }: { bench: Bench }) {
  const now = nowAt(useCore());
  const hold = useHolding(bench);
  return (
    <Sheet title="To look at" onClose={() => bench.ask(null)}>
      <div class="sheet-body">
        {hold.length === 0 && <p>Nothing now.</p>}
        <ul class="warnings">
          {hold.map((w) => (
            <li key={w.id} class={w.tone}>
              <Icon is={w.tone === "limit" ? "past" : "look"} />
              <span>
                {w.say} <small class="quiet">{w.from_ms > 0 && `since ${when(w.from_ms, now)}`}</small>
              </span>
            </li>
          ))}
        </ul>
        {owesReason(hold) && (
          <button type="button" class="key big" data-test="why-uncleared" onClick={() => bench.ask("uncleared")}>
            <Icon is="pencil" />
            Say why it was begun uncleared
          </button>
        )}
        <p class="quiet">
          These are things to look at. Nothing here stops you, and none missing here means that all is well.
        </p>
      </div>
    </Sheet>
  );
}
