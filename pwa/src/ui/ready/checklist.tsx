// What is looked at before the object gets wet. Nothing here holds anybody up: what is open is said and recorded.
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import type { State, Tick } from "../../core/api";
import { FACTS, FactRow } from "../about/fact";
import { otherFaults, record, type Wrong } from "../base/acts";
import { useCore } from "../base/core";
import { useOneAtATime } from "../base/once";
import { useMinute } from "../base/ticking";
import { when } from "../base/words";
import { Alert } from "../parts/field";
import { HoldButton } from "../parts/hold-button";
import { Icon } from "../parts/icon";
import { announce } from "../parts/say";
import { SoundCheck } from "../ring/sound-check";
import { answersSay, isSame, TICK_WORDS, tickBody, tickState, valuesOf, type TickState } from "./ticks";

interface ChecklistProps {
  state: State;
  onStopPlan: () => void;
}

export function Checklist({ state, onStopPlan }: ChecklistProps) {
  return (
    <>
      <ul class="checks">
        {state.checklist.map((t) => (
          <CheckRow key={t.item} job={state.job} tick={t}>
            <Lead state={state} item={t.item} onStopPlan={onStopPlan} />
          </CheckRow>
        ))}
      </ul>
      <p class="quiet">
        You can begin whatever stands open here. The first bath records what had not been done or looked at.
      </p>
    </>
  );
}

function CheckRow({ job, tick, children }: { job: string; tick: Tick; children: ComponentChildren }) {
  const core = useCore();
  const now = useMinute();
  const [wrong, setWrong] = useState<readonly Wrong[]>([]);
  const oneAtATime = useOneAtATime();
  const is = tickState(tick);
  const said = tick.is[0];
  const set = (value: "yes" | "no") =>
    oneAtATime(async () => {
      if (isSame(tick, value)) return;
      const found = await record(core, { job, kind: "set", body: tickBody(tick, value) });
      setWrong(found);
      if (found.length === 0) announce(`${tick.title}: ${value === "yes" ? "done" : "not done"}`);
    });
  // Held, as at the sink: water on the glass must not tick what nobody has looked at.
  const key = (value: "yes" | "no", say: string) => (
    <HoldButton
      test={`check-${tick.item}-${value}`}
      label={say}
      icon={value === "yes" ? "tick" : "cross"}
      tone="quiet"
      about={tick.title}
      chosen={isSame(tick, value)}
      onDone={() => set(value)}
    />
  );
  return (
    <li class={`check ${is}`} data-test={`check-${tick.item}`} data-is={is}>
      <TickShape is={is} />
      <p>
        <b>{tick.title}</b>{" "}
        <small>
          {is === "choose"
            ? `${answersSay(tick.is)}. Choose the right one.`
            : said
              ? `${TICK_WORDS[is]}, ${said.by} ${when(said.at_ms, now)}`
              : TICK_WORDS[is]}
        </small>
      </p>
      <div class="yes-no" role="group" aria-label={tick.title}>
        {key("yes", "Done")}
        {key("no", "Not done")}
      </div>
      {children}
      <Alert say={otherFaults(wrong, [])} />
    </li>
  );
}

/** A full disc with a tick, a disc with a cross, an empty ring of dashes: told apart without colour. */
function TickShape({ is }: { is: TickState }) {
  return (
    <svg class="tick-shape" viewBox="0 0 28 28" width="28" height="28" aria-hidden="true" focusable="false">
      <circle cx="14" cy="14" r="12" />
      {is === "done" && <path d="M8 14.5l4 4 8-9" />}
      {is === "not-done" && <path d="M9.5 9.5l9 9M18.5 9.5l-9 9" />}
      {is === "choose" && <path d="M14 7.5v8M14 19.5v.5" />}
    </svg>
  );
}

const DRY_MASS = FACTS.find((f) => f.field === "dry_mass_g");

/** What an item needs, where it can be done from here. */
function Lead({ state, item, onStopPlan }: { state: State; item: string; onStopPlan: () => void }) {
  switch (item) {
    case "weighed":
      return DRY_MASS ? (
        <dl class="lead">
          <FactRow job={state.job} fact={DRY_MASS} values={valuesOf(state, "dry_mass_g")} />
        </dl>
      ) : null;
    case "meters_calibrated":
      return <Meters />;
    case "sound_checked":
      return <Sound job={state.job} />;
    case "stop_plan_agreed":
      return (
        <div class="lead">
          <button type="button" class="key" data-test="to-stop-plan" onClick={onStopPlan}>
            <Icon is="stop" />
            The stop plan
          </button>
        </div>
      );
    default:
      return null;
  }
}

function Sound({ job }: { job: string }) {
  const [checking, setChecking] = useState(false);
  return (
    <div class="lead">
      <button type="button" class="key" data-test="to-sound" onClick={() => setChecking(true)}>
        <Icon is="bell" />
        Sound check
      </button>
      {checking && <SoundCheck job={job} onClose={() => setChecking(false)} />}
    </div>
  );
}

function Meters() {
  const core = useCore();
  const now = useMinute();
  const meters = core.shelf.value.instruments;
  return (
    <div class="lead">
      {meters.length > 0 && (
        <ul class="facts">
          {meters.map((m) => (
            <li key={m.entry}>
              {m.name}: {m.calibrated_ms === null ? "calibration not said" : `calibrated ${when(m.calibrated_ms, now)}`}
            </li>
          ))}
        </ul>
      )}
      <a class="key" href="#/shelf/instruments" data-test="to-instruments">
        <Icon is="reckon" />
        Instruments on the shelf
      </a>
    </div>
  );
}
