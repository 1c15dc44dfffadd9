// Amending an entry: the old values in a form, a reason, both versions kept.
import { useState } from "preact/hooks";
import type { LogLine } from "../../core/api";
import { faultAt, otherFaults, record, type Wrong } from "../base/acts";
import { useCore } from "../base/core";
import { bathWord } from "../base/words";
import { Fault, Field, TextField } from "../parts/field";
import { Icon } from "../parts/icon";
import { Sheet } from "../parts/sheet";
import { WHATS } from "../sink/bath";
import { bodyTexts, formOf, standing, textsBody, type FormField } from "./forms";
import { localInput, localOffset, readLocal } from "./local-time";

interface AmendProps {
  job: string;
  line: LogLine;
  onClose: () => void;
}

export function AmendSheet({ job, line, onClose }: AmendProps) {
  const versions = standing(line);
  const [chosen, choose] = useState(versions.length === 1 ? 0 : -1);
  const version = versions[chosen];
  return (
    <Sheet title="Amend" aside={line.say} onClose={onClose}>
      <div class="sheet-body">
        {versions.length > 1 && (
          <div class="choices long" role="group" aria-label="Two versions: choose the one to go on from">
            <p>Two people amended this at once. Choose the version that is right; it can be changed below.</p>
            {versions.map((v, i) => (
              <button
                type="button"
                key={v.entry}
                class={i === chosen ? "key big chosen" : "key big"}
                aria-pressed={i === chosen}
                data-test="version"
                onClick={() => choose(i)}
              >
                {i === chosen && <Icon is="tick" />}
                {v.say} ({v.by})
              </button>
            ))}
          </div>
        )}
        {version && <AmendForm key={version.entry} job={job} line={line} version={version} onClose={onClose} />}
      </div>
    </Sheet>
  );
}

function AmendForm({ job, line, version, onClose }: AmendProps & { version: ReturnType<typeof standing>[number] }) {
  const core = useCore();
  const [texts, setTexts] = useState(() => bodyTexts(line.kind, version.body));
  const [at, setAt] = useState(() => localInput(version.at, localOffset(line)));
  const [firstAt] = useState(at);
  const [why, setWhy] = useState("");
  const [wrong, setWrong] = useState<readonly Wrong[]>([]);
  const [busy, setBusy] = useState(false);
  const form = formOf(line.kind);

  const keep = async () => {
    if (busy) return;
    const moved = at !== firstAt ? readLocal(at, localOffset(line)) : version.at;
    if (moved === null) return setWrong([{ field: "at", say: "Give the day and the time." }]);
    setBusy(true);
    const body = {
      of: line.entry,
      over: [line.entry, ...line.amended.map((a) => a.entry)],
      kind: line.kind,
      ...(moved !== line.at.at ? { at: moved } : {}),
      body: textsBody(line.kind, version.body, texts),
      why,
    };
    const found = await record(core, { job, kind: "amend", body });
    setBusy(false);
    setWrong(found);
    if (found.length === 0) onClose();
  };
  const shown = [...form.map((f) => f.name), "at", "why"];
  const stray = otherFaults(wrong, shown);
  return (
    <form
      class="form"
      onSubmit={(e) => {
        e.preventDefault();
        void keep();
      }}
    >
      {form.map((f) => (
        <FormInput
          key={f.name}
          field={f}
          value={texts[f.name] ?? ""}
          fault={faultAt(wrong, f.name)}
          onValue={(v) => setTexts({ ...texts, [f.name]: v })}
        />
      ))}
      <TextField
        label="When it happened"
        type="datetime-local"
        test="amend-at"
        value={at}
        onValue={setAt}
        fault={faultAt(wrong, "at")}
      />
      <TextField
        label="Why it is amended"
        test="why"
        value={why}
        onValue={setWhy}
        fault={faultAt(wrong, "why")}
        help="The log keeps showing the first version, this one and the reason."
      />
      {stray && (
        <p class="fault" role="alert">
          <Fault say={stray} />
        </p>
      )}
      <button type="submit" class="key wide strong" data-test="amend-go" aria-disabled={busy}>
        <Icon is="pencil" />
        Amend this entry
      </button>
    </form>
  );
}

interface FormInputProps {
  field: FormField;
  value: string;
  fault: string;
  onValue: (v: string) => void;
}

function FormInput({ field, value, fault, onValue }: FormInputProps) {
  const test = `field-${field.name}`;
  if (field.kind === "what")
    return (
      <Field label={field.label} fault={fault}>
        {(ids) => (
          <select {...ids} data-test={test} value={value} onChange={(e) => onValue(e.currentTarget.value)}>
            {WHATS.map((w) => (
              <option key={w} value={w}>
                {bathWord(w)}
              </option>
            ))}
          </select>
        )}
      </Field>
    );
  const number = field.kind === "number" || field.kind === "minutes";
  return (
    <TextField
      label={field.label}
      test={test}
      value={value}
      onValue={onValue}
      fault={fault}
      mode={number ? "decimal" : "text"}
      lines={field.kind === "lines" ? 5 : 0}
    />
  );
}
