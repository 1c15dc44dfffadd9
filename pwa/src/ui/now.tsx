// Now: what runs in all open treatments. The times are large, the rest is quiet.
import type { State, Step, Summary } from "../core/api";
import { studioNow, useCore } from "./base/core";
import { bathWord, clockText, isPast, target, when } from "./base/words";
import { Digits } from "./parts/digits";
import { Icon } from "./parts/icon";
import { Page } from "./parts/page";
import { PlayDoor } from "./play/door";
import { clockSays } from "./sink/running";
import { nameOf, stepName } from "./treatment";

export function Now() {
  const open = useOpen();
  const runs = open.filter(({ running }) => running.length > 0);
  const rests = open.filter(({ running }) => running.length === 0);
  return (
    <Page title="Now">
      {open.length === 0 && <Nothing />}
      <ul class="cards">
        {runs.flatMap((o) => o.running.map((step) => <RunningCard key={step.entry} of={o} step={step} />))}
        {rests.map((o) => (
          <RestingCard key={o.summary.job} of={o} />
        ))}
      </ul>
      <nav class="foot" aria-label="Treatments">
        <a class="key wide" href="#/all" data-test="all">
          <Icon is="search" />
          All treatments
        </a>
        <a class="key wide strong" href="#/new" data-test="new">
          <Icon is="textile" />
          New treatment
        </a>
      </nav>
      <PlayDoor />
      <nav class="doors small" aria-label="Other pages">
        <a class="key" href="#/reckon">
          <Icon is="reckon" />
          Reckonings
        </a>
        <a class="key" href="#/shelf" data-test="shelf">
          <Icon is="drop" />
          The shelf
        </a>
        <a class="key" href="#/studio">
          <Icon is="house" />
          Studio page
        </a>
        <a class="key" href="#/phone">
          <Icon is="phone" />
          This device
        </a>
      </nav>
    </Page>
  );
}

export interface Open {
  summary: Summary;
  state: State | null;
  running: readonly Step[];
}

/** Open treatments, those whose bath is due first in front. */
export function useOpen(): Open[] {
  const core = useCore();
  return core.treatments.value
    .filter((t) => t.open && !t.removed)
    .map((summary) => {
      const state = core.dossier(summary.job).value;
      return { summary, state, running: state?.steps.filter((s) => !s.ended) ?? [] };
    })
    .sort((a, b) => dueMs(a) - dueMs(b) || b.summary.last_day - a.summary.last_day || byName(a, b));
}

function dueMs(o: Open): number {
  return Math.min(...o.running.map((s) => s.begun.ms + s.target_s * 1000), Number.MAX_SAFE_INTEGER);
}

function byName(a: Open, b: Open): number {
  return a.summary.name < b.summary.name ? -1 : 1;
}

export function RunningCard({ of, step }: { of: Open; step: Step }) {
  const elapsed = studioNow(useCore()) - step.begun.ms;
  const past = isPast(elapsed, step.target_s);
  return (
    <li>
      <a class={past ? "card runs past" : "card runs"} href={`#/t/${of.summary.job}`} data-test="card">
        <span class="of">
          <b>{title(of)}</b> · {stepName(step)}
        </span>
        <span class="face" role="timer" aria-label={clockSays(elapsed, step.target_s)}>
          <Digits left text={clockText(elapsed, step.target_s)} />
        </span>
        <span class="then">
          {past && <Icon is="past" />}
          {cardSays(step, past)}
        </span>
      </a>
    </li>
  );
}

function cardSays(s: Step, past: boolean): string {
  const bath = [s.litres && `${s.litres} L`, s.liquid].filter(Boolean).join(" ");
  if (s.target_s <= 0) return `running; ${bath}`;
  return past
    ? `past its ${target(s.target_s)}: end it or let it run; ${bath}`
    : `left of ${target(s.target_s)}; ${bath}`;
}

export function RestingCard({ of }: { of: Open }) {
  const now = studioNow(useCore());
  const last = of.state?.steps.at(-1);
  return (
    <li>
      <a class="card rests" href={`#/t/${of.summary.job}`} data-test="card">
        <span class="of">
          <b>{title(of)}</b>
          {of.summary.sample && " · sample"}
        </span>
        <span class="then">
          {!of.state
            ? "reading its log …"
            : last?.ended
              ? `nothing running; ${bathWord(last.what)} ${last.ordinal} ended ${when(last.ended.ms, now)}`
              : "nothing running; no bath yet"}
        </span>
      </a>
    </li>
  );
}

function title(of: Open): string {
  return of.state ? nameOf(of.state) : of.summary.name;
}

function Nothing() {
  const ready = useCore().status.value.core !== "loading";
  return (
    <p class="nothing" data-test="nothing">
      {ready
        ? "Nothing is under treatment. A new one needs no more than a name."
        : "Reading what is kept on this device …"}
    </p>
  );
}
