// Where the limit for immersion comes from, and what is not tested.
import { useCore } from "../base/core";
import { minutes, when } from "../base/words";
import { Icon } from "../parts/icon";
import { Sheet } from "../parts/sheet";
import { immersedMs } from "../treatment";
import type { Bench } from "./bench";
import { dwellSays } from "./limit";
import { nowAt } from "../base/ticking";

export function LimitSheet({ bench }: { bench: Bench }) {
  const now = nowAt(useCore());
  const { state, watch } = bench;
  const d = watch?.dwell;
  return (
    <Sheet title="Immersed" aside={minutes(immersedMs(state, now))} onClose={() => bench.ask(null)}>
      <div class="sheet-body">
        {d && d.s > 0 ? (
          <p>
            <b>{dwellSays(d.s)}</b> is the shortest tested dwell{d.colour && `, for ${d.colour}`}
            {d.liquid && `, in ${d.liquid}`}
            {d.name && `; ${d.name} vouches for it`}. It rings at 80 %, {dwellSays(d.mark_s)}
            {d.mark_ms !== null && d.mark_ms > now && `, at ${when(d.mark_ms, now)} if this bath goes on`}.
          </p>
        ) : (
          <p>
            <b>{d?.say || "No test recorded."}</b> There is no limit to hold the immersion against. The bath can be
            begun all the same; it is marked as begun uncleared.
          </p>
        )}
        {d && d.untested.length > 0 && (
          <section aria-label="Without a test that fits">
            <h3>Without a test that fits</h3>
            <ul class="facts" data-test="untested-list">
              {d.untested.map((u) => (
                <li key={u}>{u}</li>
              ))}
            </ul>
          </section>
        )}
        <p class="quiet">
          All baths are added. A test that was passed is no promise: it says how long, in what, and how warm, this
          colour stood pressed and wet without staining.
        </p>
        <a class="key big" href={`#/t/${state.job}/ready`} data-test="to-ready">
          <Icon is="pencil" />
          Enter a tested dwell
        </a>
      </div>
    </Sheet>
  );
}
