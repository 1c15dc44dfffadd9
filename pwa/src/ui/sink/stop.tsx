// After "Stop": the steps, large, one after the other; a photograph if somebody has a hand free; why, afterwards.
import { useState } from "preact/hooks";
import { useCore } from "../base/core";
import { recall, keep, isText } from "../base/remember";
import { timeOfDay } from "../base/words";
import { Alert, TextField } from "../parts/field";
import { HoldButton } from "../parts/hold-button";
import { Icon } from "../parts/icon";
import { PhotoKey } from "../parts/photo-key";
import { Sheet } from "../parts/sheet";
import type { Bench } from "./bench";
import { keepAndClose } from "./keeping";
import { askedAbort, NEVER_LIFT } from "./stop-plan";

export function StopFace({ bench }: { bench: Bench }) {
  const abort = askedAbort(bench.state);
  const now = bench.watch?.stop_plan;
  // What was shown at the stop stays on, also when another plan is agreed meanwhile.
  const shown = abort && abort.steps.length > 0 ? abort : now;
  const steps = shown?.steps ?? [];
  const generic = shown?.generic ?? false;
  const [place, setPlace] = useState(0);
  const last = place >= steps.length - 1;
  return (
    <Sheet
      title={abort ? `Stopped at ${timeOfDay(abort.at.ms)}` : "Stopped"}
      aside={generic ? "general steps" : "as agreed"}
      onClose={() => bench.ask(null)}
    >
      <div class="stop-face" data-test="stop-face">
        <p class="never-lift">
          <Icon is="past" />
          <b>{NEVER_LIFT}</b>
        </p>
        <div class="stop-step" role="status" aria-live="polite">
          {steps.length > 0 && (
            <p class="quiet">
              Step {place + 1} of {steps.length}
            </p>
          )}
          <p class="step-text" data-test="stop-step">
            {steps[place]}
          </p>
        </div>
        {generic && <p class="quiet small">{now?.caution}</p>}
        <div class="stop-turn">
          <button
            type="button"
            class="key"
            data-test="stop-back"
            disabled={place === 0}
            onClick={() => setPlace(place - 1)}
          >
            <Icon is="back" />
            Before
          </button>
          {last ? (
            <button type="button" class="key strong" data-test="stop-why" onClick={() => bench.ask("reason")}>
              <Icon is="pencil" />
              Done: say why
            </button>
          ) : (
            <button type="button" class="key strong" data-test="stop-next" onClick={() => setPlace(place + 1)}>
              <Icon is="tick" />
              Done, next
            </button>
          )}
        </div>
        <div class="stop-turn">
          <PhotoKey job={bench.state.job} of={abort?.entry ?? ""} text={`at the stop: ${steps[place] ?? ""}`} />
          <button type="button" class="key" data-test="reason-later" onClick={() => bench.ask(null)}>
            Why later
          </button>
        </div>
      </div>
    </Sheet>
  );
}

interface ReasonProps {
  bench: Bench;
  /** Entry that the reason is for; empty where it is not in the log yet. */
  of: string;
  title: string;
  asks: string;
  help: string;
}

export function ReasonSheet({ bench, of, title, asks, help }: ReasonProps) {
  const core = useCore();
  const key = `reason.${of}`;
  const [text, setText] = useState(() => recall(key, "", isText));
  const [say, setSay] = useState("");
  const onKeep = async () => {
    if (!of) return setSay("It is not in the log yet. Wait a moment and hold again.");
    const wrong = await keepAndClose(core, bench, { kind: "reason", body: { of, text } }, "The reason is kept");
    if (wrong) return setSay(wrong);
    keep(key, "");
  };
  return (
    <Sheet title={title} onClose={() => bench.ask(null)}>
      <div class="sheet-body">
        <TextField
          label={asks}
          test="reason-text"
          lines={5}
          value={text}
          onValue={(v) => {
            setText(v);
            setSay("");
            keep(key, v);
          }}
          help={help}
        />
        <Alert say={say} />
      </div>
      <div class="pad-keep">
        <HoldButton test="keep" label="Keep the reason" icon="tick" onDone={onKeep} />
      </div>
    </Sheet>
  );
}
