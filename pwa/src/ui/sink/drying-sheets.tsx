// Declaring it dry, and leaving it overnight.
import { useState } from "preact/hooks";
import { deviceNow, useCore } from "../base/core";
import { isText, who } from "../base/remember";
import { useUnfinished } from "../base/unfinished";
import { rfc3339 } from "../base/words";
import { Chips } from "../parts/chips";
import { Alert, TextField } from "../parts/field";
import { HoldButton } from "../parts/hold-button";
import { Sheet } from "../parts/sheet";
import { knownInitials } from "../parts/who";
import { stepName } from "../treatment";
import type { Bench } from "./bench";
import { keepAndClose } from "./keeping";
import { momentOf, NOW } from "./moment";
import { MomentKey } from "./moment-key";

type How = "touch" | "weight" | "humidity" | "other";

const HOWS: readonly (readonly [How, string])[] = [
  ["touch", "By touch"],
  ["weight", "By weight"],
  ["humidity", "By humidity"],
  ["other", "Otherwise"],
];

export function DrySheet({ bench }: { bench: Bench }) {
  const core = useCore();
  const [how, setHow] = useState<How | null>(null);
  const found = useUnfinished<string>(`dry.${bench.state.job}`, () => "", isText);
  const [moment, setMoment] = useState(NOW);
  const [say, setSay] = useState("");
  const m = () => momentOf(moment, deviceNow.peek()).at;
  const onKeep = async () => {
    if (how === null) return setSay("Choose how it was known.");
    const text = found.value.trim();
    const wrong = await keepAndClose(core, bench, { kind: "dry", body: { how, ...(text && { text }) }, ...m() }, "Dry");
    if (wrong) return setSay(wrong);
    found.forget();
  };
  const step = bench.shown;
  const onEnd = async () => {
    if (!step) return;
    setSay(
      await keepAndClose(core, bench, { kind: "end", body: { of: step.entry }, ...m() }, `${stepName(step)} ended`),
    );
  };
  return (
    <Sheet title="Dry" aside="ends the wet clock" onClose={() => bench.ask(null)}>
      <div class="sheet-body">
        <Chips label="How it was known" choices={HOWS} now={how} onChoose={setHow} test="dry" />
        <TextField
          label="What was found"
          test="dry-text"
          lines={3}
          value={found.value}
          onValue={found.set}
          help="Seams and hems last; the same weight twice, ten minutes apart."
        />
        <div class="pad-options">
          <MomentKey moment={moment} onMoment={setMoment} />
        </div>
        <Alert say={say} />
        <div class="pad-keep">
          <HoldButton test="keep" label="Declare it dry" icon="dry" onDone={onKeep} />
        </div>
        {step && (
          <section class="apart" aria-label="Not dry">
            <p class="quiet">Not dry, but no longer on this board: the drying ends, the wet clock goes on.</p>
            <HoldButton
              test="end"
              label={`End ${stepName(step).toLowerCase()}, still wet`}
              tone="quiet"
              onDone={onEnd}
            />
          </section>
        )}
      </div>
    </Sheet>
  );
}

/** Hours of the morning at which somebody may be back. */
const BACK: readonly (readonly [number, string])[] = [
  [7, "7:00"],
  [8, "8:00"],
  [9, "9:00"],
  [10, "10:00"],
];

export function OvernightSheet({ bench }: { bench: Bench }) {
  const core = useCore();
  const [name, setName] = useState(who.peek());
  const [hour, setHour] = useState<number | null>(null);
  const left = useUnfinished<string>(`overnight.${bench.state.job}`, () => "", isText);
  const [say, setSay] = useState("");
  const known = knownInitials(core).slice(0, 8);
  const onKeep = async () => {
    if (name.trim() === "") return setSay("Say who answers for it.");
    const until = hour === null ? {} : { until: rfc3339(nextMorning(deviceNow.peek(), hour)) };
    const text = left.value.trim();
    const body = { who: name.trim(), ...until, ...(text && { text }) };
    const wrong = await keepAndClose(
      core,
      bench,
      { kind: "overnight", body },
      `Left overnight, ${name.trim()} answers`,
    );
    if (wrong) return setSay(wrong);
    left.forget();
  };
  return (
    <Sheet title="Left overnight" aside="wet, and nobody watches" onClose={() => bench.ask(null)}>
      <div class="sheet-body">
        <h3>Who answers for it?</h3>
        <Chips
          label="Who answers for it"
          choices={known.map((k) => [k, k] as const)}
          now={name}
          onChoose={setName}
          test="overnight"
        />
        <TextField label="Somebody else" test="overnight-who" value={name} onValue={setName} />
        <h3>Who looks in, and when?</h3>
        <Chips label="Looks in at" choices={BACK} now={hour} onChoose={setHour} test="until" />
        <TextField
          label="How it is left"
          test="overnight-text"
          lines={2}
          value={left.value}
          onValue={left.set}
          help="Fans, weights, doors; where they can be reached."
        />
        <Alert say={say} />
      </div>
      <div class="pad-keep">
        <HoldButton test="keep" label="Keep it" icon="tick" onDone={onKeep} />
      </div>
    </Sheet>
  );
}

/** The next time that this hour comes on this device's clock: later today before it, else tomorrow. */
export function nextMorning(nowMs: number, hour: number): number {
  const d = new Date(nowMs);
  d.setHours(hour, 0, 0, 0);
  if (d.getTime() <= nowMs) d.setDate(d.getDate() + 1);
  return d.getTime();
}
