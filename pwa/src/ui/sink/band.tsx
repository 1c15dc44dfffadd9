// The line under the names: how long the object has been wet, or what was just done and can be taken back.
import { useState } from "preact/hooks";
import { latestAct, takeBack, type Act } from "../base/acts";
import { deviceNow, studioNow, useCore } from "../base/core";
import { minutes, when } from "../base/words";
import { Fault } from "../parts/field";
import { HoldButton } from "../parts/hold-button";
import { announce } from "../parts/say";
import { immersedMs } from "../treatment";
import type { Bench } from "./bench";

export function Band({ bench }: { bench: Bench }) {
  const act = latestAct(bench.state.job, deviceNow.value);
  const stray = bench.wrong.filter((w) => !FIELDS.includes(w.field) || bench.shown !== null);
  if (stray.length > 0)
    return (
      <section class="band say alert" aria-label="Not recorded" role="alert">
        <p class="fault">
          <Fault say={stray.map((w) => w.say).join(" ")} />
        </p>
        <button type="button" class="key" onClick={() => bench.setWrong([])}>
          I see
        </button>
      </section>
    );
  return act ? <JustDone act={act} bench={bench} key={act.entry} /> : <Wet bench={bench} />;
}

/** Fields that the next bath shows its own faults at. */
const FIELDS = ["what", "liquid", "litres", "target_s"];

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
    <section class="band say" aria-label="Just done">
      <p role="status" data-test="just-done">
        {going ? "Taking it back …" : act.say}
      </p>
      <HoldButton test="take-back" label="Take back" icon="undo" tone="quiet" about={act.say} onDone={undo} />
    </section>
  );
}

function Wet({ bench }: { bench: Bench }) {
  const now = studioNow(useCore());
  const { state } = bench;
  const first = state.first_wet_ms;
  return (
    <section class="band" aria-label="How long it has been wet">
      <dl class="wet">
        <div>
          <dt>Immersed in all</dt>
          <dd data-test="immersed">{minutes(immersedMs(state, now))}</dd>
        </div>
        <div>
          <dt>{first === null ? "First wetting" : `First wet ${when(first, now)}`}</dt>
          <dd data-test="wet">{first === null ? "not yet" : `${minutes(now - first)} ago`}</dd>
        </div>
      </dl>
    </section>
  );
}
