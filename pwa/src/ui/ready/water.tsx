// Whether the water lasts: what the plan takes, held against what there is of the water that is chosen.
import type { State, Water } from "../../core/api";
import { useCore } from "../base/core";
import { isText } from "../base/remember";
import { useMinute } from "../base/ticking";
import { useUnfinished } from "../base/unfinished";
import { when } from "../base/words";
import { Field } from "../parts/field";
import { Icon } from "../parts/icon";
import { Answer } from "../reckon/answer";
import { plannedRows } from "./plan";
import type { PlanDraft } from "./plan-draft";
import { shownOf, useReckoned, type Reckoned } from "../reckon/use-reckoned";
import { waterAsked } from "./water-asked";

export function WaterPart({ state, draft }: { state: State; draft: PlanDraft | null }) {
  const core = useCore();
  const shelf = core.shelf.value;
  const { value: chosen, set: choose } = useUnfinished<string>(`water.${state.job}`, () => "", isText);
  const water = shelf.waters.find((w) => w.name === chosen) ?? shelf.waters[0] ?? null;
  const { inputs, notes } = waterAsked(plannedRows(state, draft), water, shelf);
  const answer = useReckoned("water_plan", inputs);
  return (
    <>
      {shelf.waters.length > 1 && (
        <Field label="Which water">
          {(ids) => (
            <select
              {...ids}
              data-test="water"
              value={water?.name ?? ""}
              onChange={(e) => choose(e.currentTarget.value)}
            >
              {shelf.waters.map((w) => (
                <option key={w.entry} value={w.name}>
                  {w.name}
                </option>
              ))}
            </select>
          )}
        </Field>
      )}
      {water ? <WaterSays water={water} /> : <p class="quiet">No water stands on the shelf yet.</p>}
      {inputs === null ? (
        <p class="quiet">The answer comes as soon as a bath of the plan has its litres.</p>
      ) : (
        <div class="answer" aria-live="polite" data-test="water-answer">
          <p class="verdict" data-test="water-verdict">
            {verdict(answer)}
          </p>
          {notes.map((n) => (
            <p key={n} class="quiet">
              {n}
            </p>
          ))}
          {answer.result && <Answer result={answer.result} />}
        </div>
      )}
      <a class="key" href="#/shelf/waters" data-test="to-waters">
        <Icon is="drop" />
        {water ? "Waters on the shelf: measure again, correct" : "Put a water on the shelf"}
      </a>
    </>
  );
}

function WaterSays({ water }: { water: Water }) {
  const now = useMinute();
  const parts = [
    water.stock_l ? `${water.stock_l} L there` : "how much is there is not said",
    water.make_l_h && `made at ${water.make_l_h} L/h`,
    water.conductivity && `${water.conductivity} µS/cm`,
    water.ph && `pH ${water.ph}`,
    `as of ${when(water.at_ms, now)}`,
  ];
  return (
    <p class="quiet">
      <b>{water.name}</b>: {parts.filter(Boolean).join(", ")}.
    </p>
  );
}

/** The answer in a sentence, from what the core reckoned. */
function verdict({ result, problems }: Reckoned): string {
  if (!result) return problems.length > 0 ? problems.map((p) => p.say).join(" ") : "Reckoning …";
  const total = shownOf(result, "total");
  const short = result.values.find((v) => v.name === "short");
  if (!short)
    return `The plan takes ${total}, two spare rinses counted. Whether that is there is not said on the shelf.`;
  if (short.value <= 0) return `It lasts for the planned baths and two spare rinses: ${total}.`;
  const hours = shownOf(result, "make_hours");
  const make = hours ? ` Making it takes ${hours}.` : "";
  return `It does not last for the planned baths and two spare rinses: ${short.shown} are missing of ${total}.${make}`;
}
