// Taking over: one screen for the colleague who comes to a sink where something is wet.
import type { State, Step, Watch } from "../../core/api";
import { studioNow, useCore } from "../base/core";
import { clockText, leftText, minutes, target, when } from "../base/words";
import { useFetched } from "../log/log";
import { Digits } from "../parts/digits";
import { Icon } from "../parts/icon";
import { Page } from "../parts/page";
import { lieSays } from "../sink/drying";
import { dwellSays } from "../sink/limit";
import { markOf, readingSays } from "../sink/quantities";
import { checkSays, clockSays } from "../sink/running";
import { NEVER_LIFT } from "../sink/stop-plan";
import { holding } from "../sink/warned";
import { bathSays, immersedMs, nameOf, stepName } from "../treatment";
import { atSink, lastReadings } from "./standing";
import { Take } from "./take";

interface Part {
  state: State;
  watch: Watch | null;
  /** Studio time. */
  now: number;
}

export function Hand({ job }: { job: string }) {
  const core = useCore();
  const state = core.dossier(job).value;
  const watch = core.watch(job).value;
  const now = studioNow(core);
  useFetched(job, state === null);
  if (!state)
    return (
      <Page title="Taking over" back={{ to: `#/t/${job}`, say: "Sink" }}>
        <p class="nothing">Reading its log …</p>
      </Page>
    );
  const part = { state, watch, now };
  return (
    <Page title={`Taking over: ${nameOf(state)}`} back={{ to: `#/t/${job}`, say: "Sink" }} wide>
      <div class="hand" data-test="hand-over">
        <div>
          <Wet {...part} />
          <Steps {...part} />
          <Next {...part} />
        </div>
        <div>
          <Limits {...part} />
          <Warned {...part} />
          <Readings {...part} />
        </div>
        <div>
          <Stop {...part} />
          <People {...part} />
        </div>
      </div>
      <Take state={state} />
    </Page>
  );
}

function Wet({ state, now }: Part) {
  const since = state.wet_since_ms;
  const says = since !== null ? `Wet since ${when(since, now)}` : state.dry ? "It is dry" : "It is not wet";
  return (
    <section aria-labelledby="hand-wet">
      <h2 id="hand-wet">
        <Icon is={since !== null ? "drop" : "dry"} />
        {says}
      </h2>
      {since !== null && (
        <p data-test="hand-wet">
          {minutes(now - since)}
          {state.running_since_ms !== null && `, immersed now since ${when(state.running_since_ms, now)}`}.
        </p>
      )}
      {since === null && state.dry && (
        <p>
          Declared {when(state.dry.at.ms, now)} by {state.dry.by}.
        </p>
      )}
    </section>
  );
}

function Steps({ state, watch, now }: Part) {
  const running = state.steps.filter((s) => !s.ended);
  const last = state.steps.at(-1);
  return (
    <section aria-labelledby="hand-runs">
      <h2 id="hand-runs">What runs</h2>
      {running.length === 0 && (
        <p>
          Nothing runs.{" "}
          {last?.ended && `${stepName(last)} ended ${when(last.ended.ms, now)} by ${last.ended_by || last.by}.`}
        </p>
      )}
      {running.map((s) => {
        const elapsed = now - s.begun.ms;
        const check = watch?.drying?.of === s.entry ? watch.drying.next_ms - now : null;
        const said = check === null ? clockSays(elapsed, s.target_s) : checkSays(check);
        return (
          <div class="hand-step" key={s.entry} data-test="hand-step">
            <p>
              <b>{stepName(s)}</b>
              {s.where && `, ${s.where}`}
              {s.uncleared && `, begun uncleared${s.reason ? `: ${s.reason}` : ", and why is not said yet"}`}
            </p>
            <span class="face" role="timer" aria-label={said}>
              <Digits left text={check === null ? clockText(elapsed, s.target_s) : leftText(check)} />
            </span>
            <p class="quiet">
              {check !== null
                ? "until the next check"
                : s.target_s > 0
                  ? `of ${target(s.target_s)}, until ${when(s.begun.ms + s.target_s * 1000, now)}`
                  : "running without a target"}
              {madeSays(s)}. Begun {when(s.begun.ms, now)} by {s.by}.
            </p>
          </div>
        );
      })}
    </section>
  );
}

function madeSays(s: Step): string {
  if (s.what === "drying") return lieSays(s) && `; ${lieSays(s)}`;
  const bath = bathSays(s);
  return [bath && `; ${bath}`, s.temp_c && `, planned at ${s.temp_c} °C`].filter(Boolean).join("");
}

function Next({ state, watch, now }: Part) {
  if (!watch) return null;
  const rinses = state.wet_since_ms !== null && !state.steps.some((s) => s.what === "drying" && !s.ended);
  return (
    <section class="hand-next" aria-labelledby="hand-next">
      <h2 id="hand-next">What comes next</h2>
      <p data-test="hand-next">
        <b>{watch.next.say || "Nothing is planned."}</b>
        {watch.next.at_ms !== null && ` ${when(watch.next.at_ms, now)}.`}
      </p>
      {watch.rinse && rinses && <p>{watch.rinse.say}</p>}
    </section>
  );
}

function Limits({ state, watch, now }: Part) {
  const limit = watch?.dwell;
  const gone = immersedMs(state, now);
  return (
    <section aria-labelledby="hand-limit">
      <h2 id="hand-limit">Limit</h2>
      <p data-test="hand-limit">
        <b>Immersed {minutes(gone)}</b>
        {limit && limit.s > 0
          ? ` of ${dwellSays(limit.s)} tested, ${Math.floor(gone / limit.s / 10)} %; ${leftSays(limit.s * 1000 - gone)}.`
          : "."}
      </p>
      {limit && limit.s > 0 && limit.name && (
        <p class="quiet">
          Tested{limit.colour && ` for ${limit.colour}`}
          {limit.liquid && ` in ${limit.liquid}`}; {limit.name} vouches for it.
        </p>
      )}
      {limit && limit.untested.length > 0 && (
        <ul class="reasons" aria-label="Without a test that fits">
          {limit.untested.map((u) => (
            <li key={u}>{u}</li>
          ))}
        </ul>
      )}
      {limit && limit.s === 0 && limit.untested.length === 0 && <p>{limit.say || "No test recorded."}</p>}
    </section>
  );
}

function leftSays(ms: number): string {
  return ms >= 0 ? `${minutes(ms)} left` : `${minutes(-ms)} past it`;
}

function Warned({ watch, now }: Part) {
  const hold = holding(watch?.warnings ?? [], now);
  return (
    <section aria-labelledby="hand-warned">
      <h2 id="hand-warned">To look at</h2>
      {hold.length === 0 && <p>No warning holds now.</p>}
      <ul class="warnings" data-test="hand-warnings">
        {hold.map((w) => (
          <li key={w.id} class={w.tone}>
            <Icon is={w.tone === "limit" ? "past" : "look"} />
            <span>{w.say}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}

function Readings({ state, now }: Part) {
  const last = lastReadings(state);
  return (
    <section aria-labelledby="hand-read">
      <h2 id="hand-read">Last readings</h2>
      {last.length === 0 && <p>None yet.</p>}
      <ul class="hand-list" data-test="hand-readings">
        {last.map((r) => {
          const mark = markOf(r);
          return (
            <li key={r.q}>
              <b>
                {readingSays(r.q, r.value)}
                {r.source && ", source water"}
              </b>
              <span>
                {minutes(now - r.at.ms)} ago, {when(r.at.ms, now)}, {r.by}
                {mark && `; ${mark}`}
              </span>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

function Stop({ watch }: Part) {
  const plan = watch?.stop_plan;
  if (!plan) return null;
  return (
    <section aria-labelledby="hand-stop">
      <h2 id="hand-stop">If it must be stopped</h2>
      <p>
        <b>{plan.generic ? "General steps: nothing was agreed for this object." : "As agreed for this object."}</b>
      </p>
      <ol class="hand-steps" data-test="hand-stop">
        {plan.steps.map((s, i) => (
          <li key={i}>{s}</li>
        ))}
      </ol>
      <p class="quiet">
        {plan.caution.includes(NEVER_LIFT) ? "" : `${NEVER_LIFT} `}
        {plan.caution}
      </p>
    </section>
  );
}

function People({ state, now }: Part) {
  const decides = (state.fields["decides"] ?? []).map((v) => v.value);
  const at = atSink(state);
  const away = state.wet_since_ms === null ? null : (state.overnights.at(-1) ?? null);
  return (
    <section aria-labelledby="hand-people">
      <h2 id="hand-people">Who</h2>
      <ul class="hand-list">
        <li>
          <b>{at ? at.by : "Nobody"}</b>
          <span data-test="hand-at-sink">
            {at ? `is at the sink, by the log of ${when(at.ms, now)}` : "is at the sink, by the log"}
          </span>
        </li>
        <li>
          <b>{decides.length > 0 ? decides.join(" or ") : "Not said"}</b>
          <span data-test="hand-decides">
            {decides.length > 1 ? "decides: two are named, ask them" : decides.length === 1 ? "decides" : "who decides"}
          </span>
        </li>
        {away && (
          <li>
            <b>{away.who}</b>
            <span>
              answers for it while nobody watches
              {away.until_ms !== null && `, back by ${when(away.until_ms, now)}`}
              {away.text && `: ${away.text}`}
            </span>
          </li>
        )}
      </ul>
    </section>
  );
}
