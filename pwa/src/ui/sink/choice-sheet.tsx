// Readings that are chosen, not typed: the colour of the bath against white, and suds.
import { useState } from "preact/hooks";
import type { ComponentChildren } from "preact";
import { deviceNow, useCore } from "../base/core";
import { Alert } from "../parts/field";
import { HoldButton } from "../parts/hold-button";
import { Icon } from "../parts/icon";
import { Sheet } from "../parts/sheet";
import type { Bench } from "./bench";
import { keepAndClose, ofStep } from "./keeping";
import { momentOf, NOW } from "./moment";
import { MomentKey } from "./moment-key";
import { COLOUR_WORDS, QUANTITIES, readingSays } from "./quantities";
import { asideOf, lastSays } from "./reading-sheet";

interface ChoiceProps {
  bench: Bench;
  q: "colour" | "suds";
}

export function ChoiceSheet({ bench, q }: ChoiceProps) {
  const core = useCore();
  const last = bench.state.last[q]?.value ?? null;
  const [value, setValue] = useState<string | null>(last);
  const [moment, setMoment] = useState(NOW);
  const [say, setSay] = useState("");
  const quantity = QUANTITIES[q];
  const onKeep = async () => {
    if (value === null) return setSay("Choose one first.");
    const m = momentOf(moment, deviceNow.peek());
    const body = { q, value, unit: quantity.unit, ...ofStep(bench), ...m.body };
    setSay(await keepAndClose(core, bench, { kind: "reading", body, ...m.at }, `${readingSays(q, value)}: kept`));
  };
  return (
    <Sheet title={quantity.title} aside={asideOf(bench)} onClose={() => bench.ask(null)}>
      <div class="choice-body">
        <p class="help">
          {q === "colour"
            ? "A little of the bath in a white dish, beside fresh water. "
            : "Shake a little in a closed jar. "}
          {lastSays(bench, q)}
        </p>
        {q === "colour" ? <Steps value={value} onValue={setValue} /> : <Suds value={value} onValue={setValue} />}
        <div class="pad-options">
          <MomentKey moment={moment} onMoment={setMoment} how />
        </div>
        <Alert say={say} />
      </div>
      <div class="pad-keep">
        <HoldButton
          test="keep"
          label="Keep this reading"
          icon="tick"
          about={value === null ? "nothing chosen" : readingSays(q, value)}
          onDone={onKeep}
        />
      </div>
    </Sheet>
  );
}

interface OneProps {
  value: string | null;
  onValue: (v: string) => void;
}

function Steps({ value, onValue }: OneProps) {
  return (
    <div class="shades" role="group" aria-label="Colour of the bath, 0 to 5">
      {COLOUR_WORDS.map((word, i) => (
        <Choice key={word} test={`colour-${i}`} on={value === String(i)} onChoose={() => onValue(String(i))}>
          <Shade of={i} />
          <b>{i}</b>
          <span>{word}</span>
        </Choice>
      ))}
    </div>
  );
}

/** The bath in a white dish: deeper with every step, by tone and by lines, so that no colour is needed to tell them apart. */
export function Shade({ of }: { of: number }) {
  return (
    <svg class="shade" viewBox="0 0 48 32" aria-hidden="true">
      <path class="dish" d="M3 6h42l-5 22H8z" />
      <path class={`stain s${of}`} d="M5 13h38l-3.4 15H8.4z" />
      {Array.from({ length: of }, (_, i) => (
        <path key={i} class="lines" d={`M${8 + i * 0.6} ${25.5 - i * 2.6}h${32 - i * 1.2}`} />
      ))}
    </svg>
  );
}

function Suds({ value, onValue }: OneProps) {
  return (
    <div class="shades pair" role="group" aria-label="Suds">
      <Choice test="suds-none" on={value === "0"} onChoose={() => onValue("0")}>
        <Jar suds={false} />
        <b>none</b>
        <span>they fall at once</span>
      </Choice>
      <Choice test="suds-yes" on={value === "1"} onChoose={() => onValue("1")}>
        <Jar suds />
        <b>yes</b>
        <span>they stay</span>
      </Choice>
    </div>
  );
}

function Jar({ suds }: { suds: boolean }) {
  return (
    <svg class="shade" viewBox="0 0 48 32" aria-hidden="true">
      <path class="dish" d="M14 2h20v28H14z" />
      <path class="lines" d="M14 16h20" />
      {suds && <path class="lines" d="M17 13a3 3 0 1 1 .1 0M24 12a4 4 0 1 1 .1 0M31 13a3 3 0 1 1 .1 0" />}
    </svg>
  );
}

interface OneChoiceProps {
  test: string;
  on: boolean;
  onChoose: () => void;
  children: ComponentChildren;
}

function Choice({ test, on, onChoose, children }: OneChoiceProps) {
  return (
    <button type="button" class={on ? "key chosen" : "key"} aria-pressed={on} data-test={test} onClick={onChoose}>
      {children}
      {on && <Icon is="tick" />}
    </button>
  );
}
