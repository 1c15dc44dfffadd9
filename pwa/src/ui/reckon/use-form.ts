// What stands in a form: kept on this device as it is typed, and given back after an example or a new start.
import { useRef, useState } from "preact/hooks";
import type { Reckoning } from "../../core/api";
import { keep, recall } from "../base/remember";
import { fillFrom, isFilled, startForm, together, type Filled } from "./form";

export interface FormInUse {
  filled: Filled;
  /** What stands there is an example, not anybody's figures. It is neither remembered nor kept with a treatment. */
  example: boolean;
  change: (f: Filled) => void;
  /** The same, where it takes away what stood there. */
  replace: (f: Filled) => void;
  showExample: () => void;
  startOver: () => void;
  /** Puts back what stood there before the example, the new start or a table filled in, and what stands there now the next time; null
   * where there is nothing to put back. */
  putBack: (() => void) | null;
}

/** `first` is what the form begins with, in place of what this device remembers; then it is not remembered either. */
export function useForm(r: Reckoning, first: Filled | undefined): FormInUse {
  const key = `reckon.${r.name}`;
  const [filled, setFilled] = useState<Filled>(() => first ?? startForm(r, recall<Filled | null>(key, null, isFilled)));
  const latest = useRef(filled);
  latest.current = filled;
  const [example, setExample] = useState(false);
  const [before, setBefore] = useState<Filled | null>(null);

  const put = (f: Filled, isExample: boolean, was: Filled | null) => {
    latest.current = f;
    setFilled(f);
    setExample(isExample);
    setBefore(was);
    if (!first && !isExample) keep(key, f);
  };
  const mine = example ? before : filled;
  return {
    filled,
    example,
    change: (f) => put(together(filled, f, latest.current), false, before),
    replace: (f) => put(together(filled, f, latest.current), false, mine),
    showExample: () => put(fillFrom(r, JSON.parse(r.example) as Record<string, unknown>), true, mine),
    startOver: () => put(startForm(r, null), false, mine),
    putBack: before && (() => put(before, false, example ? null : filled)),
  };
}
