// The form of one item: drawn from its fields. What is typed outlives leaving the page.
import { useState } from "preact/hooks";
import { faultAt, otherFaults, record, type Wrong } from "../base/acts";
import { useCore } from "../base/core";
import { useOneAtATime } from "../base/once";
import { isTextMap } from "../base/remember";
import { useUnfinished } from "../base/unfinished";
import { SHELF } from "../../core/ids";
import { Toggle } from "../parts/chips";
import { Alert, Field, TextField } from "../parts/field";
import { Icon } from "../parts/icon";
import { initialsFault, tidyInitials } from "../parts/initials";
import { announce } from "../parts/say";
import { useFormFocus } from "../parts/form-focus";
import { itemAt, itemBody, toggled, type ItemField, type Texts } from "./items";

interface ItemFormProps {
  what: string;
  /** The name that it has; empty for a new item, whose name is asked. */
  name: string;
  nameLabel: string;
  nameHelp: string;
  fields: readonly ItemField[];
  first: Texts;
  /** Members that the form does not ask. */
  rest?: Readonly<Record<string, unknown>>;
  onClose: () => void;
}

export function ItemForm({ what, name, nameLabel, nameHelp, fields, first, rest, onClose }: ItemFormProps) {
  const core = useCore();
  const start = () => ({ ...first, name });
  const typed = useUnfinished<Texts>(`shelf.${what}.${name}`, start, isTextMap);
  const [wrong, setWrong] = useState<readonly Wrong[]>([]);
  const oneAtATime = useOneAtATime();
  const form = useFormFocus(`${what}-${name ? "correct" : "add"}`);
  const texts = typed.value;
  const close = () => {
    typed.forget();
    onClose();
  };
  const keep = () =>
    oneAtATime(async () => {
      const named = name || nameTyped(what, texts["name"] ?? "");
      const unfit = what === "initials" ? initialsFault(named) : "";
      if (unfit) return setWrong([{ field: "name", say: unfit }]);
      const body = itemBody(what, named, fields, texts, rest);
      const at = itemAt(texts);
      if (at === null) return setWrong([{ field: "at", say: "Give the day and the time." }]);
      const found = await record(core, { job: SHELF, kind: "item", body, ...at });
      setWrong(found);
      if (found.length > 0) return;
      announce(`${String(body["name"])}: kept on the shelf`);
      close();
    });
  return (
    <form
      ref={form}
      tabIndex={-1}
      class="form inset"
      aria-label={name || nameLabel}
      data-test={`form-${what}`}
      onSubmit={(e) => {
        e.preventDefault();
        void keep();
      }}
    >
      {name === "" && (
        <TextField
          label={nameLabel}
          test={`${what}-name`}
          value={texts["name"] ?? ""}
          onValue={(v) => typed.set({ ...texts, name: v })}
          help={nameHelp}
          fault={faultAt(wrong, "name")}
        />
      )}
      <div class="item-fields">
        {fields.map((f) => (
          <ItemInput
            key={f.name}
            field={f}
            test={`${what}-${f.name}`}
            value={texts[f.name] ?? ""}
            onValue={(v) => typed.set({ ...texts, [f.name]: v })}
            fault={faultAt(wrong, f.name)}
          />
        ))}
      </div>
      <Alert say={otherFaults(wrong, ["name", ...fields.map((f) => f.name)])} />
      <div class="row">
        <button type="submit" class="key strong" data-test={`${what}-keep`}>
          <Icon is="tick" />
          {name ? "Keep it so" : "Put it on the shelf"}
        </button>
        <button type="button" class="key" data-test={`${what}-leave`} onClick={close}>
          <Icon is="back" />
          Leave it
        </button>
      </div>
    </form>
  );
}

/** Initials are kept in one way, however they were typed. */
function nameTyped(what: string, text: string): string {
  return what === "initials" ? tidyInitials(text) : text;
}

interface ItemInputProps {
  field: ItemField;
  test: string;
  value: string;
  onValue: (v: string) => void;
  fault: string;
}

function ItemInput({ field: f, test, value, onValue, fault }: ItemInputProps) {
  const side = f.beside ? "beside" : "";
  if (f.kind === "yes")
    return (
      <div class="field">
        <Toggle on={value === "yes"} test={test} onChange={(on) => onValue(on ? "yes" : "")}>
          {f.label}
        </Toggle>
        <p class="help">{f.help}</p>
      </div>
    );
  if (f.kind === "many") return <Many field={f} test={test} value={value} onValue={onValue} fault={fault} />;
  if (f.kind === "choice")
    return (
      <div class={side}>
        <Field label={f.label} help={f.help} fault={fault}>
          {(ids) => (
            <select {...ids} data-test={test} value={value} onChange={(e) => onValue(e.currentTarget.value)}>
              {f.choices?.map(([v, say]) => (
                <option key={v} value={v}>
                  {say}
                </option>
              ))}
            </select>
          )}
        </Field>
      </div>
    );
  return (
    <div class={side}>
      <TextField
        label={f.label}
        test={test}
        value={value}
        onValue={onValue}
        help={f.help}
        fault={fault}
        type={f.kind === "time" ? "datetime-local" : "text"}
        mode={f.kind === "number" ? "decimal" : "text"}
      />
    </div>
  );
}

function Many({ field: f, test, value, onValue, fault }: ItemInputProps) {
  const on = value.split(" ");
  return (
    <fieldset class="many">
      <legend>{f.label}</legend>
      {f.choices?.map(([v, say]) => (
        <Toggle key={v} on={on.includes(v)} test={`${test}-${v}`} onChange={() => onValue(toggled(f, value, v))}>
          {say}
        </Toggle>
      ))}
      <Alert say={fault} />
    </fieldset>
  );
}
