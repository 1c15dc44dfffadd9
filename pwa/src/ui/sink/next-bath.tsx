// Choosing the next step: what, which liquid, how much, how long. As the plan has it, else kept from the last one.
import { faultAt } from "../base/acts";
import { useCore } from "../base/core";
import { bathWord, when } from "../base/words";
import { Icon } from "../parts/icon";
import { stepName } from "../treatment";
import { bathOfKind, plannedBath, plannedSays, planOf } from "./bath";
import type { Bench } from "./bench";
import { BATHS, KINDS, type What } from "./kinds";
import { DryingFields } from "./next-drying";
import { Stepped, ValueKey } from "./next-fields";
import { nowAt } from "../base/ticking";

export function NextBath({ bench }: { bench: Bench }) {
  const { bath } = bench;
  return (
    <section class="next" aria-labelledby="next-bath">
      <h2 id="next-bath" data-test="next-say">
        <NextSays bench={bench} />
      </h2>
      <Whats bench={bench} />
      {bath.what === "drying" ? <DryingFields bench={bench} /> : <BathFields bench={bench} />}
      <BackToPlan bench={bench} />
    </section>
  );
}

function NextSays({ bench }: { bench: Bench }) {
  const now = nowAt(useCore());
  const { bath, watch, running } = bench;
  const last = bench.state.steps.filter((s) => s.ended).at(-1);
  const planned = bath.planned > 0 ? plannedSays(planOf(bench.state) ?? [], bath.planned) : "";
  if (planned) return <b>Next: {planned}</b>;
  const left = plannedBath(bench.state, watch);
  return (
    <>
      <b>Next: {KINDS[bath.what].act}</b>{" "}
      {left ? (
        <span>the plan has {plannedSays(planOf(bench.state) ?? [], left.planned)}</span>
      ) : running.length === 0 && watch?.next.say && bench.state.steps.length > 0 ? (
        <span>{watch.next.say}</span>
      ) : running.length > 0 ? (
        <span>while {running.map(stepName).join(" and ")} runs</span>
      ) : last?.ended ? (
        <span>
          after {stepName(last)}, ended {when(last.ended.ms, now)}
        </span>
      ) : (
        <span>the first of this treatment</span>
      )}
    </>
  );
}

function Whats({ bench }: { bench: Bench }) {
  const { bath, state, watch, setBath, ask } = bench;
  const own = BATHS.some((w) => w === bath.what) || bath.what === "drying";
  const choose = (w: What) => setBath(bathOfKind(state, watch, w));
  return (
    <div class="whats" role="group" aria-label="What is done">
      {[...BATHS, "drying" as const].map((w) => (
        <button
          type="button"
          key={w}
          class={w === bath.what ? "key chosen" : "key"}
          aria-pressed={w === bath.what}
          data-test={`what-${w}`}
          onClick={() => choose(w)}
        >
          {w === bath.what && <Icon is="tick" />}
          {bathWord(w)}
        </button>
      ))}
      <button
        type="button"
        class={own ? "key" : "key chosen"}
        aria-pressed={!own}
        data-test="what-other"
        onClick={() => ask("kind")}
      >
        {own ? "Another kind" : bathWord(bath.what)}
      </button>
    </div>
  );
}

function BathFields({ bench }: { bench: Bench }) {
  const { bath, setBath, wrong, ask } = bench;
  const fault = (field: string) => faultAt(wrong, field);
  const kind = KINDS[bath.what];
  return (
    <>
      <ValueKey
        test="liquid"
        icon="drop"
        label={bath.batch ? `${kind.liquid}, batch ${bath.batch}` : kind.liquid}
        value={bath.liquid}
        fault={fault("liquid")}
        ask={() => ask("liquid")}
      />
      <Stepped
        bench={bench}
        test="litres"
        label={kind.litres === "optional" ? "Litres, if any" : "Litres"}
        unit="L"
        value={bath.litres}
        fault={fault("litres")}
        onValue={(litres) => setBath({ ...bath, litres })}
      />
      <Stepped
        bench={bench}
        test="target"
        label="Target"
        unit="min"
        value={bath.minutes}
        fault={fault("target_s")}
        onValue={(minutes) => setBath({ ...bath, minutes })}
      />
      <div class="trio">
        <ValueKey
          test="temp"
          label="Planned °C"
          value={bath.temp}
          none="any"
          fault={fault("temp_c")}
          ask={() => ask("temp")}
        />
        <ValueKey test="batch" label="Batch" value={bath.batch} none="none" fault="" ask={() => ask("batch")} />
        <ValueKey test="where" label="Place" value={bath.where} none="one tray" fault="" ask={() => ask("where")} />
      </div>
    </>
  );
}

/** Leaving the plan takes nothing; so does going back to it. */
function BackToPlan({ bench }: { bench: Bench }) {
  const planned = plannedBath(bench.state, bench.watch);
  if (!planned || bench.bath.planned === planned.planned) return null;
  return (
    <button type="button" class="key" data-test="back-to-plan" onClick={() => bench.setBath(planned)}>
      <Icon is="undo" />
      Back to the plan: {KINDS[planned.what].act}
    </button>
  );
}
