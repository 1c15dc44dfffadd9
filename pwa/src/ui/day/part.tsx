// What the parts of a day's sheet are made of.
import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";
import type { FieldValue } from "../../core/api";
import type { Span } from "./span";
import type { DayOf } from "./use-day";

export interface SheetProps {
  of: DayOf;
  span: Span;
  /** Studio time. */
  now: number;
}

export function Part({ title, children }: { title: string; children: ComponentChildren }) {
  const id = useId();
  return (
    <section class="paper-part" aria-labelledby={id}>
      <h3 id={id}>{title}</h3>
      {children}
    </section>
  );
}

/** Where two people gave two values both stand, until somebody has chosen. */
export function valuesSay(values: readonly FieldValue[] | undefined): string {
  return (values ?? []).map((v) => v.value).join(" or ");
}
