// The step that runs: its clock, large; what it is, and what was done in it, small.
import type { Act, State, Step } from "../../core/api";
import { deviceNow, useCore } from "../base/core";
import { wake } from "../base/wake";
import { clockText, duration, isPast, target, timeOfDay, when } from "../base/words";
import { Digits } from "../parts/digits";
import { Icon } from "../parts/icon";
import { bathSays, stepName } from "../treatment";
import type { Bench } from "./bench";
import { useTicking } from "../base/ticking";

export function Running({ bench, step }: { bench: Bench; step: Step }) {
  const core = useCore();
  const past = useTicking((now) => isPast(now - step.begun.ms, step.target_s), [step]).value;
  const at = deviceNow.peek() + core.status.value.offset_ms;
  const done = actsOf(bench.state, step);
  return (
    <>
      {bench.running.length > 1 && <SeveralRun bench={bench} step={step} />}
      <section class={past ? "clock past" : "clock"} aria-label={stepName(step)}>
        <p class="what">
          {past && <Icon is="past" />}
          <b>{stepName(step)}</b>
          {past && <span> past its {target(step.target_s)}</span>}
        </p>
        <LiveFace step={step} />
        <LiveBar step={step} />
        <p class="sub" data-test="running">
          {runningSays(step, past, at)}
        </p>
        {done && (
          <p class="sub small" data-test="acts-done">
            {done}
          </p>
        )}
        <p class="sub small aside">{asideSays(step, at)}</p>
      </section>
    </>
  );
}

/** Whole seconds since its begin, in milliseconds: who reads it is drawn again once a second. */
export function useElapsed(step: Step): number {
  return useTicking((now) => Math.floor((now - step.begun.ms) / 1000) * 1000, [step]).value;
}

function LiveFace({ step }: { step: Step }) {
  return <ClockFace step={step} elapsed={useElapsed(step)} />;
}

function LiveBar({ step }: { step: Step }) {
  return <Bar elapsed={useElapsed(step)} targetS={step.target_s} />;
}

export function ClockFace({ step, elapsed }: { step: Pick<Step, "target_s">; elapsed: number }) {
  const text = clockText(elapsed, step.target_s);
  return (
    <div class="face" role="timer" aria-label={clockSays(elapsed, step.target_s)} data-test="clock">
      <Digits text={text} />
    </div>
  );
}

/** The clock for who hears it, without seconds that would change under the reader. */
export function clockSays(elapsed: number, targetS: number): string {
  if (targetS <= 0) return `running for ${duration(elapsed)}`;
  const left = targetS * 1000 - elapsed;
  return left >= 0 ? `${duration(left)} left` : `${duration(-left)} past its target`;
}

/** A drying's next check for who hears it; `leftMs` until it, negative once it is due. */
export function checkSays(leftMs: number): string {
  return leftMs >= 0 ? `next check in ${duration(leftMs)}` : `a check has been due for ${duration(-leftMs)}`;
}

function runningSays(s: Step, past: boolean, now: number): string {
  const due = when(s.begun.ms + s.target_s * 1000, now);
  const bath = `${bathSays(s)}${s.temp_c && `, ${s.temp_c} °C`}`;
  if (s.target_s <= 0) return [bath, `begun ${when(s.begun.ms, now)}`].filter(Boolean).join(" · ");
  const of = [`of ${target(s.target_s)}`, bath].filter(Boolean).join(" · ");
  return past ? `${of} · was due ${due}. End it, or let it run on: the time is recorded` : `${of} · until ${due}`;
}

function asideSays(s: Step, now: number): string {
  const out = [`begun ${when(s.begun.ms, now)} by ${s.by}`];
  if (s.where) out.push(s.where);
  if (s.uncleared) out.push("begun uncleared");
  if (s.choose) out.push("two corrections: choose in the log");
  if (wake.value === "cannot") out.push("this browser cannot keep the screen on");
  return out.join(" · ");
}

/** What was done in a step, latest first, as far as a line goes; empty when nothing was. */
export function actsOf(state: State, step: Step, most = 3): string {
  return state.acts
    .filter((a) => a.of === step.entry)
    .slice(-most)
    .reverse()
    .map(actSays)
    .join(" · ");
}

/** "10:14 sponged, 2 min" */
export function actSays(a: Act): string {
  const lasted = a.s > 0 && !/\d/.test(a.say) ? `, ${duration(a.s * 1000)}` : "";
  return `${timeOfDay(a.at.ms)} ${a.say}${lasted}`;
}

/** How much of the target has gone, with the target's mark drawn from the first second. */
export function Bar({ elapsed, targetS }: { elapsed: number; targetS: number }) {
  if (targetS <= 0) return null;
  const whole = Math.max(targetS * 1000, elapsed);
  const mark = (targetS * 100000) / whole;
  const gone = Math.min(100, (Math.max(0, elapsed) * 100) / whole);
  return (
    <svg class="bar" viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
      <rect class="rest" width="100" height="8" />
      <rect class="gone" width={Math.min(gone, mark)} height="8" />
      <rect class="over" x={mark} width={Math.max(0, gone - mark)} height="8" />
    </svg>
  );
}

export function SeveralRun({ bench, step }: { bench: Bench; step: Step }) {
  return (
    <div class="several" role="group" aria-label="Several baths run at once. Choose which one to see">
      {bench.running.map((s) => (
        <button
          type="button"
          key={s.entry}
          class={s === step ? "key chosen" : "key"}
          aria-pressed={s === step}
          onClick={() => bench.show(s.entry)}
        >
          {s === step && <Icon is="tick" />}
          {stepName(s)}, {s.where || s.by}
        </button>
      ))}
    </div>
  );
}
