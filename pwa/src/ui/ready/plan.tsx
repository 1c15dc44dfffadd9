// The plan of baths: as it stands, as two people made two of it, and while it is changed.
import { useState } from "preact/hooks";
import type { Plan, PlannedBath, State } from "../../core/api";
import { otherFaults, record, shelveLiquid, type Wrong } from "../base/acts";
import { useCore } from "../base/core";
import { useOneAtATime } from "../base/once";
import { who } from "../base/remember";
import { useMinute } from "../base/ticking";
import { bathWord, count, target, when } from "../base/words";
import { Alert } from "../parts/field";
import { Icon } from "../parts/icon";
import { announce } from "../parts/say";
import { BATHS, OTHERS } from "../sink/kinds";
import { useFormFocus } from "../parts/form-focus";
import { BathRow } from "./plan-bath";
import {
  addRow,
  chosenBody,
  draftOf,
  knownLiquids,
  planBody,
  rowFields,
  stillWrong,
  type PlanDraft,
  type Row,
} from "./plan-draft";
import type { What } from "../sink/kinds";

export interface Drafting {
  draft: PlanDraft | null;
  setDraft: (d: PlanDraft | null) => void;
}

export function planStands(state: State, draft: PlanDraft | null): string {
  const baths = state.plans[0]?.baths.length ?? 0;
  const stands =
    state.plans.length > 1
      ? `${state.plans.length} plans: choose one`
      : baths > 0
        ? count(baths, "bath planned", "baths planned")
        : "nothing planned yet";
  return draft ? `${stands}, your changes are not kept yet` : stands;
}

/** The baths that are reckoned with: as they are typed, else as they are planned. */
export function plannedRows(state: State, draft: PlanDraft | null): readonly Row[] {
  return draft ? draft.rows : draftOf(state.plans).rows;
}

export function PlanPart({ state, draft, setDraft }: { state: State } & Drafting) {
  if (draft) return <Editor state={state} draft={draft} setDraft={setDraft} />;
  if (state.plans.length > 1) return <ChoosePlan state={state} />;
  const baths = state.plans[0]?.baths ?? [];
  return (
    <>
      {baths.length > 0 ? (
        <PlannedBaths baths={baths} />
      ) : (
        <p class="quiet">
          With a plan the sink offers each bath as you planned it. You can leave the plan at any moment, or work without
          one.
        </p>
      )}
      <button
        type="button"
        class={baths.length > 0 ? "key" : "key strong"}
        data-test="plan-edit"
        onClick={() => setDraft(draftOf(state.plans))}
      >
        <Icon is={baths.length > 0 ? "pencil" : "more"} />
        {baths.length > 0 ? "Change the plan" : "Plan the baths"}
      </button>
    </>
  );
}

function PlannedBaths({ baths }: { baths: readonly PlannedBath[] }) {
  return (
    <ol class="planned">
      {baths.map((b, i) => (
        <li key={i} data-test="planned-bath">
          <b>{bathWord(b.what)}</b>
          <span>{bathSays(b)}</span>
        </li>
      ))}
    </ol>
  );
}

function bathSays(b: PlannedBath): string {
  return [
    b.liquid || (b.what !== "drying" && "liquid not said"),
    b.litres && `${b.litres} L`,
    b.target_s > 0 && target(b.target_s),
    b.temp_c && `${b.temp_c} °C`,
    b.batch && b.batch !== b.liquid && `batch ${b.batch}`,
  ]
    .filter(Boolean)
    .join(", ");
}

function ChoosePlan({ state }: { state: State }) {
  const core = useCore();
  const now = useMinute();
  const [wrong, setWrong] = useState<readonly Wrong[]>([]);
  const oneAtATime = useOneAtATime();
  const choose = (p: Plan) =>
    oneAtATime(async () => {
      setWrong(await record(core, { job: state.job, kind: "plan", body: chosenBody(p, state.plans) }));
    });
  return (
    <>
      <p class="fault">
        <Icon is="choose" />
        {state.plans.length === 2 ? "Two" : state.plans.length} plans were made at the same time. Choose the one to
        follow; the log keeps the others.
      </p>
      <div class="two-plans">
        {state.plans.map((p) => (
          <section key={p.entry} aria-label={`The plan of ${p.by}`} class="card" data-test="plan-of">
            <p>
              <b>{p.by}</b> <small class="quiet">{when(p.at_ms, now)}</small>
            </p>
            <PlannedBaths baths={p.baths} />
            <button type="button" class="key strong" data-test="choose-plan" onClick={() => void choose(p)}>
              <Icon is="tick" />
              Follow this one
            </button>
          </section>
        ))}
      </div>
      <Alert say={otherFaults(wrong, [])} />
    </>
  );
}

function Editor({ state, draft, setDraft }: { state: State; draft: PlanDraft; setDraft: Drafting["setDraft"] }) {
  const core = useCore();
  const [wrong, setWrong] = useState<readonly Wrong[]>([]);
  const [busy, setBusy] = useState(false);
  const form = useFormFocus("plan-edit");
  const oneAtATime = useOneAtATime();
  const change = (d: PlanDraft) => {
    setWrong(stillWrong(wrong, draft, d));
    setDraft(d);
  };
  const save = () =>
    oneAtATime(async () => {
      setBusy(true);
      const found = await record(core, { job: state.job, kind: "plan", body: planBody(draft) });
      setBusy(false);
      setWrong(found);
      if (found.length > 0) return;
      setDraft(null);
      announce("The plan is kept");
      const typed = draft.rows.filter((r) => r.own && r.liquid.trim()).map((r) => r.liquid.trim());
      if (who.peek()) for (const liquid of new Set(typed)) await shelveLiquid(core, liquid);
    });
  const overtaken = state.plans.some((p) => !draft.over.includes(p.entry));
  const liquids = knownLiquids(state, core.shelf.value, draft.rows);
  return (
    <form
      ref={form}
      tabIndex={-1}
      class="plan-form"
      onSubmit={(e) => {
        e.preventDefault();
        void save();
      }}
    >
      {overtaken && (
        <p class="fault" role="status">
          <Icon is="choose" />
          Meanwhile somebody kept another plan. If you keep yours, both are shown to choose from.
        </p>
      )}
      <ol class="plan-rows" tabIndex={-1} aria-label="Baths of the plan">
        {draft.rows.map((r, i) => (
          <BathRow key={r.key} place={i} row={r} draft={draft} liquids={liquids} wrong={wrong} onDraft={change} />
        ))}
      </ol>
      <AddBath draft={draft} onDraft={change} />
      <Alert say={otherFaults(wrong, rowFields(draft))} />
      <div class="row">
        <button type="submit" class="key strong" data-test="plan-keep" aria-disabled={busy}>
          <Icon is="tick" />
          Keep this plan
        </button>
        <button type="button" class="key" data-test="plan-leave" onClick={() => setDraft(null)}>
          <Icon is="back" />
          Let go of the changes
        </button>
      </div>
    </form>
  );
}

function AddBath({ draft, onDraft }: { draft: PlanDraft; onDraft: (d: PlanDraft) => void }) {
  const [more, setMore] = useState(false);
  const add = (what: What) => (
    <button
      type="button"
      key={what}
      class="key"
      data-test={`plan-add-${what}`}
      onClick={() => onDraft(addRow(draft, what))}
    >
      <Icon is="more" />
      {bathWord(what)}
    </button>
  );
  return (
    <div role="group" aria-label="Add a bath" class="add-baths">
      {BATHS.map(add)}
      {more ? (
        [...OTHERS, "drying" as const].map(add)
      ) : (
        <button type="button" class="key" data-test="plan-add-other" onClick={() => setMore(true)}>
          Another kind
        </button>
      )}
    </div>
  );
}
