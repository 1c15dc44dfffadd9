// A reckoning made as one types. An answer that has been overtaken is dropped.
import { useEffect, useRef, useState } from "preact/hooks";
import type { Problem, Result } from "../../core/api";
import { useCore } from "../base/core";

export interface Reckoned {
  result: Result | null;
  problems: readonly Problem[];
}

const NOTHING: Reckoned = { result: null, problems: [] };

/** Asks nothing while `inputs` is null. The answer before stands until the next is there, when `current` is true again. */
export function useReckoned(
  name: string,
  inputs: Readonly<Record<string, unknown>> | null,
): Reckoned & { current: boolean } {
  const core = useCore();
  const key = JSON.stringify(inputs);
  const [answer, setAnswer] = useState({ ...NOTHING, of: "", failed: false });
  const asked = useRef(0);
  // What could not be reckoned is asked again when the core is there, or the library is, or can be fetched.
  const again = answer.failed && core.status.value.link === "on";
  const ready = `${core.status.value.core} ${core.library.value} ${again}`;
  useEffect(() => {
    const mine = ++asked.current;
    const answered = (a: Reckoned, failed = false) => mine === asked.current && setAnswer({ ...a, of: key, failed });
    if (inputs === null) return void answered(NOTHING);
    core.reckon(name, inputs).then(
      (a) => answered("problems" in a ? { result: null, problems: a.problems } : { result: a, problems: [] }),
      (e: unknown) => answered({ result: null, problems: [noAnswer(e)] }, true),
    );
  }, [name, key, ready]);
  return { ...answer, current: answer.of === key };
}

const noAnswer = (e: unknown): Problem => ({
  field: "",
  value: "",
  unit: "",
  allowed: "",
  say: e instanceof Error ? e.message : "It cannot be reckoned now.",
});

/** How a result's value is written for people; empty where it is not in it. */
export function shownOf(r: Result | null, name: string): string {
  return r?.values.find((v) => v.name === name)?.shown ?? "";
}

/** A result's value for a form, in its own unit, to the three figures that results are shown with. */
export function figureOf(r: Result | null, name: string): string {
  const v = r?.values.find((x) => x.name === name);
  return v ? String(Number(v.value.toPrecision(3))) : "";
}
