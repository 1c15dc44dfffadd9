// The studio page: the large screen in the room. What runs, what has been written today, and what
// the studio machine itself is asked for.
import { studioNow, useCore } from "../base/core";
import { count } from "../base/words";
import { cardsOf } from "../board";
import { CardOf } from "../card";
import { useOpen } from "../now";
import { Page } from "../parts/page";
import { Ringers } from "../ring/ringers";
import { Curves } from "./curves";
import { DayLog } from "./day-log";
import { Devices } from "./devices";
import { ImportFile, RemoveSample } from "./housekeeping";
import { PairPhone } from "./pair-phone";

export function Studio() {
  const core = useCore();
  const studio = core.status.value.studio;
  const open = useOpen();
  const now = studioNow(core);
  const running = cardsOf(open, now).filter((c) => c.step);
  return (
    <Page title={studio || "Studio page"} back={{ to: "#/", say: "Now" }} wide>
      <div class="studio">
        <div class="studio-main">
          <section aria-labelledby="runs">
            <h2 id="runs">Running now</h2>
            <Ringers />
            {running.length === 0 && (
              <p class="nothing">Nothing runs. {count(open.length, "treatment is", "treatments are")} open.</p>
            )}
            <ul class="cards large">
              {running.map((c) => (
                <CardOf key={c.step?.entry} card={c} now={now} />
              ))}
            </ul>
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
