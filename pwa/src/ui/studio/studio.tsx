// The studio page: the large screen in the room. What runs, what has been written today, and what
// the studio machine itself is asked for.
import { useCore } from "../base/core";
import { count } from "../base/words";
import { RunningCard, useOpen } from "../now";
import { Page } from "../parts/page";
import { DayLog } from "./day-log";
import { Devices } from "./devices";
import { ImportFile, RemoveSample } from "./housekeeping";
import { PairPhone } from "./pair-phone";

export function Studio() {
  const core = useCore();
  const studio = core.status.value.studio;
  const open = useOpen();
  const running = open.flatMap((o) => o.running.map((step) => ({ o, step })));
  return (
    <Page title={studio || "Studio page"} back={{ to: "#/", say: "Now" }} wide>
      <div class="studio">
        <div class="studio-main">
          <section aria-labelledby="runs">
            <h2 id="runs">Running now</h2>
            {running.length === 0 && (
              <p class="nothing">Nothing runs. {count(open.length, "treatment is", "treatments are")} open.</p>
            )}
            <ul class="cards large">
              {running.map(({ o, step }) => (
                <RunningCard key={step.entry} of={o} step={step} />
              ))}
            </ul>
          </section>
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
