// A number asked for with big keys: readings, litres, minutes.
import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import { HoldButton } from "./hold-button";
import { Icon } from "./icon";
import { padKeyOf, padPress, padStep, readNumber, startPad, type Pad, type PadKey } from "./pad";
import { Sheet } from "./sheet";

interface PadSheetProps {
  title: string;
  aside?: string;
  /** Sign of the unit, "°C". */
  unit: string;
  /** What it starts from; empty where nothing is known. */
  start: string;
  /** Where the starting value comes from, or what is asked. */
  help: ComponentChildren;
  /** What can be said about the value, between it and the keys. */
  options?: ComponentChildren;
  /** Hears of every change, as text. */
  onText?: (text: string) => void;
  /** Up to four step keys. */
  steps: readonly number[];
  keep: string;
  /** Keeping it changes the record: a held press, as everywhere at the sink. Otherwise a plain key. */
  held: boolean;
  /** Resolves with a sentence when the value cannot be kept; what was typed stays. */
  onKeep: (value: number, text: string) => Promise<string> | string;
  onClose: () => void;
}

const ROWS: readonly PadKey[] = ["1", "2", "3", "4", "5", "6", "7", "8", "9", "dot", "0", "del"];

export function PadSheet(p: PadSheetProps) {
  const [pad, setPad] = useState<Pad>(startPad(p.start));
  const [say, setSay] = useState("");
  // Taps may come faster than the screen is drawn, so each starts from what the last one left.
  const change = (key: (p: Pad) => Pad) => {
    setPad(key);
    setSay("");
  };
  useEffect(() => p.onText?.(pad.text), [pad.text]);
  const keep = async () => {
    const n = readNumber(pad.text);
    if (n === null) return setSay(pad.text === "" ? "Nothing has been typed yet." : `${pad.text} is not a number.`);
    setSay(await p.onKeep(n, pad.text));
  };
  const onKey = (e: KeyboardEvent) => {
    const key = e.ctrlKey || e.metaKey || e.altKey ? null : padKeyOf(e.key);
    if (!key) return;
    e.preventDefault();
    change((p) => padPress(p, key));
  };
  return (
    <Sheet title={p.title} aside={p.aside} onClose={p.onClose} onKey={onKey}>
      <div class="pad-value" role="status">
        <output class={pad.fresh ? "n fresh" : "n"} data-test="pad-value">
          {pad.text || "–"}
        </output>
        <span class="unit">{p.unit}</span>
        <p class={say ? "fault" : "help"} data-test="pad-say">
          {say ? (
            <>
              <Icon is="past" />
              {say}
            </>
          ) : (
            p.help
          )}
        </p>
      </div>
      {p.options && <div class="pad-options">{p.options}</div>}
      <div class="pad-keys">
        <div class="pad">
          {ROWS.map((k) => (
            <button
              type="button"
              class="key"
              key={k}
              data-test={`key-${k}`}
              onClick={() => change((p) => padPress(p, k))}
            >
              <PadFace is={k} />
            </button>
          ))}
        </div>
        <StepKeys steps={p.steps} pad={pad} change={change} />
      </div>
      <div class="pad-keep">
        {p.held ? (
          <HoldButton
            test="keep"
            label={p.keep}
            icon="tick"
            about={pad.text ? `${pad.text} ${p.unit}` : "nothing typed"}
            onDone={keep}
          />
        ) : (
          <button type="button" class="key strong" data-test="keep" onClick={() => void keep()}>
            <Icon is="tick" />
            {p.keep}
          </button>
        )}
      </div>
    </Sheet>
  );
}

function StepKeys({
  steps,
  pad,
  change,
}: {
  steps: readonly number[];
  pad: Pad;
  change: (key: (p: Pad) => Pad) => void;
}) {
  const nothing = readNumber(pad.text) === null;
  return (
    <div class="pad-steps">
      {[...steps]
        .sort((a, b) => b - a)
        .map((s) => (
          <button
            type="button"
            class="key"
            key={s}
            data-test={s < 0 ? `step-less-${-s}` : `step-more-${s}`}
            disabled={nothing}
            onClick={() => change((p) => padStep(p, s))}
          >
            {s < 0 ? `− ${-s}` : `+ ${s}`}
          </button>
        ))}
    </div>
  );
}

function PadFace({ is }: { is: PadKey }) {
  if (is === "dot") return <span aria-label="decimal point">.</span>;
  if (is !== "del") return <>{is}</>;
  return (
    <span class="del">
      <Icon is="erase" />
      <small>rub out</small>
    </span>
  );
}
