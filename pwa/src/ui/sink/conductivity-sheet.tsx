// A conductivity, with what it needs to be compared: the liquor's temperature or a meter that compensates,
// whether it is the one at the bath's end, and its value at 25 °C as the core reckons it.
import { useState } from "preact/hooks";
import type { State } from "../../core/api";
import { deviceNow, useCore } from "../base/core";
import { keep, recall, isText } from "../base/remember";
import { Toggle } from "../parts/chips";
import { Icon } from "../parts/icon";
import { PadSheet } from "../parts/pad-sheet";
import { useReckoned } from "../reckon/use-reckoned";
import { stepName } from "../treatment";
import type { Bench } from "./bench";
import { conductivityBody, k25Inputs, liquorOf, metersFor, nearEnd } from "./conductivity";
import { kSays } from "./curve-scale";
import { keepAndClose } from "./keeping";
import { MeterSheet } from "./meter-sheet";
import { momentOf, NOW } from "./moment";
import { MomentKey } from "./moment-key";
import { pendingPoint } from "./pending";
import { lastSays } from "./reading-sheet";
import { nowAt } from "../base/ticking";

export function ConductivitySheet({ bench, source }: { bench: Bench; source: boolean }) {
  const core = useCore();
  const now = nowAt(core);
  const shown = source ? null : bench.shown;
  const [text, setText] = useState(source ? "" : (bench.state.last["conductivity"]?.value ?? ""));
  const [liquor, setLiquor] = useState(() => liquorOf(bench.state, shown, now));
  const [atEnd, setAtEnd] = useState(() => nearEnd(shown, now));
  const meter = useMeter();
  const [moment, setMoment] = useState(NOW);
  const [asking, setAsking] = useState<"liquor" | "meter" | null>(null);
  const k25 = useK25(bench.state, text, liquor, meter.compensates);

  const onKeep = async (_: number, value: string) => {
    const m = momentOf(moment, deviceNow.peek());
    const body = conductivityBody({
      value,
      of: shown?.entry ?? "",
      liquor,
      compensated: meter.compensates,
      source,
      atEnd,
      instrument: meter.name,
    });
    // Before the first rinse there is no curve to draw it in.
    const drawn = shown !== null && (shown.what === "rinse" || bench.watch?.rinse);
    if (drawn && k25 !== null)
      pendingPoint.value = {
        job: bench.state.job,
        place: shown.what === "rinse" ? shown.ordinal : 0,
        k25,
        before: bench.watch?.rinse?.points.length ?? 0,
      };
    const wrong = await keepAndClose(
      core,
      bench,
      { kind: "reading", body: { ...body, ...m.body }, ...m.at },
      `${source ? "Source water " : ""}${value} µS/cm kept`,
    );
    if (wrong) pendingPoint.value = null;
    return wrong;
  };

  // One question at a time: what was typed waits for the other.
  if (asking === "liquor")
    return (
      <PadSheet
        key="liquor"
        title="Water at the meter"
        unit="°C"
        start={liquor || (bench.state.last["temperature"]?.value ?? "")}
        help="The reading is brought to 25 °C with it. Kept with the reading."
        steps={[1, 0.1, -0.1, -1]}
        keep="Use it"
        held={false}
        onKeep={(_, t) => {
          setLiquor(t);
          setAsking(null);
          return "";
        }}
        onClose={() => setAsking(null)}
      />
    );
  if (asking === "meter") return <MeterSheet meter={meter} onClose={() => setAsking(null)} />;
  return (
    <PadSheet
      key="reading"
      title={source ? "Source water" : "Conductivity"}
      aside={source ? "before it is used" : shown ? stepName(shown) : "between baths"}
      unit="µS/cm"
      start={text}
      help={
        <>
          <span data-test="k25">{k25Says(k25, liquor, meter.compensates)}</span>
          <br />
          {source ? "of the water that rinses" : lastSays(bench, "conductivity")}
        </>
      }
      onText={setText}
      options={
        <>
          {shown && (
            <Toggle on={atEnd} test="at-end" onChange={setAtEnd}>
              at the end
            </Toggle>
          )}
          <button type="button" class="key option" data-test="liquor" onClick={() => setAsking("liquor")}>
            <Icon is="drop" />
            <span>{liquor ? `at ${liquor} °C` : "at ? °C"}</span>
          </button>
          <button type="button" class="key option" data-test="meter" onClick={() => setAsking("meter")}>
            <Icon is={meter.compensates ? "tick" : "empty"} />
            <span>meter corrects</span>
          </button>
          <MomentKey moment={moment} onMoment={setMoment} how />
        </>
      }
      steps={[10, 1, -1, -10]}
      keep="Keep this reading"
      held
      onKeep={onKeep}
      onClose={() => bench.ask(null)}
    />
  );
}

function k25Says(k25: number | null, liquor: string, compensates: boolean): string {
  if (k25 !== null) return compensates ? `${kSays(k25)} at 25 °C, as the meter has it` : `${kSays(k25)} at 25 °C`;
  return liquor || compensates ? "" : "Without the water's temperature it cannot be compared.";
}

export interface Meter {
  name: string;
  known: string[];
  compensates: boolean;
  choose: (name: string) => void;
  setCompensates: (on: boolean) => void;
}

/** The meter in use, and whether it compensates: as this device was told last, else as the shelf says. */
function useMeter(): Meter {
  const core = useCore();
  const shelf = core.shelf.value;
  const known = metersFor(shelf, "conductivity");
  const [name, setName] = useState(() =>
    recall("meter.conductivity", known.length === 1 ? (known[0] ?? "") : "", isText),
  );
  const [, again] = useState(0);
  const onShelf = shelf.instruments.find((i) => i.name === name)?.compensates ?? false;
  return {
    name,
    known,
    compensates: recall(`compensates.${name}`, onShelf, (v): v is boolean => typeof v === "boolean"),
    choose: (n) => {
      setName(n);
      keep("meter.conductivity", n);
    },
    setCompensates: (on) => {
      keep(`compensates.${name}`, on);
      again((n) => n + 1);
    },
  };
}

/** The value at 25 °C as the core reckons it; null while it has not, or cannot. */
function useK25(state: State, text: string, liquor: string, compensated: boolean): number | null {
  const way = state.fields["k25_way"]?.at(-1)?.value;
  const { result, current } = useReckoned("conductivity", k25Inputs(text, liquor, compensated, way));
  return (current ? result?.values.find((v) => v.name === "k25")?.value : null) ?? null;
}
