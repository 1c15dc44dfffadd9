// A labelled field with its help and its error, tied together for screen readers.
import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";
import { Icon } from "./icon";

export interface FieldIds {
  id: string;
  "aria-describedby": string;
  "aria-invalid": boolean;
}

interface FieldProps {
  label: ComponentChildren;
  help?: ComponentChildren;
  fault?: string;
  children: (ids: FieldIds) => ComponentChildren;
}

export function Field({ label, help, fault, children }: FieldProps) {
  const id = useId();
  return (
    <div class={fault ? "field wrong" : "field"}>
      <label for={id}>{label}</label>
      {children({ id, "aria-describedby": `${id}-says`, "aria-invalid": Boolean(fault) })}
      <p id={`${id}-says`} class={fault ? "fault" : "help"}>
        {fault ? <Fault say={fault} /> : help}
      </p>
    </div>
  );
}

export function Fault({ say }: { say: string }) {
  return (
    <>
      <Icon is="past" />
      <span>{say}</span>
    </>
  );
}

/** A fault that belongs to no field, read out at once; nothing while there is none. */
export function Alert({ say }: { say: string }) {
  if (!say) return null;
  return (
    <p class="fault" role="alert">
      <Fault say={say} />
    </p>
  );
}

interface TextFieldProps {
  label: string;
  value: string;
  onValue: (v: string) => void;
  test?: string;
  help?: ComponentChildren;
  fault?: string;
  lines?: number;
  type?: "text" | "search" | "datetime-local";
  mode?: "decimal" | "text";
}

export function TextField({ label, value, onValue, test, help, fault, lines, type, mode }: TextFieldProps) {
  const onInput = (e: { currentTarget: { value: string } }) => onValue(e.currentTarget.value);
  return (
    <Field label={label} help={help} fault={fault ?? ""}>
      {(ids) => {
        const all = { ...ids, "data-test": test, value, onInput };
        if (lines) return <textarea {...all} rows={lines} />;
        if (type === "datetime-local") return <input {...all} type="datetime-local" step="1" />;
        if (type === "search") return <input {...all} type="search" autocomplete="off" />;
        return <input {...all} type="text" inputMode={mode ?? "text"} autocomplete="off" />;
      }}
    </Field>
  );
}
