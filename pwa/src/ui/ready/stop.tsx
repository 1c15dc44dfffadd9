// The stop plan: what is done when it has to stop at once, agreed before the object is wet, and who decides.
import { useState } from "preact/hooks";
import type { FieldValue, State, Watch } from "../../core/api";
import { FactRow, type Fact } from "../about/fact";
import { faultAt, otherFaults, record, type Wrong } from "../base/acts";
import { useCore } from "../base/core";
import { useOneAtATime } from "../base/once";
import { isText } from "../base/remember";
import { useMinute } from "../base/ticking";
import { useUnfinished } from "../base/unfinished";
import { count, when } from "../base/words";
import { Alert, TextField } from "../parts/field";
import { Icon } from "../parts/icon";
import { announce } from "../parts/say";
import { NEVER_LIFT } from "../sink/stop-plan";
import { useFormFocus } from "../parts/form-focus";
import { stepsOf, textOf } from "./stop-text";
import { valuesOf } from "./ticks";

const DECIDES: Fact = {
  field: "decides",
  label: "Who decides to stop",
  unit: "",
  number: false,
  help: "Name or initials. Who is at the sink can always stop.",
};

export function stopStands(state: State): string {
  const plans = valuesOf(state, "stop_plan");
  const [one] = plans;
  if (!one) return "nothing agreed: a general list stands in";
  if (plans.length > 1) return `${plans.length} versions: choose one`;
  const decides = valuesOf(state, "decides")[0];
  return `${count(stepsOf(one.value).length, "step", "steps")}${decides ? `, ${decides.value} decides` : ""}`;
}

export function StopPart({ state, watch }: { state: State; watch: Watch | null }) {
  const values = valuesOf(state, "stop_plan");
  const typing = useUnfinished<string | null>(`stop.${state.job}`, () => null, isText);
  const set = useStopPlan(state.job, values, () => {
    typing.set(null);
    typing.forget();
  });
  const [one] = values;
  // The core's general list stands in only while nothing is agreed.
  const general = watch?.stop_plan.generic ? watch.stop_plan.steps : [];
  return (
    <>
      {typing.value !== null ? (
        <StopForm text={typing.value} onText={typing.set} set={set} general={textOf(general)} />
      ) : (
        <>
          {values.length > 1 ? (
            <ChooseStop values={values} onChoose={set.run} />
          ) : (
            <StopSteps
              steps={one ? stepsOf(one.value) : general}
              generic={!one}
              caution={watch?.stop_plan.caution ?? ""}
            />
          )}
          <Alert say={otherFaults(set.wrong, [])} />
          <div class="row">
            {!one && general.length > 0 && (
              <button type="button" class="key" data-test="stop-general" onClick={() => typing.set(textOf(general))}>
                <Icon is="list" />
                Start from the general list
              </button>
            )}
            <button type="button" class="key" data-test="stop-edit" onClick={() => typing.set(one?.value ?? "")}>
              <Icon is="pencil" />
              {one ? "Change it" : "Write our own"}
            </button>
          </div>
        </>
      )}
      <dl class="facts-list">
        <FactRow job={state.job} fact={DECIDES} values={valuesOf(state, "decides")} />
      </dl>
    </>
  );
}

interface SetStop {
  wrong: readonly Wrong[];
  run: (text: string) => void;
  leave: () => void;
}

function useStopPlan(job: string, values: readonly FieldValue[], done: () => void): SetStop {
  const core = useCore();
  const [wrong, setWrong] = useState<readonly Wrong[]>([]);
  const oneAtATime = useOneAtATime();
  const run = (text: string) =>
    void oneAtATime(async () => {
      const body = { field: "stop_plan", value: textOf(stepsOf(text)), over: values.map((v) => v.entry) };
      const found = await record(core, { job, kind: "set", body });
      setWrong(found);
      if (found.length > 0) return;
      announce("The stop plan is kept");
      done();
    });
  const leave = () => {
    setWrong([]);
    done();
  };
  return { wrong, run, leave };
}

function StopSteps({ steps, generic, caution }: { steps: readonly string[]; generic: boolean; caution: string }) {
  return (
    <>
      {generic && <p class="quiet">If it must stop, this general list is shown, marked as general:</p>}
      <ol class="steps" data-test="stop-steps">
        {steps.map((s, i) => (
          <li key={i}>{s}</li>
        ))}
      </ol>
      <p class="mind">
        <Icon is="past" />
        <span>
          {!caution.includes(NEVER_LIFT) && <b>{NEVER_LIFT}</b>} {caution}
        </span>
      </p>
    </>
  );
}

interface StopFormProps {
  text: string;
  onText: (t: string) => void;
  set: SetStop;
  general: string;
}

function StopForm({ text, onText, set, general }: StopFormProps) {
  const form = useFormFocus("stop-edit");
  return (
    <form
      ref={form}
      tabIndex={-1}
      class="form inset"
      onSubmit={(e) => {
        e.preventDefault();
        set.run(text);
      }}
    >
      <TextField
        label="What is done, one step a line"
        test="stop-text"
        lines={8}
        value={text}
        onValue={onText}
        help={`In the order of your hands. ${NEVER_LIFT} Say too whether this object may be flushed.`}
        fault={faultAt(set.wrong, "value") || otherFaults(set.wrong, ["value"])}
      />
      {text.trim() === "" && general !== "" && (
        <button type="button" class="key" data-test="stop-general" onClick={() => onText(general)}>
          <Icon is="list" />
          Start from the general list
        </button>
      )}
      <div class="row">
        <button type="submit" class="key strong" data-test="stop-keep">
          <Icon is="tick" />
          Keep it
        </button>
        <button type="button" class="key" data-test="stop-leave" onClick={set.leave}>
          <Icon is="back" />
          Leave it
        </button>
      </div>
    </form>
  );
}

function ChooseStop({ values, onChoose }: { values: readonly FieldValue[]; onChoose: (text: string) => void }) {
  const now = useMinute();
  return (
    <>
      <p class="fault">
        <Icon is="choose" />
        Several stop plans were written at the same time. Choose the one to follow.
      </p>
      <div class="two-plans">
        {values.map((v) => (
          <section class="card" key={v.entry} aria-label={`The stop plan of ${v.by}`}>
            <p>
              <b>{v.by}</b> <small class="quiet">{when(v.at_ms, now)}</small>
            </p>
            <ol class="steps">
              {stepsOf(v.value).map((s, i) => (
                <li key={i}>{s}</li>
              ))}
            </ol>
            <button type="button" class="key strong" data-test="choose-stop" onClick={() => onChoose(v.value)}>
              <Icon is="tick" />
              Follow this one
            </button>
          </section>
        ))}
      </div>
    </>
  );
}
