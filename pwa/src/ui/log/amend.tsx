// Amending an entry: the old values in a form, a reason, both versions kept.
import { useState } from "preact/hooks";
import type { LogLine } from "../../core/api";
import { faultAt, otherFaults, record, type Wrong } from "../base/acts";
import { useCore } from "../base/core";
import { isText, isTextMap } from "../base/remember";
import { letGo, useUnfinished } from "../base/unfinished";
import { bathWord } from "../base/words";
import { Alert, Field, TextField } from "../parts/field";
import { Icon } from "../parts/icon";
import { Sheet } from "../parts/sheet";
import { kin } from "../sink/kinds";
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
  const back = () => {
    for (const v of versions) letGo(`amend.${v.entry}`);
    onClose();
  };
  return (
    <Sheet title="Amend" aside={line.say} onClose={back}>
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

/** A correction as it is typed. */
interface Amendment {
  texts: Record<string, string>;
  at: string;
  why: string;
}

function isAmendment(v: unknown): v is Amendment {
  if (typeof v !== "object" || v === null) return false;
  const a = v as Record<string, unknown>;
  return isText(a["at"]) && isText(a["why"]) && isTextMap(a["texts"]);
}

function AmendForm({ job, line, version, onClose }: AmendProps & { version: ReturnType<typeof standing>[number] }) {
  const core = useCore();
  const [firstAt] = useState(() => localInput(version.at, localOffset(line)));
  const first = () => ({ texts: bodyTexts(line.kind, version.body), at: firstAt, why: "" });
  const { value, set, forget, found } = useUnfinished<Amendment>(`amend.${version.entry}`, first, isAmendment);
  const { texts, at, why } = value;
  const [wrong, setWrong] = useState<readonly Wrong[]>([]);
  const [busy, setBusy] = useState(false);
  const form = formOf(line.kind, version.body);

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
    const faults = await record(core, { job, kind: "amend", body });
    setBusy(false);
    setWrong(faults);
    if (faults.length > 0) return;
    forget();
    onClose();
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
      {found && (
        <p class="quiet" role="status">
          You left this unfinished before; this is what you had. Back lets go of it.
        </p>
      )}
      {form.map((f) => (
        <FormInput
          key={f.name}
          field={f}
          value={texts[f.name] ?? ""}
          fault={faultAt(wrong, f.name)}
          onValue={(v) => set({ ...value, texts: { ...texts, [f.name]: v } })}
        />
      ))}
      <TextField
        label="When it happened"
        type="datetime-local"
        test="amend-at"
        value={at}
        onValue={(v) => set({ ...value, at: v })}
        fault={faultAt(wrong, "at")}
      />
      <TextField
        label="Why it is amended"
        test="why"
        value={why}
        onValue={(v) => set({ ...value, why: v })}
        fault={faultAt(wrong, "why")}
        help="The log keeps showing the first version, this one and the reason."
      />
      <Alert say={stray} />
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
            {kin(value).map((w) => (
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
