// The baths and the readings of a day as tables.
import type { ComponentChildren } from "preact";
import type { Moment, Step, Tick } from "../../core/api";
import { duration, target } from "../base/words";
import { lieSays } from "../sink/drying";
import { isQ, QUANTITIES, valueSays } from "../sink/quantities";
import { stepName } from "../treatment";
import { isLate, marksOf, type Mark } from "./marks";
import { Part, type SheetProps } from "./part";
import { correctedOf, readingsOf, stepsOf, type ReadIn } from "./sheet";
import { clock, ownClock, sentence, type Span } from "./span";

export function When({ at, span, marks = [] }: { at: Moment; span: Span; marks?: readonly Mark[] }) {
  const own = ownClock(at);
  return (
    <>
      <time dateTime={at.at}>{clock(span, at.ms)}</time>
      {own && ` (${own})`}
      {marks.map((m) => (
        <span class="paper-mark" key={m.word}>
          {" "}
          {m.sign} {m.word}
        </span>
      ))}
    </>
  );
}

/** A table that is wider than a phone is moved under its own finger, not the page. */
function Wide({ label, children }: { label: string; children: ComponentChildren }) {
  return (
    <div class="paper-wide" role="region" aria-label={label} tabIndex={0}>
      {children}
    </div>
  );
}

export function Baths({ of: { state, lines }, span }: SheetProps) {
  const steps = stepsOf(state, span);
  const corrected = new Set(correctedOf(lines).map((l) => l.entry));
  return (
    <Part title="Baths and drying">
      {steps.length === 0 && <p>None that day.</p>}
      {steps.length > 0 && (
        <Wide label="Baths and drying">
          <table class="paper-table" data-test="paper-baths">
            <thead>
              <tr>
                <th scope="col">Step</th>
                <th scope="col">Liquid</th>
                <th scope="col">L</th>
                <th scope="col">Began</th>
                <th scope="col">Ended</th>
                <th scope="col">Target</th>
                <th scope="col">Clock</th>
                <th scope="col">Counter</th>
                <th scope="col">Who</th>
              </tr>
            </thead>
            <tbody>
              {steps.map((s) => (
                <BathRow key={s.entry} step={s} span={span} corrected={corrected} checklist={state.checklist} />
              ))}
            </tbody>
          </table>
        </Wide>
      )}
      {steps.length > 0 && (
        <p>
          Clock: end minus beginning. Counter: one device's steady counter, a lower bound. The longer counts for limits.
        </p>
      )}
    </Part>
  );
}

interface BathRowProps {
  step: Step;
  span: Span;
  /** Entries that were corrected. */
  corrected: ReadonlySet<string>;
  checklist: readonly Tick[];
}

function BathRow({ step: s, span, corrected, checklist }: BathRowProps) {
  const remark = remarks(s, checklist);
  return (
    <>
      <tr class={remark ? "with-remark" : ""}>
        <th scope="row">{stepName(s)}</th>
        <td>
          {s.what === "drying" ? lieSays(s) : s.liquid}
          {s.batch && `, batch ${s.batch}`}
          {s.temp_c && `, planned at ${s.temp_c} °C`}
          {s.where && s.what !== "drying" && `; ${s.where}`}
        </td>
        <td class="figure">{s.litres}</td>
        <td>
          <When
            at={s.begun}
            span={span}
            marks={marksOf({ at: s.begun, late: isLate(s.begun) }, s.versions > 1 || corrected.has(s.entry))}
          />
        </td>
        <td>
          {s.ended ? (
            <When
              at={s.ended}
              span={span}
              marks={marksOf({ at: s.ended, late: isLate(s.ended) }, corrected.has(s.end_entry))}
            />
          ) : (
            "not written"
          )}
          {s.aborted && " ■ stopped"}
        </td>
        <td class="figure">{s.target_s > 0 ? target(s.target_s) : "none"}</td>
        <td class="figure">{s.clock_ms === null ? "–" : duration(s.clock_ms)}</td>
        <td class="figure">{s.mono_ms === null ? "–" : duration(s.mono_ms)}</td>
        <td>
          {s.by}
          {s.ended_by && s.ended_by !== s.by && `, ${s.ended_by}`}
        </td>
      </tr>
      {remark && (
        <tr class="paper-remark">
          <td colSpan={9}>{remark}</td>
        </tr>
      )}
    </>
  );
}

function remarks(s: Step, checklist: readonly Tick[]): string {
  const out: string[] = [];
  if (s.uncleared) out.push(sentence(`Begun uncleared: ${s.reason || "why was not said"}`));
  const left = s.unticked.map((item) => checklist.find((t) => t.item === item)?.title ?? item);
  if (left.length > 0) out.push(`Begun with these not ticked: ${left.join("; ")}.`);
  if (s.choose) out.push("Two corrections stand side by side: nobody has chosen.");
  return out.join(" ");
}

export function Readings({ of: { state, lines }, span }: SheetProps) {
  const read = readingsOf(state, span);
  const corrected = new Set(correctedOf(lines).map((l) => l.entry));
  return (
    <Part title="Readings">
      {read.length === 0 && <p>None that day.</p>}
      {read.length > 0 && (
        <Wide label="Readings">
          <table class="paper-table" data-test="paper-readings">
            <thead>
              <tr>
                <th scope="col">Measured</th>
                <th scope="col">What</th>
                <th scope="col">Value</th>
                <th scope="col">In</th>
                <th scope="col">How</th>
                <th scope="col">Entered</th>
                <th scope="col">Who</th>
              </tr>
            </thead>
            <tbody>
              {read.map((r) => (
                <ReadingRow key={r.reading.entry} read={r} span={span} corrected={corrected.has(r.reading.entry)} />
              ))}
            </tbody>
          </table>
        </Wide>
      )}
    </Part>
  );
}

function ReadingRow({ read: { reading: r, step }, span, corrected }: { read: ReadIn; span: Span; corrected: boolean }) {
  const known = isQ(r.q) ? QUANTITIES[r.q] : null;
  const how = [
    r.q === "conductivity" && (r.compensated ? "compensated by the meter" : r.liquor_c && `liquor ${r.liquor_c} °C`),
    r.source && "source water",
    r.at_end && "at the end",
    r.instrument,
  ];
  return (
    <tr>
      <td>
        <When at={r.at} span={span} marks={marksOf(r, corrected)} />
      </td>
      <td>{known ? known.title : r.q}</td>
      <td class="figure">
        {known ? `${valueSays(known.q, r.value)} ${known.q === "ph" ? "" : known.sign}`.trim() : `${r.value} ${r.unit}`}
      </td>
      <td>{step ? stepName(step) : "–"}</td>
      <td>{how.filter(Boolean).join(", ")}</td>
      <td>{clock(span, r.at.recorded_ms)}</td>
      <td>{r.by}</td>
    </tr>
  );
}
