// The drying board: the next check large, how long it has been wet, when it may be dry, what is missing for that.
import type { Drying, Step } from "../../core/api";
import { useCore } from "../base/core";
import { count, leftText, when } from "../base/words";
import { Digits } from "../parts/digits";
import { Icon } from "../parts/icon";
import { stepName } from "../treatment";
import type { Bench } from "./bench";
import { actsOf, checkSays, ClockFace, SeveralRun, useElapsed } from "./running";
import { nowAt, useTicking } from "../base/ticking";

export function DryingFace({ bench, step }: { bench: Bench; step: Step }) {
  const core = useCore();
  const found = bench.watch?.drying;
  const drying = found && found.of === step.entry ? found : null;
  const next = drying?.next_ms ?? 0;
  const past = useTicking((now) => next > 0 && now >= next + 1000, [next]).value;
  const at = nowAt(core);
  const done = actsOf(bench.state, step);
  return (
    <>
      {bench.running.length > 1 && <SeveralRun bench={bench} step={step} />}
      <section class={past ? "clock drying past" : "clock drying"} aria-label={stepName(step)}>
        <p class="what">
          {past && <Icon is="past" />}
          <b>{stepName(step)}</b>
          <span>{past ? " check is due" : " next check in"}</span>
        </p>
        {drying ? <NextCheck drying={drying} /> : <Since step={step} />}
        <p class="sub" data-test="running">
          {lieSays(step)}
        </p>
        {drying && <Estimate bench={bench} drying={drying} now={at} />}
        <p class="sub small aside" data-test="acts-done">
          {drying && `${count(drying.checks, "check", "checks")} so far`}
          {done && ` · ${done}`}
        </p>
      </section>
    </>
  );
}

function NextCheck({ drying }: { drying: Drying }) {
  const next = drying.next_ms;
  const left = useTicking((now) => Math.ceil((next - now) / 1000) * 1000, [next]).value;
  return (
    <div class="face" role="timer" aria-label={checkSays(left)} data-test="clock">
      <Digits text={leftText(left)} />
    </div>
  );
}

function Since({ step }: { step: Step }) {
  return <ClockFace step={step} elapsed={useElapsed(step)} />;
}

function Estimate({ bench, drying, now }: { bench: Bench; drying: Drying; now: number }) {
  return (
    <button type="button" class="estimate" data-test="estimate" onClick={() => bench.ask("estimate")}>
      <b>{drySays(drying, now)}</b>
      {drying.room_say && <span> Room {drying.room_say}.</span>}
    </button>
  );
}

/** "Dry about 15:30 to 17:00", as wide as the core has it. */
export function drySays(d: Drying, now: number): string {
  if (d.early_ms === null || d.late_ms === null) return d.say || "No estimate yet.";
  const from = when(d.early_ms, now);
  const to = when(d.late_ms, now);
  const range = from === to ? `about ${from}` : `about ${from} to ${to}`;
  return `Dry ${range}${d.corrected ? ", by the weighings" : ", a first guess"}.`;
}

/** How it lies: "face up, weights, gentle air 0.3 m/s, one face open, drying board". */
export function lieSays(s: Step): string {
  return [
    s.face && `face ${s.face}`,
    s.held === "none" ? "not held" : s.held,
    { still: "still air", gentle: "gentle air", fan: "fan" }[s.airflow] ?? "",
    s.air_m_s && `${s.air_m_s} m/s`,
    s.sides > 0 && (s.sides === 2 ? "both faces open" : "one face open"),
    s.where,
  ]
    .filter(Boolean)
    .join(", ");
}
