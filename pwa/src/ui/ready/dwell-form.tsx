import { useState } from "preact/hooks";
import type { State, Watch } from "../../core/api";
import { faultAt, otherFaults, record, type Wrong } from "../base/acts";
import { useCore } from "../base/core";
import { useOneAtATime } from "../base/once";
import { who } from "../base/remember";
import { useUnfinished } from "../base/unfinished";
import { Chips } from "../parts/chips";
import { Alert, Field, TextField } from "../parts/field";
import { Icon } from "../parts/icon";
import { announce } from "../parts/say";
import { liquidsFor } from "../sink/bath";
import { useFormFocus } from "../parts/form-focus";
import { blankDwell, colourSays, dwellBody, isDwellTyped, type DwellTyped } from "./dwells";

interface DwellFormProps {
  state: State;
  watch: Watch | null;
  colour: string;
  onClose: () => void;
}

export function DwellForm({ state, watch, colour, onClose }: DwellFormProps) {
  const core = useCore();
  const first = () => blankDwell(colour, watch?.dwell.liquid ?? "", who.peek());
  const { value: d, set, forget } = useUnfinished<DwellTyped>(`dwell.${state.job}.${colour}`, first, isDwellTyped);
  const [wrong, setWrong] = useState<readonly Wrong[]>([]);
  const oneAtATime = useOneAtATime();
  const form = useFormFocus("dwell-add");
  const liquids = [...new Set([...liquidsFor(core, state), d.liquid])].filter(Boolean);
  const close = () => {
    forget();
    onClose();
  };
  const keep = () =>
    oneAtATime(async () => {
      const found = await record(core, { job: state.job, kind: "dwell", body: dwellBody(d) });
      setWrong(found);
      if (found.length > 0) return;
      announce(`The test of ${colourSays(d.colour)} is kept`);
      close();
    });
  const number = (name: "minutes" | "temp" | "phFrom" | "phTo", label: string, field: string) => (
    <TextField
      label={label}
      mode="decimal"
      test={`dwell-${name}`}
      value={d[name]}
      onValue={(v) => set({ ...d, [name]: v })}
      fault={faultAt(wrong, field)}
    />
  );
  return (
    <form
      ref={form}
      tabIndex={-1}
      class="form inset"
      aria-label={`A test of ${colourSays(colour)}`}
      data-test="dwell-form"
      onSubmit={(e) => {
        e.preventDefault();
        void keep();
      }}
    >
      <h3>{colour ? `A test of ${colour}` : "A word for every colour"}</h3>
      <p class="quiet">
        Pressed and wet for this long without staining: a result that somebody looked at, wet and dry. What you leave
        empty stays “not said”.
      </p>
      <Field label="Liquid of the test" fault={faultAt(wrong, "liquid")} help="With its strength, as in the plan.">
        {(ids) => (
          <select
            {...ids}
            data-test="dwell-liquid"
            value={d.liquid}
            onChange={(e) => set({ ...d, liquid: e.currentTarget.value })}
          >
            <option value="">any liquid</option>
            {liquids.map((l) => (
              <option key={l} value={l}>
                {l}
              </option>
            ))}
          </select>
        )}
      </Field>
      <div class="two">
        {number("minutes", "Minutes", "s")}
        {number("temp", "Test at °C", "temp_c")}
      </div>
      <div class="two">
        {number("phFrom", "pH from", "ph_from")}
        {number("phTo", "pH to", "ph_to")}
      </div>
      <Chips
        label="Faces tested"
        test="dwell-faces"
        now={d.faces}
        choices={[
          ["both", "Both faces"],
          ["one", "One face"],
          ["", "Not said"],
        ]}
        onChoose={(faces) => set({ ...d, faces })}
      />
      <TextField
        label="Who vouches for it"
        test="dwell-name"
        value={d.name}
        onValue={(name) => set({ ...d, name })}
        help="Name or initials of who did the test."
        fault={faultAt(wrong, "name")}
      />
      <Alert say={otherFaults(wrong, ["liquid", "s", "temp_c", "ph_from", "ph_to", "name"])} />
      <div class="row">
        <button type="submit" class="key strong" data-test="dwell-keep">
          <Icon is="tick" />
          Keep this test
        </button>
        <button type="button" class="key" data-test="dwell-leave" onClick={close}>
          <Icon is="back" />
          Leave it
        </button>
      </div>
    </form>
  );
}
