// When it may be dry: what the estimate rests on, and what would make it better.
import { useCore } from "../base/core";
import { when } from "../base/words";
import { Sheet } from "../parts/sheet";
import { WorkingKey } from "../parts/working";
import type { Bench } from "./bench";
import { drySays } from "./drying";
import { nowAt } from "../base/ticking";

export function EstimateSheet({ bench }: { bench: Bench }) {
  const now = nowAt(useCore());
  const d = bench.watch?.drying;
  return (
    <Sheet title="When it may be dry" onClose={() => bench.ask(null)}>
      <div class="sheet-body">
        {!d && <p class="quiet">Nothing dries now.</p>}
        {d && (
          <>
            <p>
              <b>{drySays(d, now)}</b> {d.say}
            </p>
            {d.water_g !== null && <p>About {Math.round(d.water_g)} g of water are still held.</p>}
            {d.missing.length > 0 && (
              <section aria-label="What is missing">
                <h3>Missing for a better one</h3>
                <ul class="reasons">
                  {d.missing.map((m) => (
                    <li key={m}>{m}</li>
                  ))}
                </ul>
              </section>
            )}
            {d.working.name && (
              <WorkingKey test="work-drying" onAsk={() => bench.work("When it may be dry", d.working)} />
            )}
            {d.room_say && <p>The room: {d.room_say}.</p>}
            {d.air.name && <WorkingKey test="work-air" onAsk={() => bench.work("The air of the room", d.air)} />}
            <p class="quiet">
              A range of both published equations, not a promise: seams, hems and folds dry last. Wet for 24 hours is
              reached {when(d.mould_ms, now)}; from then on mould is to be looked for.
            </p>
          </>
        )}
      </div>
    </Sheet>
  );
}
