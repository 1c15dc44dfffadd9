// One treatment's sheet of a day: what paper must be able to say without the screen.
import type { State } from "../../core/api";
import { FACTS } from "../about/fact";
import { bathWord, count, longDay, minutes, target } from "../base/words";
import { colourSays, dwellLine } from "../ready/dwells";
import { stepsOf as linesOf } from "../ready/stop-text";
import { Curve } from "../sink/curve";
import { dwellSays } from "../sink/limit";
import { NEVER_LIFT } from "../sink/stop-plan";
import { nameOf } from "../treatment";
import { gapsOf } from "./gaps";
import { LEGEND } from "./marks";
import { Part, valuesSay, type SheetProps } from "./part";
import { rinseOf, stepsOf, ticked, tickedBy, unticked, whoWrote } from "./sheet";
import { clock, isIn } from "./span";
import { Baths, Readings } from "./tables";
import { Aborts, Acts, Corrections, Decisions, Dryness, Notes, People } from "./told";

/** The head of a table is printed on each of its pages, so the sheet is one. */
export function PaperSheet({ printed, ...sheet }: SheetProps & { printed: string }) {
  const { state } = sheet.of;
  const number = valuesSay(state.fields["number"]);
  return (
    <table class="paper" role="presentation" data-test="paper" data-job={state.job}>
      <thead>
        <tr>
          <td>
            <p class="paper-head">
              <b>{nameOf(state)}</b>
              <span>{number || "no number"}</span>
              <span>{longDay(sheet.span.from)}</span>
              <span>printed {printed}</span>
            </p>
          </td>
        </tr>
      </thead>
      <tbody>
        <tr>
          <td>
            <Body {...sheet} />
          </td>
        </tr>
      </tbody>
    </table>
  );
}

function Body(sheet: SheetProps) {
  const { of, span } = sheet;
  const doubts = of.lines.filter((l) => l.doubt !== "");
  return (
    <>
      <h2>
        {nameOf(of.state)}
        {of.state.sample && " (a sample, invented)"}
      </h2>
      <Identity {...sheet} />
      <People {...sheet} />
      <Ready {...sheet} />
      <Plan {...sheet} />
      <Tested {...sheet} />
      <StopPlan state={of.state} />
      <Baths {...sheet} />
      <Readings {...sheet} />
      <DayCurve {...sheet} />
      <Acts {...sheet} />
      <Decisions {...sheet} />
      <Aborts {...sheet} />
      <Dryness {...sheet} />
      <Notes {...sheet} />
      <Corrections {...sheet} />
      <Gaps {...sheet} />
      {doubts.length > 0 && (
        <Part title="Doubtful">
          <ul class="paper-list">
            {doubts.map((l) => (
              <li key={l.entry}>
                {clock(span, l.at.ms)} {l.say} Doubtful: {l.doubt}
              </li>
            ))}
          </ul>
        </Part>
      )}
      <Legend />
    </>
  );
}

function Identity({ of: { state, lines } }: SheetProps) {
  const known = FACTS.filter((f) => f.field !== "name" && (state.fields[f.field] ?? []).length > 0);
  return (
    <Part title="The object">
      <dl class="paper-facts">
        {known.map((f) => (
          <div key={f.field}>
            <dt>{f.label}</dt>
            <dd>
              {valuesSay(state.fields[f.field])}
              {f.unit && ` ${f.unit}`}
            </dd>
          </div>
        ))}
        <div>
          <dt>Written that day</dt>
          <dd>
            {count(lines.length, "entry", "entries")} by {whoWrote(lines).join(", ") || "nobody"}
          </dd>
        </div>
      </dl>
    </Part>
  );
}

function Ready({ of: { state, lines }, span }: SheetProps) {
  const seen = tickedBy(lines);
  const open = unticked(state);
  const done = ticked(state);
  return (
    <Part title="Made ready">
      <p>
        <b>Not ticked: </b>
        {open.length > 0 ? `☐ ${open.join("; ☐ ")}.` : "nothing was left."}
      </p>
      <p>
        <b>Ticked: </b>
        {done.length > 0 ? `☑ ${done.join("; ☑ ")}.` : "nothing."}
      </p>
      {seen && (
        <p>
          Gone through by {seen.by.join(", ")}, {clock(span, seen.from)} to {clock(span, seen.to)}.
        </p>
      )}
    </Part>
  );
}

function Plan({ of: { state } }: SheetProps) {
  return (
    <Part title="Plan">
      {state.plans.length === 0 && <p>No plan was written.</p>}
      {state.plans.length > 1 && <p>{count(state.plans.length, "plan stands", "plans stand")}: nobody has chosen.</p>}
      {state.plans.map((p) => (
        <ol class="paper-list numbered" key={p.entry}>
          {p.baths.map((b, i) => (
            <li key={i}>
              {[
                bathWord(b.what),
                b.litres && `${b.litres} L`,
                b.liquid,
                b.target_s > 0 && target(b.target_s),
                b.temp_c && `${b.temp_c} °C`,
                b.batch && `batch ${b.batch}`,
              ]
                .filter(Boolean)
                .join(", ")}
            </li>
          ))}
        </ol>
      ))}
    </Part>
  );
}

function Tested({ of: { state, watch }, span }: SheetProps) {
  const all = state.steps.filter((s) => s.immerses);
  const today = all.every((s) => isIn(span, s.begun.ms) && s.ended && isIn(span, s.ended.ms));
  return (
    <Part title="Tested dwell">
      {state.dwells.length === 0 && <p>No test recorded.</p>}
      <ul class="paper-list">
        {state.dwells.map((d) => (
          <li key={d.entry}>
            {colourSays(d.colour)}: {dwellLine(d)}; {d.name} vouches for it
          </li>
        ))}
        {watch?.dwell.untested.map((u) => (
          <li key={u}>No test that fits: {u}</li>
        ))}
      </ul>
      {all.length > 0 && today && (
        <p>
          <b>Immersed in all: {minutes(state.immersed_ms)}</b>
          {watch &&
            watch.dwell.s > 0 &&
            `, against ${dwellSays(watch.dwell.s)} tested for ${watch.dwell.liquid || "it"}`}
          .
        </p>
      )}
    </Part>
  );
}

function StopPlan({ state }: { state: State }) {
  const plans = state.fields["stop_plan"] ?? [];
  return (
    <Part title="Stop plan">
      {plans.length === 0 && <p>Nothing was agreed for this object; the general steps stood on the screen.</p>}
      {plans.map((p) => (
        <ol class="paper-list numbered" key={p.entry}>
          {linesOf(p.value).map((s, i) => (
            <li key={i}>{s}</li>
          ))}
        </ol>
      ))}
      <p>{NEVER_LIFT}</p>
    </Part>
  );
}

function DayCurve({ of: { watch }, span }: SheetProps) {
  const drawn = rinseOf(watch?.rinse ?? null, span);
  if (!drawn) return null;
  return (
    <Part title="Conductivity at 25 °C over the rinses, µS/cm">
      <Curve rinse={drawn.rinse} size="print" />
      <p>
        ● in the fit; ○ not in the fit; solid line: the fit; dashed: ahead; hatched: its range; dotted: the source
        water.{" "}
        {drawn.whole
          ? drawn.rinse.say
          : "The readings of this day alone; the fit rests on other days too and is not drawn."}
      </p>
    </Part>
  );
}

function Gaps({ of: { state }, span, now }: SheetProps) {
  if (stepsOf(state, span).length === 0) return null;
  const gaps = gapsOf(state, span, now);
  return (
    <Part title="Not written">
      {gaps.length === 0 ? (
        <p>No gap longer than what was asked for.</p>
      ) : (
        <ul class="paper-list" data-test="paper-gaps">
          {gaps.map((g) => (
            <li key={g}>{g}</li>
          ))}
        </ul>
      )}
    </Part>
  );
}

function Legend() {
  return (
    <Part title="Signs">
      <p data-test="paper-legend">
        {LEGEND.map((m) => `${m.sign} ${m.word}: ${m.means}`).join("; ")}. Times are of the place where this was
        printed; another clock of the author stands in brackets.
      </p>
    </Part>
  );
}
