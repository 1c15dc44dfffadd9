// The treatments of a day with their lines, read whole from the log.
import { useEffect, useRef, useState } from "preact/hooks";
import type { Core, LogLine, State, Summary, Watch } from "../../core/api";
import { useCore } from "../base/core";
import { linesOf } from "./sheet";
import type { Span } from "./span";

export interface DayOf {
  state: State;
  watch: Watch | null;
  lines: readonly LogLine[];
}

export interface DayRead {
  of: DayOf[];
  /** Treatments whose log is not here yet. */
  waits: number;
}

/** Entries of a log asked for at a time. */
const PAGE = 500;
const DAY_MS = 86_400_000;

export function useDayRead(span: Span, job: string): DayRead {
  const core = useCore();
  const ready = core.status.value.core === "ready";
  const [read, setRead] = useState<ReadonlyMap<string, readonly LogLine[]>>(new Map());
  const asked = useRef(new Map<string, number>());
  const may = core.treatments.value.filter((t) => (job ? t.job === job : !t.removed && mayHold(t, span)));
  const states = may.map((t) => core.dossier(t.job).value);
  const stamp = states.map((s) => (s ? `${s.job} ${s.entries}` : "-")).join(" ");
  useEffect(() => {
    if (!ready) return;
    may.forEach((t, i) => {
      const state = states[i];
      if (!state) return void core.open(t.job).catch(() => undefined);
      if (asked.current.get(t.job) === state.entries) return;
      asked.current.set(t.job, state.entries);
      allLines(core, t.job).then(
        (lines) => setRead((old) => new Map(old).set(t.job, lines)),
        () => asked.current.delete(t.job),
      );
    });
  }, [ready, stamp, span.day]);
  const of = may.flatMap((t, i): DayOf[] => {
    const state = states[i];
    const lines = linesOf(read.get(t.job) ?? [], span);
    return state && lines.length > 0 ? [{ state, watch: core.watch(t.job).value, lines }] : [];
  });
  of.sort((a, b) => (a.lines[0]?.at.ms ?? 0) - (b.lines[0]?.at.ms ?? 0));
  return { of, waits: may.filter((t) => !read.has(t.job)).length };
}

/** Whether a treatment may hold entries of the day: it was there by then, and was not over long before. */
function mayHold(t: Summary, span: Span): boolean {
  return t.opened_ms < span.to && (t.open || t.last_day >= span.from - DAY_MS);
}

async function allLines(core: Core, job: string): Promise<LogLine[]> {
  const lines: LogLine[] = [];
  for (;;) {
    const page = await core.log(job, lines.length, PAGE);
    lines.push(...page.lines);
    if (lines.length >= page.total || page.lines.length === 0) return lines;
  }
}
