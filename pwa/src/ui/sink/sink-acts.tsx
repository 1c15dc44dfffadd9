// Begin and end, and stop. The same button in the same place, so that a keyboard keeps its focus.
import { record } from "../base/acts";
import { deviceNow, useCore } from "../base/core";
import { who } from "../base/remember";
import { bathWord, rfc3339, timeOfDay } from "../base/words";
import { HoldButton } from "../parts/hold-button";
import { Icon } from "../parts/icon";
import { stepName } from "../treatment";
import { rememberBath } from "./bath";
import { beginBody } from "./begin";
import type { Bench } from "./bench";
import { kindAct } from "./kinds";
import { StopButton } from "./stop-button";

export function SinkActs({ bench }: { bench: Bench }) {
  const core = useCore();
  const { shown, earlier, bath, state, watch } = bench;
  const at = earlier === null ? "" : timeOfDay(earlier);

  const write = async (kind: "begin" | "end", body: object, say: string) => {
    if (!who.peek()) {
      bench.ask("who");
      return;
    }
    const wrong = await record(
      core,
      { job: state.job, kind, body, ...(earlier === null ? {} : { at: rfc3339(earlier) }) },
      `${say} ${at || timeOfDay(deviceNow.peek())}`,
    );
    bench.setWrong(wrong);
    if (wrong.length > 0) return;
    bench.setEarlier(null);
    bench.show(null);
    if (kind !== "begin") return;
    rememberBath(bath);
    bench.bathBegun();
  };
  const begin = () => write("begin", beginBody(bath, state, watch), `${bathWord(bath.what)} begun at`);
  const end = () => (shown ? write("end", { of: shown.entry }, `${stepName(shown)} ended at`) : undefined);

  return (
    <section class={shown ? "holds runs" : "holds"} aria-label="Begin, end and stop">
      {(bench.running.length > 0 || state.wet_since_ms !== null) && <StopButton bench={bench} />}
      <button
        type="button"
        class={earlier === null ? "key earlier" : "key earlier chosen"}
        data-test="ago"
        onClick={() => bench.ask("ago")}
      >
        <Icon is="clock" />
        {at ? `at ${at}` : shown ? "Ended earlier" : "Began earlier"}
      </button>
      <HoldButton
        key="act"
        test={shown ? "end" : "begin"}
        label={`${shown ? "End" : "Begin"} ${kindAct((shown ?? bath).what)}${at ? ` at ${at}` : ""}`}
        about={shown ? stepName(shown) : ""}
        icon={shown ? "lift" : "bath"}
        tone={shown ? "end" : "act"}
        onDone={shown ? end : begin}
      />
    </section>
  );
}
