// The whole of the curve: every reading, what speaks for stopping and what is missing, and the decision.
import { useState } from "preact/hooks";
import type { Asked, Point, Rinse } from "../../core/api";
import { useCore } from "../base/core";
import { isText } from "../base/remember";
import { useUnfinished } from "../base/unfinished";
import { timeOfDay } from "../base/words";
import { Chips } from "../parts/chips";
import { Alert, TextField } from "../parts/field";
import { HoldButton } from "../parts/hold-button";
import { Icon } from "../parts/icon";
import { Sheet } from "../parts/sheet";
import { WorkingKey } from "../parts/working";
import type { Bench } from "./bench";
import { Curve } from "./curve";
import { changeSays } from "./curve-card";
import { kSays } from "./curve-scale";
import { keepAndClose } from "./keeping";
import { pendingFor, pendingPoint } from "./pending";
import { wide } from "./room";

export function CurveSheet({ bench }: { bench: Bench }) {
  const [deciding, setDeciding] = useState(false);
  const [tapped, setTapped] = useState<Point | null>(null);
  const rinse = bench.watch?.rinse ?? null;
  if (deciding && rinse) return <DecideSheet bench={bench} rinse={rinse} onBack={() => setDeciding(false)} />;
  return (
    <Sheet title="The rinses so far" aside="µS/cm at 25 °C" onClose={() => bench.ask(null)}>
      <div class="sheet-body">
        {!rinse && <p class="quiet">Nothing has been measured in a rinse yet.</p>}
        {rinse && (
          <>
            <Curve
              rinse={rinse}
              size={wide.value ? "large" : "sheet"}
              pending={pendingFor(bench.state.job, rinse, pendingPoint.value)}
              onPoint={setTapped}
            />
            {tapped && <Tapped point={tapped} work={bench.work} />}
            <Proposal rinse={rinse} />
            <div class="row">
              <button type="button" class="key strong" data-test="decide" onClick={() => setDeciding(true)}>
                <Icon is="tick" />
                Decide
              </button>
              {rinse.working.name && (
                <WorkingKey test="work-rinse" onAsk={() => bench.work("When rinsing may stop", rinse.working)} />
              )}
            </div>
            <Decided bench={bench} />
            <Readings rinse={rinse} tap={setTapped} />
          </>
        )}
        <button type="button" class="key" data-test="source" onClick={() => bench.ask("source")}>
          <Icon is="drop" />
          Measure the source water
        </button>
      </div>
    </Sheet>
  );
}

function Proposal({ rinse }: { rinse: Rinse }) {
  return (
    <section class="proposal" aria-label="What is proposed">
      <p data-test="proposal">
        <b>{rinse.say || rinse.refused}</b> {changeSays(rinse)}
      </p>
      {rinse.refused && !rinse.say.includes(rinse.refused) && <p>{rinse.refused}</p>}
      <ul class="reasons">
        {rinse.reasons.map((r) => (
          <li key={r}>{r}</li>
        ))}
      </ul>
    </section>
  );
}

function Tapped({ point: p, work }: { point: Point; work: (title: string, asked: Asked) => void }) {
  return (
    <div class="tapped" role="status" data-test="tapped">
      <p>
        <b>
          {p.label}, {timeOfDay(p.at_ms)}: {kSays(p.k25)} µS/cm at 25 °C.
        </b>{" "}
        Read {p.value} {howSays(p)}. {p.fitted ? "In the fit." : `Not in the fit: ${p.why_not || "no reason given"}.`}
      </p>
      {p.working.name && <WorkingKey test="work-point" onAsk={() => work(`${p.label} at 25 °C`, p.working)} />}
    </div>
  );
}

function howSays(p: Point): string {
  if (p.how === "compensated") return "by a meter that compensates";
  return p.liquor ? `at ${p.liquor} °C` : "at an unknown temperature, so it stays as it was read";
}

function Readings({ rinse, tap }: { rinse: Rinse; tap: (p: Point) => void }) {
  return (
    <ul class="readings" aria-label="All readings of the curve">
      {rinse.points.map((p) => (
        <li key={p.entry}>
          <button type="button" class="key big" onClick={() => tap(p)}>
            <svg class="sign" viewBox="0 0 12 12" width="14" height="14" aria-hidden="true">
              <circle class={p.fitted ? "ring" : "ring hollow"} cx="6" cy="6" r="4.5" />
            </svg>
            <span>
              {p.label}, {timeOfDay(p.at_ms)}
              {!p.fitted && <small> {p.why_not || "not in the fit"}</small>}
            </span>
            <b>{kSays(p.k25)}</b>
          </button>
        </li>
      ))}
    </ul>
  );
}

function Decided({ bench }: { bench: Bench }) {
  const list = bench.state.decisions;
  if (list.length === 0) return null;
  return (
    <ul class="facts" data-test="decided">
      {list.map((d) => (
        <li key={d.entry}>
          {timeOfDay(d.at.ms)} {d.what === "stop_rinsing" ? "Stop rinsing" : "Go on"}, {d.by}
          {d.why && `: ${d.why}`}
        </li>
      ))}
    </ul>
  );
}

/** Reasons that are often given; a person may write their own. */
const WHYS = {
  stop_rinsing: [
    "The last two rinses differ little and stand near the source water; no suds, no colour.",
    "It falls no further: something of the object itself is leaving.",
    "The time that was tested is nearly used.",
    "The object should not be wet for longer.",
  ],
  go_on: ["It still falls.", "There are still suds.", "The bath is still coloured.", "One more to be sure."],
} as const;

type What = keyof typeof WHYS;

function DecideSheet({ bench, rinse, onBack }: { bench: Bench; rinse: Rinse; onBack: () => void }) {
  const core = useCore();
  const [what, setWhat] = useState<What>(rinse.propose === "stop" ? "stop_rinsing" : "go_on");
  const { value: why, set: setWhy, forget } = useUnfinished<string>(`decide.${bench.state.job}`, () => "", isText);
  const [say, setSay] = useState("");
  const last = bench.shown?.entry ?? rinse.points.at(-1)?.of ?? "";
  const onKeep = async () => {
    if (why.trim() === "") return setSay("Say why: choose a reason or write one.");
    const body = { what, why: why.trim(), proposed: rinse.say || rinse.refused, ...(last ? { of: last } : {}) };
    const done = what === "stop_rinsing" ? "Decided: stop rinsing" : "Decided: go on";
    const wrong = await keepAndClose(core, bench, { kind: "decide", body }, done);
    if (wrong) return setSay(wrong);
    forget();
  };
  return (
    <Sheet title="Decide" aside="the reason is kept" onClose={onBack}>
      <div class="sheet-body">
        <p class="quoted" data-test="proposal">
          {rinse.say || rinse.refused}
        </p>
        <Chips<What>
          label="What is decided"
          choices={[
            ["stop_rinsing", "Stop rinsing"],
            ["go_on", "Go on"],
          ]}
          now={what}
          onChoose={(w) => {
            setWhat(w);
            // A reason of the list is one for the other decision; words of one's own stay.
            if (WHYS[what].some((x) => x === why)) setWhy("");
          }}
          test="decide"
        />
        <Chips
          label="Why"
          choices={WHYS[what].map((w) => [w, w] as const)}
          now={why}
          onChoose={setWhy}
          test="why"
          long
        />
        <TextField
          label="Or in your own words"
          test="decide-why"
          lines={2}
          value={why}
          onValue={(v) => {
            setWhy(v);
            setSay("");
          }}
        />
        <Alert say={say} />
      </div>
      <div class="pad-keep">
        <HoldButton test="keep" label="Keep the decision" icon="tick" onDone={onKeep} />
      </div>
    </Sheet>
  );
}
