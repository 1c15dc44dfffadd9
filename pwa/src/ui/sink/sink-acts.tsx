// Begin and end. The same button in the same place, so that a keyboard keeps its focus.
import { record } from "../base/acts";
import { useCore } from "../base/core";
import { who } from "../base/remember";
import { bathWord, rfc3339, timeOfDay } from "../base/words";
import { HoldButton } from "../parts/hold-button";
import { Icon } from "../parts/icon";
import { stepName } from "../treatment";
import { rememberBath, targetSeconds } from "./bath";
import type { Bench } from "./bench";

export function SinkActs({ bench }: { bench: Bench }) {
  const core = useCore();
  const { shown, earlier, bath } = bench;
  const at = earlier === null ? "" : timeOfDay(earlier);

  const write = async (kind: "begin" | "end", body: object, say: string) => {
    if (!who.peek()) {
      bench.ask("who");
      return;
    }
    const wrong = await record(
      core,
      { job: bench.state.job, kind, body, ...(earlier === null ? {} : { at: rfc3339(earlier) }) },
      `${say} ${at || timeOfDay(Date.now())}`,
    );
    bench.setWrong(wrong);
    if (wrong.length > 0) return;
    bench.setEarlier(null);
    bench.show(null);
    if (kind !== "begin") return;
    rememberBath(bath);
    bench.bathBegun();
  };
  const begin = () =>
    write(
      "begin",
      { what: bath.what, liquid: bath.liquid, litres: bath.litres, target_s: targetSeconds(bath.minutes) },
      `${bathWord(bath.what)} begun at`,
    );
  const end = () => (shown ? write("end", { of: shown.entry }, `${stepName(shown)} ended at`) : undefined);

  return (
    <section class="holds" aria-label="Begin and end">
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
        label={`${shown ? "End" : "Begin"} ${bathWord((shown ?? bath).what).toLowerCase()}${at ? ` at ${at}` : ""}`}
        about={shown ? stepName(shown) : ""}
        icon={shown ? "lift" : "bath"}
        tone={shown ? "end" : "act"}
        onDone={shown ? end : begin}
      />
    </section>
  );
}
