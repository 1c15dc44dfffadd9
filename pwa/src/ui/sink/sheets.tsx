// The questions that open over the sink.
import { deviceNow } from "../base/core";
import { PadSheet } from "../parts/pad-sheet";
import { ActsSheet } from "./acts-sheet";
import type { Asked, Bench } from "./bench";
import { BatchSheet, KindSheet, LiquidSheet, WhereSheet } from "./bath-sheets";
import { ChoiceSheet } from "./choice-sheet";
import { ConductivitySheet } from "./conductivity-sheet";
import { CurveSheet } from "./curve-sheet";
import { DrySheet, OvernightSheet } from "./drying-sheets";
import { EstimateSheet } from "./estimate-sheet";
import { LimitSheet } from "./limit-sheet";
import { More } from "./more";
import { NoteSheet } from "./note-sheet";
import { ReadingSheet } from "./reading-sheet";
import { ReasonSheet, StopFace } from "./stop";
import { askedAbort } from "./stop-plan";
import { owesReason } from "./warned";
import { WarningsSheet } from "./warnings";

export function SinkSheet({ bench, asked }: { bench: Bench; asked: Exclude<Asked, "who"> }) {
  switch (asked) {
    case "note":
      return <NoteSheet bench={bench} />;
    case "more":
      return <More bench={bench} />;
    case "acts":
      return <ActsSheet bench={bench} />;
    case "kind":
      return <KindSheet bench={bench} />;
    case "liquid":
      return <LiquidSheet bench={bench} />;
    case "batch":
      return <BatchSheet bench={bench} />;
    case "where":
      return <WhereSheet bench={bench} />;
    case "litres":
    case "target":
    case "temp":
    case "air":
      return <AmountSheet bench={bench} asked={asked} />;
    case "ago":
      return <AgoSheet bench={bench} />;
    case "curve":
      return <CurveSheet bench={bench} />;
    case "limit":
      return <LimitSheet bench={bench} />;
    case "warnings":
      return <WarningsSheet bench={bench} />;
    case "stopped":
      return <StopFace bench={bench} />;
    case "reason":
      return <WhyStopped bench={bench} />;
    case "uncleared":
      return <WhyUncleared bench={bench} />;
    case "dry":
      return <DrySheet bench={bench} />;
    case "estimate":
      return <EstimateSheet bench={bench} />;
    case "overnight":
      return <OvernightSheet bench={bench} />;
    case "colour":
    case "suds":
      return <ChoiceSheet bench={bench} q={asked} />;
    case "source":
    case "conductivity":
      return <ConductivitySheet bench={bench} source={asked === "source"} />;
    default:
      return <ReadingSheet bench={bench} q={asked} />;
  }
}

function WhyStopped({ bench }: { bench: Bench }) {
  return (
    <ReasonSheet
      bench={bench}
      of={askedAbort(bench.state)?.entry ?? ""}
      title="Why it was stopped"
      asks="What was seen"
      help="The time and the steps are kept already. This can also be said later."
    />
  );
}

function WhyUncleared({ bench }: { bench: Bench }) {
  return (
    <ReasonSheet
      bench={bench}
      of={owesReason(bench.watch?.warnings ?? [])}
      title="Begun uncleared"
      asks="Why it was begun without a test"
      help="It stands in the record beside the bath, with your initials."
    />
  );
}

interface Amount {
  title: string;
  unit: string;
  help: string;
  steps: readonly number[];
  of: "litres" | "minutes" | "temp" | "air";
}

const AMOUNTS: Readonly<Record<"litres" | "target" | "temp" | "air", Amount>> = {
  litres: { title: "Litres in the tray", unit: "L", help: "for the next bath", steps: [5, 1, -1, -5], of: "litres" },
  target: {
    title: "Target time",
    unit: "min",
    help: "The clock counts down to it, and goes on past it.",
    steps: [5, 1, -1, -5],
    of: "minutes",
  },
  temp: {
    title: "Planned temperature",
    unit: "°C",
    help: "Readings more than 3 °C off it are pointed out. Rub it out for none.",
    steps: [5, 1, -1, -5],
    of: "temp",
  },
  air: {
    title: "Air speed over it",
    unit: "m/s",
    help: "for the drying time; rub it out where nobody measured",
    steps: [0.5, 0.1, -0.1, -0.5],
    of: "air",
  },
};

function AmountSheet({ bench, asked }: { bench: Bench; asked: keyof typeof AMOUNTS }) {
  const a = AMOUNTS[asked];
  const use = (text: string) => {
    bench.setBath({ ...bench.bath, [a.of]: text });
    bench.ask(null);
    return "";
  };
  return (
    <PadSheet
      title={a.title}
      unit={a.unit}
      start={bench.bath[a.of]}
      help={a.help}
      options={
        asked === "temp" || asked === "air" ? (
          <button type="button" class="key option" data-test="none" onClick={() => use("")}>
            <span>none</span>
          </button>
        ) : undefined
      }
      steps={a.steps}
      keep="Use it"
      held={false}
      onKeep={(_, text) => use(text)}
      onClose={() => bench.ask(null)}
    />
  );
}

function AgoSheet({ bench }: { bench: Bench }) {
  const ended = bench.shown !== null;
  const now = deviceNow.peek();
  return (
    <PadSheet
      title={bench.shown?.what === "drying" ? "It was earlier" : ended ? "It ended earlier" : "It began earlier"}
      unit="minutes ago"
      start={bench.earlier === null ? "0" : String(Math.round((now - bench.earlier) / 60000))}
      help="0 stands for now. The record will show that it was entered later."
      steps={[5, 1, -1, -5]}
      keep="Use this time"
      held={false}
      onKeep={(n) => {
        bench.setEarlier(n > 0 ? deviceNow.peek() - Math.round(n * 60000) : null);
        bench.ask(null);
        return "";
      }}
      onClose={() => bench.ask(null)}
    />
  );
}
