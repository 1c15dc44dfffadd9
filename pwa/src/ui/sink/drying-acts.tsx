// At the drying board: a check or a blotter changed in one held press, dry declared, left overnight.
import { deviceNow, useCore } from "../base/core";
import { rfc3339, timeOfDay } from "../base/words";
import { HoldButton } from "../parts/hold-button";
import { Icon } from "../parts/icon";
import type { Bench } from "./bench";
import { keepEntry, ofStep } from "./keeping";
import { StopButton } from "./stop-button";

export function DryingActs({ bench }: { bench: Bench }) {
  const core = useCore();
  const { earlier } = bench;
  const at = earlier === null ? "" : timeOfDay(earlier);
  const act = async (what: string, say: string) => {
    const wrong = await keepEntry(
      core,
      bench,
      { kind: "act", body: { what, ...ofStep(bench) }, ...(earlier === null ? {} : { at: rfc3339(earlier) }) },
      `${say} at ${at || timeOfDay(deviceNow.peek())}`,
    );
    if (wrong) return bench.setWrong([{ field: "", say: wrong }]);
    bench.setWrong([]);
    bench.setEarlier(null);
  };
  return (
    <section class="holds dries" aria-label="Checks, dry, and stop">
      <HoldButton
        test="act-blotter"
        label="Blotter changed"
        icon="textile"
        tone="quiet"
        onDone={() => act("blotter", "Blotter changed")}
      />
      <button type="button" class="key" data-test="acts" onClick={() => bench.ask("acts")}>
        <Icon is="turn" />
        Acts
      </button>
      <button type="button" class="key" data-test="dry" onClick={() => bench.ask("dry")}>
        <Icon is="dry" />
        Dry …
      </button>
      <button type="button" class="key" data-test="overnight" onClick={() => bench.ask("overnight")}>
        <Icon is="moon" />
        Overnight
      </button>
      <StopButton bench={bench} />
      <HoldButton
        test="act-check"
        label={`Checked${at ? ` at ${at}` : ""}`}
        icon="look"
        onDone={() => act("check", "Checked")}
      />
    </section>
  );
}
