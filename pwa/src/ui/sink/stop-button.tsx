// "Stop": one held press, then the steps.
import { record } from "../base/acts";
import { deviceNow, useCore } from "../base/core";
import { who } from "../base/remember";
import { timeOfDay } from "../base/words";
import { HoldButton } from "../parts/hold-button";
import type { Bench } from "./bench";

export function StopButton({ bench }: { bench: Bench }) {
  const core = useCore();
  const stop = async () => {
    const plan = bench.watch?.stop_plan;
    const wrong = await record(
      core,
      {
        job: bench.state.job,
        // Nobody has to say first who they are: it is stopped, and the steps are shown.
        by: who.peek() || "?",
        kind: "abort",
        body: {
          of: bench.running.map((s) => s.entry),
          // Where the core has not said what was agreed, nothing is said of it.
          ...(plan && { steps: plan.steps, generic: plan.generic }),
        },
      },
      `Stopped at ${timeOfDay(deviceNow.peek())}`,
    );
    bench.setWrong(wrong);
    if (wrong.length > 0) return;
    bench.show(null);
    bench.ask("stopped");
  };
  return <HoldButton test="stop" label="Stop" icon="stop" tone="stop" about="break off what runs" onDone={stop} />;
}
