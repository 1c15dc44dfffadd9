// One card of the board: object, step and place, the time left large, and what is due when.
import type { Step } from "../core/api";
import { clockText, duration, isPast, leftText, minutes, target, when } from "./base/words";
import type { Card, DueThing, Open } from "./board";
import { dueSays } from "./due-says";
import { Digits } from "./parts/digits";
import { Icon } from "./parts/icon";
import { checkSays, clockSays } from "./sink/running";
import { bathSays, nameOf, stepName } from "./treatment";

interface CardProps {
  card: Card;
  /** Studio time. */
  now: number;
}

export function CardOf({ card, now }: CardProps) {
  const { of, step, due } = card;
  if (!step) return <RestingCard of={of} due={due} now={now} />;
  return step.what === "drying" ? (
    <DryingCard of={of} step={step} due={due} now={now} />
  ) : (
    <BathCard of={of} step={step} due={due} now={now} />
  );
}

interface RunsProps {
  of: Open;
  step: Step;
  due: DueThing | null;
  now: number;
}

function BathCard({ of, step, due, now }: RunsProps) {
  const elapsed = now - step.begun.ms;
  const past = isPast(elapsed, step.target_s);
  return (
    <li>
      <a class={past ? "card runs past" : "card runs"} href={`#/t/${of.summary.job}`} data-test="card">
        <Head of={of} step={step} />
        <span class="face" role="timer" aria-label={clockSays(elapsed, step.target_s)}>
          <Digits left text={clockText(elapsed, step.target_s)} />
        </span>
        <span class="then">
          {past && <Icon is="past" />}
          {runsSays(step, past)}
        </span>
        <Due due={due} now={now} target={step.begun.ms + step.target_s * 1000} />
      </a>
    </li>
  );
}

function runsSays(s: Step, past: boolean): string {
  const bath = bathSays(s);
  const time =
    s.target_s <= 0
      ? "running"
      : past
        ? `past its ${target(s.target_s)}: end it or let it run`
        : `left of ${target(s.target_s)}`;
  return bath ? `${time}; ${bath}` : time;
}

function DryingCard({ of, step, due, now }: RunsProps) {
  const drying = of.watch?.drying?.of === step.entry ? of.watch.drying : null;
  const left = drying ? drying.next_ms - now : 0;
  const past = drying !== null && left <= -1000;
  const wet = of.state?.wet_since_ms ?? null;
  const say = drying ? checkSays(left) : `drying for ${duration(now - step.begun.ms)}`;
  return (
    <li>
      <a class={past ? "card runs past" : "card runs"} href={`#/t/${of.summary.job}`} data-test="card">
        <Head of={of} step={step} />
        <span class="face" role="timer" aria-label={say}>
          <Digits left text={drying ? leftText(left) : clockText(now - step.begun.ms, 0)} />
        </span>
        <span class="then">
          {past && <Icon is="past" />}
          {[
            drying &&
              (past ? `check was due ${when(drying.next_ms, now)}` : `until the check at ${when(drying.next_ms, now)}`),
            wet !== null && `wet for ${minutes(now - wet)}`,
          ]
            .filter(Boolean)
            .join("; ")}
        </span>
        <Due due={due} now={now} target={drying?.next_ms ?? 0} />
      </a>
    </li>
  );
}

/** Two lines, so that the step is found at the same place on every card. */
function Head({ of, step }: { of: Open; step: Step }) {
  return (
    <span class="of">
      <b>{title(of)}</b>
      <span class="step">
        {stepName(step)}
        {step.where && `, ${step.where}`}
      </span>
    </span>
  );
}

/** What is due besides what the large time says. */
function Due({ due, now, target: shown }: { due: DueThing | null; now: number; target: number }) {
  if (!due || due.at_ms === shown) return null;
  return (
    <span class="then due" data-test="card-due">
      <Icon is="clock" />
      {dueSays(due, now)}
    </span>
  );
}

/** "Next: Pilot-boat neckerchief, Rinse 3: its target at 10:14, in 2 min." */
export function nextSays(card: Card, now: number): string {
  if (!card.due) return "";
  const what = card.step ? stepName(card.step) : "";
  // A cue names its step already.
  const named = card.due.say.startsWith(what) ? title(card.of) : `${title(card.of)}, ${what}`;
  return `${card.due.at_ms < now ? "First" : "Next"}: ${named}: ${dueSays(card.due, now)}.`;
}

function RestingCard({ of, due, now }: { of: Open; due: DueThing | null; now: number }) {
  const wet = of.state?.wet_since_ms ?? null;
  const overdue = due !== null && due.at_ms <= now;
  return (
    <li>
      <a class={wet !== null ? "card rests wet" : "card rests"} href={`#/t/${of.summary.job}`} data-test="card">
        <span class="of">
          <b>{title(of)}</b>
          {of.summary.sample && " · sample"}
        </span>
        {wet !== null && (
          <span class="then wet-since" data-test="wet-since">
            <Icon is="drop" />
            wet since {when(wet, now)}, {minutes(now - wet)}
          </span>
        )}
        <span class="then">{restSays(of, now)}</span>
        {due && (overdue || due.at_ms - now < SOON_MS) && <Due due={due} now={now} target={0} />}
      </a>
    </li>
  );
}

/** What is further off is not worth a line on the card of a textile that rests, ms. */
const SOON_MS = 12 * 3_600_000;

function restSays({ state }: Open, now: number): string {
  if (!state) return "reading its log …";
  const last = state.steps.at(-1);
  if (!last?.ended) return "nothing running; no bath yet";
  const ended = `${stepName(last)} ended ${when(last.ended.ms, now)}`;
  if (state.wet_since_ms === null && state.dry) return `dry since ${when(state.dry.at.ms, now)}; ${ended}`;
  return `nothing running; ${ended}`;
}

function title(of: Open): string {
  return of.state ? nameOf(of.state) : of.summary.name;
}
