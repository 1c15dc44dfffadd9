// The sink: one bath, one clock. Above is what is read, at the bottom what changes the record.
import { useEffect, useState } from "preact/hooks";
import type { Asked as Reckoned, State, Watch } from "../../core/api";
import { useCore } from "../base/core";
import { useUnfinished } from "../base/unfinished";
import { keepAwake } from "../base/wake";
import { Icon } from "../parts/icon";
import { useHeading } from "../parts/page";
import { Standing } from "../parts/standing";
import { WhoKey, WhoSheet } from "../parts/who";
import { WorkingSheet } from "../parts/working";
import { nameOf } from "../treatment";
import { firstBath, isBath, type Bath } from "./bath";
import type { Asked, Bench } from "./bench";
import { Clocks } from "./clocks";
import { CurveCard } from "./curve-card";
import { DryingFace } from "./drying";
import { DryingActs } from "./drying-acts";
import { Fetching } from "./fetching";
import { Keys } from "./keys";
import { Lately } from "./lately";
import { NextBath } from "./next-bath";
import { Running } from "./running";
import { SinkActs } from "./sink-acts";
import { SinkSheet } from "./sheets";
import { Warnings } from "./warnings";

export function Sink({ job }: { job: string }) {
  const core = useCore();
  const state = core.dossier(job).value;
  const watch = core.watch(job).value;
  return state ? <AtSink key={job} state={state} watch={watch} /> : <Fetching key={job} job={job} />;
}

function AtSink({ state, watch }: { state: State; watch: Watch | null }) {
  const [asked, ask] = useState<Asked | null>(null);
  const [worked, setWorked] = useState<{ title: string; asked: Reckoned } | null>(null);
  const bench = useBench(state, watch, ask, (title, asked) => setWorked({ title, asked }));
  const { shown } = bench;
  const awake = bench.running.length > 0;
  useEffect(() => (awake ? keepAwake() : undefined), [awake]);
  const dries = shown?.what === "drying";

  return (
    <div class={shown ? (dries ? "sink runs dries" : "sink runs") : "sink"}>
      <SinkTop state={state} ask={ask} />
      <Clocks bench={bench} />
      <main class="bench">
        {!shown ? (
          <NextBath bench={bench} />
        ) : dries ? (
          <DryingFace bench={bench} step={shown} />
        ) : (
          <Running bench={bench} step={shown} />
        )}
        <Warnings bench={bench} />
        {!dries && <CurveCard bench={bench} />}
      </main>
      <div class="hands">
        <Lately bench={bench} />
        <Keys bench={bench} />
        {dries ? <DryingActs bench={bench} /> : <SinkActs bench={bench} />}
      </div>
      {asked === "who" && <WhoSheet job={state.job} onClose={() => ask(null)} />}
      {asked && asked !== "who" && <SinkSheet bench={bench} asked={asked} />}
      {worked && <WorkingSheet title={worked.title} asked={worked.asked} onClose={() => setWorked(null)} />}
    </div>
  );
}

function useBench(state: State, watch: Watch | null, ask: Bench["ask"], work: Bench["work"]): Bench {
  const [chosen, show] = useState<string | "next" | null>(null);
  const bath = useUnfinished<Bath | null>(`bath.${state.job}`, () => null, isBath);
  const [earlier, setEarlier] = useState<number | null>(null);
  const [wrong, setWrong] = useState<Bench["wrong"]>([]);
  const running = state.steps.filter((s) => !s.ended);
  const shown = chosen === "next" ? null : (running.find((s) => s.entry === chosen) ?? running.at(-1) ?? null);
  return {
    state,
    watch,
    shown,
    running,
    bath: bath.value ?? firstBath(state, watch),
    setBath: (b) => {
      bath.set(b);
      setWrong([]);
    },
    // What comes after it is asked of the plan anew.
    bathBegun: () => {
      bath.set(null);
      bath.forget();
    },
    earlier,
    setEarlier,
    wrong,
    setWrong,
    ask,
    work,
    show,
  };
}

function SinkTop({ state, ask }: { state: State; ask: Bench["ask"] }) {
  const name = nameOf(state);
  const heading = useHeading(name);
  return (
    <header class="sink-top">
      <a class="key back" href="#/">
        <Icon is="back" />
        Now
      </a>
      <div class="names">
        <h1 ref={heading} tabIndex={-1}>
          {name}
        </h1>
        <Standing plain />
      </div>
      <WhoKey onAsk={() => ask("who")} />
    </header>
  );
}
