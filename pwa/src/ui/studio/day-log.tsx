// A day's log over all treatments, arriving as it is written.
import { useEffect, useRef, useState } from "preact/hooks";
import type { LogLine, Summary } from "../../core/api";
import { useCore } from "../base/core";
import { useTicking } from "../base/ticking";
import { count, dayKey, longDay } from "../base/words";
import { Icon } from "../parts/icon";
import { Line } from "../log/line";
import { nameOf } from "../treatment";

/** How many of a treatment's newest entries are looked through for today's. */
const TAIL = 500;

/** How many lines are drawn before one asks for more. */
const MOST = 200;

interface DayLine extends LogLine {
  job: string;
  of: string;
}

export function DayLog() {
  const today = useTicking(dayKey, []).value;
  const name = useTicking(longDay, []).value;
  const lines = useDay(today);
  const [most, setMost] = useState(MOST);
  return (
    <section aria-labelledby="day" data-test="studio-day">
      <div class="row">
        <h2 id="day">{name}</h2>
        <a class="key" href={`#/day/${today}`} data-test="day-paper">
          <Icon is="note" />
          The day on paper
        </a>
        <a class="key" href={`/api/day/${today}/log.jsonl`} download data-test="day-jsonl">
          <Icon is="save" />
          Save as JSON lines
        </a>
        <a class="key" href={`/api/day/${today}/log.csv`} download data-test="day-csv">
          <Icon is="save" />
          Save as CSV
        </a>
      </div>
      <p class="quiet" role="status">
        {lines.length === 0
          ? "Nothing has been written today."
          : `${count(lines.length, "entry", "entries")}, the latest first.`}
      </p>
      <ol class="log day-log">
        {lines.slice(0, most).map((l, i) => (
          <DayEntry key={l.entry} line={l} first={lines[i - 1]?.job !== l.job} />
        ))}
      </ol>
      {lines.length > most && (
        <button type="button" class="key" onClick={() => setMost(most + MOST)}>
          <Icon is="list" />
          Show earlier ones
        </button>
      )}
    </section>
  );
}

function DayEntry({ line, first }: { line: DayLine; first: boolean }) {
  return (
    <>
      {first && (
        <li class="of">
          <a href={`#/t/${line.job}`}>{line.of}</a>
        </li>
      )}
      <Line line={line} day="" />
    </>
  );
}

/** All lines of a day, the latest first. A treatment's lines are read again whenever its log has grown. */
function useDay(today: string): DayLine[] {
  const core = useCore();
  const [byJob, setByJob] = useState<ReadonlyMap<string, DayLine[]>>(new Map());
  const read = useRef(new Map<string, string>());
  const recent = core.treatments.value.filter((t) => !t.removed && touched(t, today));
  const states = recent.map((t) => core.dossier(t.job).value).filter((s) => s !== null);
  const stamp = states.map((s) => `${s.job} ${s.entries}`).join(" ");
  useEffect(() => {
    for (const s of states) {
      const version = `${today} ${s.entries}`;
      if (read.current.get(s.job) === version) continue;
      read.current.set(s.job, version);
      const of = nameOf(s);
      core.log(s.job, Math.max(0, s.entries - TAIL), TAIL).then(
        (page) => {
          if (read.current.get(s.job) !== version) return;
          const lines = page.lines.filter((l) => dayKey(l.at.ms) === today).map((l) => ({ ...l, job: s.job, of }));
          setByJob((old) => new Map(old).set(s.job, lines));
        },
        () => read.current.delete(s.job),
      );
    }
  }, [stamp, today]);
  const jobs = new Set(recent.map((t) => t.job));
  return [...byJob]
    .filter(([job]) => jobs.has(job))
    .flatMap(([, lines]) => lines)
    .sort((a, b) => b.at.recorded_ms - a.at.recorded_ms || (a.entry < b.entry ? 1 : -1));
}

/** Whether a treatment may hold entries of a day: it is open, or its last entry's day is no earlier. */
function touched(t: Summary, today: string): boolean {
  return t.open || t.last_day >= Date.parse(today) - 86_400_000;
}
