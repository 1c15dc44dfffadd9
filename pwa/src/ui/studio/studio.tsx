// The studio page: the large screen in the room. What runs, what has been written today, and what
// the studio machine itself is asked for.
import { studioNow, useCore } from "../base/core";
import { count } from "../base/words";
import { cardsOf, type Card } from "../board";
import { nextSays } from "../card";
import { useOpen } from "../now";
import { Page } from "../parts/page";
import { Ringers } from "../ring/ringers";
import { Board } from "./board";
import { boardsOf, type BoardOf } from "./boards";
import { Curves } from "./curves";
import { DayLog } from "./day-log";
import { Devices } from "./devices";
import { ImportFile, RemoveSample } from "./housekeeping";
import { PairPhone } from "./pair-phone";

export function Studio() {
  const core = useCore();
  const studio = core.status.value.studio;
  const open = useOpen();
  const cards = cardsOf(open);
  const boards = boardsOf(cards);
  return (
    <Page title={studio || "Studio page"} back={{ to: "#/", say: "Now" }} wide>
      <div class={boards.length > 0 ? "studio washes" : "studio"}>
        <div class="studio-main">
          <section aria-labelledby="runs">
            <div class="row">
              <h2 id="runs">Running now</h2>
              <Ringers />
            </div>
            {boards.length === 0 && (
              <p class="nothing">
                Nothing runs and nothing is wet. {count(open.length, "treatment is", "treatments are")} open.
              </p>
            )}
            <Boards cards={cards} boards={boards} />
          </section>
          <Curves open={open} />
          <DayLog />
        </div>
        <div class="studio-side">
          <PairPhone />
          <Devices />
          <ImportFile />
          <RemoveSample />
        </div>
      </div>
    </Page>
  );
}

/** Alone in following the clock: the curves and the day's log below it are not drawn again each second. */
function Boards({ cards, boards }: { cards: readonly Card[]; boards: readonly BoardOf[] }) {
  const now = studioNow(useCore());
  return (
    <>
      {cards.length > 1 && cards[0]?.due && <p class="due-next">{nextSays(cards[0], now)}</p>}
      <div class="boards">
        {boards.map((b) => (
          <Board key={b.of.summary.job} of={b.of} cards={b.cards} now={now} />
        ))}
      </div>
    </>
  );
}
