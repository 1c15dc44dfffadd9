// The sink: one bath, one clock. Above is what is read, at the bottom what changes the record.
import { useEffect, useState } from "preact/hooks";
import type { State } from "../../core/api";
import { useCore } from "../base/core";
import { useUnfinished } from "../base/unfinished";
import { keepAwake } from "../base/wake";
import { Icon } from "../parts/icon";
import { useHeading } from "../parts/page";
import { Standing } from "../parts/standing";
import { WhoKey, WhoSheet } from "../parts/who";
import { nameOf } from "../treatment";
import { Band } from "./band";
import type { Asked, Bench } from "./bench";
import { firstBath, isBath, type Bath } from "./bath";
import { Keys } from "./keys";
import { NextBath } from "./next-bath";
import { Running } from "./running";
import { SinkActs } from "./sink-acts";
import { SinkSheet } from "./sheets";

export function Sink({ job }: { job: string }) {
  const core = useCore();
  const state = core.dossier(job).value;
  return state ? <AtSink key={job} state={state} /> : <Fetching key={job} job={job} />;
}

function AtSink({ state }: { state: State }) {
  const [asked, ask] = useState<Asked | null>(null);
  const [chosen, show] = useState<string | "next" | null>(null);
  const bath = useUnfinished<Bath | null>(`bath.${state.job}`, () => null, isBath);
  const [earlier, setEarlier] = useState<number | null>(null);
  const [wrong, setWrong] = useState<Bench["wrong"]>([]);

  const running = state.steps.filter((s) => !s.ended);
  const shown = chosen === "next" ? null : (running.find((s) => s.entry === chosen) ?? running.at(-1) ?? null);
  const bench: Bench = {
    state,
    shown,
    running,
    bath: bath.value ?? firstBath(state),
    setBath: (b) => {
      bath.set(b);
      setWrong([]);
    },
    bathBegun: bath.forget,
    earlier,
    setEarlier,
    wrong,
    setWrong,
    ask,
    show,
  };
  const awake = running.length > 0;
  useEffect(() => (awake ? keepAwake() : undefined), [awake]);

  return (
    <div class={shown ? "sink runs" : "sink"}>
      <SinkTop state={state} ask={ask} />
      <Band bench={bench} />
      <main class="bench">{shown ? <Running bench={bench} step={shown} /> : <NextBath bench={bench} />}</main>
      <div class="hands">
        <Keys bench={bench} />
        <SinkActs bench={bench} />
      </div>
      {asked === "who" && <WhoSheet onClose={() => ask(null)} />}
      {asked && asked !== "who" && <SinkSheet bench={bench} asked={asked} />}
    </div>
  );
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

function Fetching({ job }: { job: string }) {
  const core = useCore();
  const [say, setSay] = useState("");
  const ready = core.status.value.core === "ready";
  const paired = core.status.value.dev !== "";
  useEffect(() => {
    if (!ready) return;
    core.open(job).catch((e: unknown) => {
      const why = e instanceof Error ? e.message : "";
      setSay(`Its log is not on this device and cannot be fetched now. ${why}`);
    });
  }, [job, ready]);
  const summary = core.treatments.value.find((t) => t.job === job);
  return (
    <div class="page">
      <header class="top">
        <a class="key back" href="#/">
          <Icon is="back" />
          Now
        </a>
        <h1>{summary?.name ?? "Treatment"}</h1>
        <Standing />
      </header>
      <main class="body">
        <p class="quiet" role="status" data-test="fetching">
          {!paired
            ? "What was entered is kept on this device. It is shown once the device has been paired with a studio machine."
            : say || "Reading its log …"}
        </p>
        {!paired && (
          <a class="key strong" href="#/pair">
            <Icon is="link" />
            Pair it
          </a>
        )}
      </main>
    </div>
  );
}
