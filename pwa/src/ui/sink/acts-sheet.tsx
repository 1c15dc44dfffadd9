// What is done to the object in one held press, with the minutes where it lasts.
import { useState } from "preact/hooks";
import { deviceNow, useCore } from "../base/core";
import { timeOfDay } from "../base/words";
import { Chips } from "../parts/chips";
import { Alert } from "../parts/field";
import { HoldButton } from "../parts/hold-button";
import type { IconName } from "../parts/icon";
import { Sheet } from "../parts/sheet";
import type { Bench } from "./bench";
import { keepAndClose, ofStep } from "./keeping";
import { momentOf, NOW } from "./moment";
import { MomentKey } from "./moment-key";
import { asideOf } from "./reading-sheet";
import { actSays } from "./running";

interface Kind {
  what: string;
  label: string;
  icon: IconName;
  /** It can last; a turn or a lift is a moment. */
  lasts: boolean;
}

const ACTS: readonly Kind[] = [
  { what: "sponge", label: "Sponge", icon: "sponge", lasts: true },
  { what: "rock", label: "Rock the tray", icon: "bath", lasts: true },
  { what: "press_water", label: "Press water through", icon: "drop", lasts: true },
  { what: "blot", label: "Blot", icon: "textile", lasts: true },
  { what: "turn", label: "Turn over", icon: "turn", lasts: false },
  { what: "lift", label: "Lift out", icon: "lift", lasts: false },
  { what: "drain", label: "Drain", icon: "drop", lasts: false },
  { what: "net_off", label: "Net or screen off", icon: "textile", lasts: false },
];

const LASTS: readonly (readonly [number, string])[] = [
  [0, "a moment"],
  [60, "1 min"],
  [120, "2 min"],
  [180, "3 min"],
  [300, "5 min"],
  [600, "10 min"],
];

export function ActsSheet({ bench }: { bench: Bench }) {
  const core = useCore();
  const [s, setS] = useState(0);
  const [moment, setMoment] = useState(NOW);
  const [say, setSay] = useState("");
  const onDone = async (k: Kind) => {
    const m = momentOf(moment, deviceNow.peek());
    const body = { what: k.what, ...ofStep(bench), ...(k.lasts && s > 0 ? { s } : {}) };
    const lasted = k.lasts && s > 0 ? `, ${s / 60} min` : "";
    const at = timeOfDay(deviceNow.peek() - moment.ago * 60000);
    setSay(await keepAndClose(core, bench, { kind: "act", body, ...m.at }, `${k.label}${lasted}: kept at ${at}`));
  };
  const done = bench.state.acts.slice(-8).reverse();
  return (
    <Sheet title="What is done" aside={asideOf(bench)} onClose={() => bench.ask(null)}>
      <div class="sheet-body acts">
        <Chips label="How long it lasts" choices={LASTS} now={s} onChoose={setS} test="lasts" even />
        <div class="act-keys">
          {ACTS.map((k) => (
            <HoldButton
              key={k.what}
              test={`act-${k.what}`}
              label={k.lasts && s > 0 ? `${k.label}, ${s / 60} min` : k.label}
              icon={k.icon}
              tone="quiet"
              onDone={() => onDone(k)}
            />
          ))}
        </div>
        <div class="pad-options">
          <MomentKey moment={moment} onMoment={setMoment} />
        </div>
        <Alert say={say} />
        {done.length > 0 && (
          <ul class="facts" data-test="acts-list">
            {done.map((a) => (
              <li key={a.entry}>
                {actSays(a)}, {a.by}
              </li>
            ))}
          </ul>
        )}
      </div>
    </Sheet>
  );
}
