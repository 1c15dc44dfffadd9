// What was done, decided, broken off, declared, noted and put right on a day.
import type { LogLine } from "../../core/api";
import { duration, timeOfDay } from "../base/words";
import { stepName } from "../treatment";
import { isLate, marksOf } from "./marks";
import { Part, valuesSay, type SheetProps } from "./part";
import { correctedOf, otherLines, whoWrote } from "./sheet";
import { clock, isIn, sentence } from "./span";
import { When } from "./tables";

export function People({ of: { state, lines }, span }: SheetProps) {
  const taken = state.takeovers.filter((t) => isIn(span, t.at.ms));
  const away = state.overnights.filter((o) => isIn(span, o.at.ms));
  return (
    <Part title="Who">
      <p>
        Wrote: {whoWrote(lines).join(", ") || "nobody"}. Decides: {valuesSay(state.fields["decides"]) || "not said"}.
      </p>
      {(taken.length > 0 || away.length > 0) && (
        <ul class="paper-list">
          {taken.map((t) => (
            <li key={t.entry}>
              <When at={t.at} span={span} /> {t.by} took over{t.from && ` from ${t.from}`}
            </li>
          ))}
          {away.map((o) => (
            <li key={o.entry}>
              <When at={o.at} span={span} /> left; {o.who} answers for it
              {o.until_ms !== null && ` until ${clock(span, o.until_ms)}`}
              {o.text && `: ${o.text}`} ({o.by})
            </li>
          ))}
        </ul>
      )}
    </Part>
  );
}

export function Acts({ of: { state }, span }: SheetProps) {
  const acts = state.acts.filter((a) => isIn(span, a.at.ms));
  if (acts.length === 0) return null;
  const named = new Map(state.steps.map((s) => [s.entry, stepName(s)]));
  return (
    <Part title="Done">
      <ul class="paper-list two" data-test="paper-acts">
        {acts.map((a) => (
          <li key={a.entry}>
            <When at={a.at} span={span} marks={marksOf({ at: a.at, late: isLate(a.at) })} /> {a.say}
            {a.s > 0 && !/\d/.test(a.say) && `, ${duration(a.s * 1000)}`}
            {named.has(a.of) && `, ${named.get(a.of)}`} ({a.by})
          </li>
        ))}
      </ul>
    </Part>
  );
}

export function Decisions({ of: { state }, span }: SheetProps) {
  const made = state.decisions.filter((d) => isIn(span, d.at.ms));
  if (made.length === 0) return null;
  return (
    <Part title="Decided">
      <ul class="paper-list">
        {made.map((d) => (
          <li key={d.entry}>
            <When at={d.at} span={span} /> <b>{DECIDED[d.what] ?? d.what}</b> ({d.by}):{" "}
            {sentence(d.why || "no reason was given")}
            {d.proposed && ` The screen said: “${d.proposed}”`}
          </li>
        ))}
      </ul>
    </Part>
  );
}

const DECIDED: Readonly<Record<string, string>> = { stop_rinsing: "Stop rinsing", go_on: "Go on" };

export function Aborts({ of: { state }, span }: SheetProps) {
  const stops = state.aborts.filter((a) => isIn(span, a.at.ms));
  if (stops.length === 0) return null;
  return (
    <Part title="Stopped">
      {stops.map((a) => (
        <div key={a.entry}>
          <p>
            ■ <When at={a.at} span={span} /> stopped by {a.by}. Why: {sentence(a.reason || "not said")}
          </p>
          <p>
            {a.generic ? "General steps were shown; nothing had been agreed: " : "The agreed steps were shown: "}
            {a.steps.map((s, i) => `${i + 1}. ${s}`).join(" ")}
          </p>
        </div>
      ))}
    </Part>
  );
}

export function Dryness({ of: { state, lines }, span }: SheetProps) {
  const dried = state.steps.some((s) => s.what === "drying");
  const said = lines.filter((l) => l.kind === "dry" && !l.struck);
  if (!dried && said.length === 0) return null;
  return (
    <Part title="Dry">
      {said.length === 0 && (
        <p>
          Not declared dry that day.
          {state.wet_since_ms !== null && ` Wet since ${clock(span, state.wet_since_ms)}.`}
        </p>
      )}
      <Lines lines={said} span={span} />
    </Part>
  );
}

export function Notes({ of: { lines }, span }: SheetProps) {
  const rest = otherLines(lines).filter((l) => !l.struck);
  if (rest.length === 0) return null;
  return (
    <Part title="Noted and set">
      <Lines lines={rest} span={span} />
    </Part>
  );
}

function Lines({ lines, span }: { lines: readonly LogLine[]; span: SheetProps["span"] }) {
  return (
    <ul class="paper-list two">
      {lines.map((l) => (
        <li key={l.entry}>
          <When at={l.at} span={span} marks={marksOf(l, l.amended.length > 0)} /> {saysNow(l)} ({l.by})
        </li>
      ))}
    </ul>
  );
}

/** The sentence that holds; as it was first written where two corrections stand side by side. */
function saysNow(l: LogLine): string {
  const stands = l.amended.filter((a) => a.stands && !a.struck);
  return stands.length === 1 ? (stands[0]?.say ?? l.say) : l.say;
}

export function Corrections({ of: { lines }, span }: SheetProps) {
  const put = correctedOf(lines);
  if (put.length === 0) return null;
  return (
    <Part title="Corrections">
      <ul class="paper-list" data-test="paper-corrections">
        {put.map((l) => (
          <li key={l.entry}>
            {clock(span, l.at.ms)} {l.struck ? <s>{l.say}</s> : `“${l.say}”`} ({l.by})
            {l.struck && `: struck ${clock(span, l.struck.ms)} by ${l.struck.by}, because: ${l.struck.why}`}
            {l.amended.map((a) => (
              <span key={a.entry}>
                : corrected {clock(span, a.ms)} by {a.by} to “{a.say}”{a.at && ` at ${timeOfDay(Date.parse(a.at))}`},
                because: {a.why}
                {a.struck && " (this correction was struck)"}
                {!a.stands && !a.struck && " (replaced by a later one)"}
              </span>
            ))}
          </li>
        ))}
      </ul>
    </Part>
  );
}
