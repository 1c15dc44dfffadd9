import { useState } from "preact/hooks";
import type { FieldValue } from "../../core/api";
import { faultAt, otherFaults, record, type Wrong } from "../base/acts";
import { useCore } from "../base/core";
import { isText } from "../base/remember";
import { useOneAtATime } from "../base/once";
import { useMinute } from "../base/ticking";
import { useUnfinished } from "../base/unfinished";
import { when } from "../base/words";
import { Alert, TextField } from "../parts/field";
import { Icon } from "../parts/icon";

export interface Fact {
  field: string;
  label: string;
  unit: string;
  number: boolean;
  help: string;
}

export const FACTS: readonly Fact[] = [
  { field: "name", label: "Name", unit: "", number: false, help: "What your colleagues know it by." },
  { field: "number", label: "Number", unit: "", number: false, help: "As it stands on its label or in your register." },
  {
    field: "object_kind",
    label: "Kind of object",
    unit: "",
    number: false,
    help: "Flag, bonnet, sampler: one word, the same each time, so that estimates find what is alike.",
  },
  { field: "fibre", label: "Fibre", unit: "", number: false, help: "And how it was found out, if you know." },
  { field: "dry_mass_g", label: "Dry mass", unit: "g", number: true, help: "Weighed before the first wetting." },
  { field: "width_mm", label: "Width", unit: "mm", number: true, help: "At the widest, dry." },
  { field: "height_mm", label: "Height", unit: "mm", number: true, help: "At the highest, dry." },
  { field: "colours", label: "Colours", unit: "", number: false, help: "Every dyed colour, parted by commas." },
];

/** What the watch goes by in this treatment; common practice where nothing is said. */
export const SETTINGS: readonly Fact[] = [
  {
    field: "pick_up_pct",
    label: "Water taken up",
    unit: "% of the dry mass",
    number: true,
    help: "By a trial on something alike. For the first estimate of drying.",
  },
  { field: "reading_every_min", label: "Readings every", unit: "min", number: true, help: "10 where nothing is said." },
  {
    field: "dry_first_min",
    label: "Drying checked at first every",
    unit: "min",
    number: true,
    help: "15 where nothing is said.",
  },
  { field: "dry_first_hours", label: "So for the first", unit: "h", number: true, help: "2 where nothing is said." },
  {
    field: "dry_later_min",
    label: "Drying checked later every",
    unit: "min",
    number: true,
    help: "60 where nothing is said.",
  },
  {
    field: "k25_way",
    label: "Conductivity at 25 °C by",
    unit: "",
    number: false,
    help: "linear (2 % a degree) where nothing is said; iso7888 for natural water of 60 to 1000 µS/cm.",
  },
];

interface FactRowProps {
  job: string;
  fact: Fact;
  values: readonly FieldValue[];
}

/** One field: its value, or the two that people gave; and a form to say it or say it anew. */
export function FactRow({ job, fact, values }: FactRowProps) {
  const core = useCore();
  const now = useMinute();
  const unfinished = useUnfinished<string | null>(`fact.${job}.${fact.field}`, () => null, isText);
  const typed = unfinished.value;
  const leave = () => {
    unfinished.set(null);
    unfinished.forget();
  };
  const [wrong, setWrong] = useState<readonly Wrong[]>([]);
  const oneAtATime = useOneAtATime();
  const set = (value: string) =>
    oneAtATime(async () => {
      const body = { field: fact.field, value: value.trim(), over: values.map((v) => v.entry) };
      const found = await record(core, { job, kind: "set", body });
      setWrong(found);
      if (found.length === 0) leave();
    });
  const unit = fact.unit && ` ${fact.unit}`;
  const value = values[0];
  return (
    <div class={values.length > 1 ? "fact two" : "fact"} data-test={`fact-${fact.field}`}>
      <dt>{fact.label}</dt>
      <dd>
        {values.length > 1 ? (
          <>
            <Choice values={values} unit={unit} onChoose={(v) => void set(v)} />
            {typed === null && <Alert say={otherFaults(wrong, [])} />}
          </>
        ) : (
          <span class={value ? "known" : "quiet"}>
            {value ? value.value + unit : "not said yet"}{" "}
            {value && (
              <small>
                {value.by}, {when(value.at_ms, now)}
              </small>
            )}
          </span>
        )}
        {typed === null && (
          <button
            type="button"
            class="key"
            data-test={`set-${fact.field}`}
            onClick={() => unfinished.set(value?.value ?? "")}
          >
            <Icon is="pencil" />
            {value ? "Change" : "Say it"}
            <span class="unseen">: {fact.label}</span>
          </button>
        )}
        {typed !== null && (
          <form
            class="form inset"
            onSubmit={(e) => {
              e.preventDefault();
              void set(typed);
            }}
          >
            <TextField
              label={fact.label + (fact.unit && `, ${fact.unit}`)}
              test={`value-${fact.field}`}
              value={typed}
              onValue={unfinished.set}
              mode={fact.number ? "decimal" : "text"}
              help={fact.help}
              fault={faultAt(wrong, "value") || otherFaults(wrong, ["value"])}
            />
            <div class="row">
              <button type="submit" class="key strong" data-test={`keep-${fact.field}`}>
                <Icon is="tick" />
                Keep it
              </button>
              <button
                type="button"
                class="key"
                onClick={() => {
                  leave();
                  setWrong([]);
                }}
              >
                <Icon is="back" />
                Leave it
              </button>
            </div>
          </form>
        )}
      </dd>
    </div>
  );
}

interface ChoiceProps {
  values: readonly FieldValue[];
  unit: string;
  onChoose: (value: string) => void;
}

function Choice({ values, unit, onChoose }: ChoiceProps) {
  const now = useMinute();
  return (
    <div class="choices long" role="group" aria-label="Two values: choose the right one">
      <p class="fault">
        <Icon is="choose" />
        {values.length === 2 ? "Two" : values.length} people wrote this at the same time. Choose the right value:
      </p>
      {values.map((v) => (
        <button type="button" class="key big" key={v.entry} data-test="choose" onClick={() => onChoose(v.value)}>
          {v.value + unit}
          <small>
            {v.by}, {when(v.at_ms, now)}
          </small>
        </button>
      ))}
    </div>
  );
}
