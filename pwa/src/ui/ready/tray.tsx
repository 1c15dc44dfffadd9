// What the tray holds, from its inside measures; one tap puts it into the plan.
import { useState } from "preact/hooks";
import type { Reckoning } from "../../core/api";
import type { State } from "../../core/api";
import { useUnfinished } from "../base/unfinished";
import { bathWord, listed } from "../base/words";
import { Icon } from "../parts/icon";
import { announce } from "../parts/say";
import { Answer } from "../reckon/answer";
import { askedInputs, isAsked, isFilled, missing, startForm, type Filled } from "../reckon/form";
import { InputField } from "../reckon/input-field";
import { useReckonings } from "../reckon/reckonings";
import { NEVER_LIFT } from "../sink/stop-plan";
import type { Drafting } from "./plan";
import { plannedRows } from "./plan";
import { draftOf, fillLitres, inTray } from "./plan-draft";
import { figureOf, useReckoned } from "../reckon/use-reckoned";

export function TrayPart({ state, draft, setDraft }: { state: State } & Drafting) {
  const { list, say } = useReckonings();
  const tray = list?.find((r) => r.name === "tray");
  return (
    <>
      <p class="mind">
        <Icon is="past" />
        <b>{NEVER_LIFT}</b>
      </p>
      {tray ? (
        <TrayForm reckoning={tray} state={state} draft={draft} setDraft={setDraft} />
      ) : (
        <p class="quiet" role="status">
          {list ? "This version cannot reckon what a tray holds." : say}
        </p>
      )}
    </>
  );
}

function TrayForm({ reckoning: r, state, draft, setDraft }: { reckoning: Reckoning; state: State } & Drafting) {
  const kept = useUnfinished<Filled | null>(`tray.${state.job}`, () => null, isFilled);
  const [filled] = [kept.value ?? startForm(r, null)];
  const [touched, setTouched] = useState<ReadonlySet<string>>(new Set());
  const lacks = missing(r, filled);
  const { result, problems } = useReckoned("tray", lacks.length > 0 ? null : askedInputs(r, filled));
  const fault = (field: string): string => {
    const empty = (filled.values[field] ?? "").trim() === "";
    const said = problems.find((p) => p.field === field)?.say ?? "";
    if (said && !empty) return said;
    const i = lacks.find((x) => x.name === field);
    return i && touched.has(field) ? `${i.title} is still missing.` : "";
  };
  const fields = (optional: boolean) =>
    r.inputs
      .filter((i) => !i.of && i.optional === optional && isAsked(i, r.inputs, filled))
      .map((i) => (
        <InputField
          key={i.name}
          input={i}
          plusMinus={undefined}
          filled={filled}
          onChange={kept.set}
          onLeave={(f) => setTouched(new Set([...touched, f]))}
          fault={fault}
        />
      ));
  const litres = figureOf(result, "litres");
  return (
    <div class="tray-form">
      <form class="form" aria-label={r.title} onSubmit={(e) => e.preventDefault()}>
        {fields(false)}
        <details class="fold">
          <summary data-test="tray-more">Temperature, mass of the tray, how sure</summary>
          <div class="form">{fields(true)}</div>
        </details>
      </form>
      <div class="answer" aria-live="polite" data-test="tray-answer">
        {result ? (
          <>
            {litres && <IntoPlan litres={litres} state={state} draft={draft} setDraft={setDraft} />}
            <Answer result={result} />
          </>
        ) : (
          <p class="quiet">
            {lacks.length > 0
              ? `The litres come as soon as these are filled in: ${listed(lacks.map((i) => i.title))}.`
              : problems.map((p) => p.say).join(" ") || "Reckoning …"}
          </p>
        )}
      </div>
    </div>
  );
}

/** With several kinds of bath in one tray the usual wish is all of them; one alone is a tap as well. */
function IntoPlan({ litres, state, draft, setDraft }: { litres: string; state: State } & Drafting) {
  const rows = plannedRows(state, draft);
  const trays = rows.filter((x) => inTray(x.what));
  if (trays.length === 0) return <p class="quiet">Plan a bath, and these litres can be put into it from here.</p>;
  const put = (key: number | null) => {
    setDraft(fillLitres(draft ?? draftOf(state.plans), key, litres));
    announce(`${litres} litres put into the plan. Keep the plan when you are done.`);
  };
  return (
    <div class="into-plan" role="group" aria-label={`Put ${litres} L into the plan`}>
      <button type="button" class="key strong" data-test="tray-to-plan" onClick={() => put(null)}>
        <Icon is="bath" />
        Put {litres} L into {trays.length === 1 ? "the planned bath" : `all ${trays.length} planned baths`}
      </button>
      {trays.length > 1 &&
        trays.map((x) => (
          <button
            type="button"
            class={x.litres === litres ? "key chosen" : "key"}
            key={x.key}
            data-test={`tray-to-${rows.indexOf(x) + 1}`}
            onClick={() => put(x.key)}
          >
            {x.litres === litres && <Icon is="tick" />}
            only bath {rows.indexOf(x) + 1}, {bathWord(x.what)}
          </button>
        ))}
      {draft && <p class="quiet">The plan's changes are kept with “Keep this plan” above.</p>}
    </div>
  );
}
