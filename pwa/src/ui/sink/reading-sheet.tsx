// A reading that is typed with big keys, from the last value on.
import { useState } from "preact/hooks";
import { deviceNow, useCore } from "../base/core";
import { when } from "../base/words";
import { PadSheet } from "../parts/pad-sheet";
import { stepName } from "../treatment";
import type { Bench } from "./bench";
import { keepAndClose, ofStep } from "./keeping";
import { MomentKey } from "./moment-key";
import { momentOf, NOW } from "./moment";
import { markOf, QUANTITIES, readingSays, type Q } from "./quantities";

export function ReadingSheet({ bench, q }: { bench: Bench; q: Q }) {
  const core = useCore();
  const [moment, setMoment] = useState(NOW);
  const quantity = QUANTITIES[q];
  const onKeep = (_: number, value: string) => {
    const m = momentOf(moment, deviceNow.peek());
    const body = { q, value, unit: quantity.unit, ...ofStep(bench), ...m.body };
    return keepAndClose(core, bench, { kind: "reading", body, ...m.at }, `${readingSays(q, value)} kept`);
  };
  return (
    <PadSheet
      title={quantity.title}
      aside={asideOf(bench)}
      unit={quantity.sign}
      start={bench.state.last[q]?.value ?? ""}
      help={lastSays(bench, q)}
      options={<MomentKey moment={moment} onMoment={setMoment} how />}
      steps={quantity.steps}
      keep="Keep this reading"
      held
      onKeep={onKeep}
      onClose={() => bench.ask(null)}
    />
  );
}

export function asideOf(bench: Bench): string {
  return bench.shown ? stepName(bench.shown) : "between baths";
}

/** Where the value that it starts from comes from. */
export function lastSays(bench: Bench, q: Q): string {
  const last = bench.state.last[q];
  if (!last) return "The first of this treatment";
  const mark = markOf(last);
  return `Last was ${readingSays(q, last.value)}, taken ${when(last.at.ms, deviceNow.peek())} by ${last.by}${mark && `, ${mark}`}`;
}
