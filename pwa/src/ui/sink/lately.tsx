// Between what is read and what is pressed: what could not be recorded, what was just done and can be taken
// back, and what is still owed to the record. One at a time.
import { useState } from "preact/hooks";
import { useComputed } from "@preact/signals";
import { latestAct, takeBack, type Act } from "../base/acts";
import { deviceNow, useCore } from "../base/core";
import { timeOfDay } from "../base/words";
import { Fault } from "../parts/field";
import { HoldButton } from "../parts/hold-button";
import { Icon } from "../parts/icon";
import { announce } from "../parts/say";
import type { Bench } from "./bench";
import { abortWithoutReason } from "./stop-plan";

export function Lately({ bench }: { bench: Bench }) {
  const job = bench.state.job;
  const act = useComputed(() => latestAct(job, deviceNow.value)).value;
  const stray = bench.wrong.filter((w) => !FIELDS.includes(w.field) || bench.shown !== null);
  if (stray.length > 0)
    return (
      <section class="lately alert" aria-label="Not recorded" role="alert">
        <p class="fault">
          <Fault say={stray.map((w) => w.say).join(" ")} />
        </p>
        <button type="button" class="key" onClick={() => bench.setWrong([])}>
          I see
        </button>
      </section>
    );
  if (act) return <JustDone act={act} bench={bench} key={act.entry} />;
  // While a bath runs its clock needs the room; the warnings say it then.
  const abort = bench.shown ? null : abortWithoutReason(bench.state);
  if (!abort) return null;
  return (
    <section class="lately owed" aria-label="Still owed to the record">
      <p>Stopped at {timeOfDay(abort.at.ms)}. Why is not said yet.</p>
      <button type="button" class="key" data-test="why-stopped" onClick={() => bench.ask("stopped")}>
        <Icon is="pencil" />
        Steps, why
      </button>
    </section>
  );
}

/** Fields that the next bath shows its own faults at. */
const FIELDS = ["what", "liquid", "litres", "target_s", "temp_c", "air_m_s"];

function JustDone({ act, bench }: { act: Act; bench: Bench }) {
  const core = useCore();
  const [going, setGoing] = useState(false);
  const undo = async () => {
    setGoing(true);
    const wrong = await takeBack(core, act);
    setGoing(false);
    bench.setWrong(wrong);
    if (wrong.length === 0) announce(`Taken back: ${act.say}.`);
  };
  return (
    <section class="lately" aria-label="Just done">
      <p role="status" data-test="just-done">
        {going ? "Taking it back …" : act.say}
      </p>
      <HoldButton test="take-back" label="Take back" icon="undo" tone="quiet" about={act.say} onDone={undo} />
    </section>
  );
}
