// The treatments of a day with their lines, read whole from the log.
import { useEffect, useRef, useState } from "preact/hooks";
import type { LogLine, State, Summary, Watch } from "../../core/api";
import { useCore } from "../base/core";
import { wholeLog } from "../log/whole";
import { linesOf } from "./sheet";
import type { Span } from "./span";

export interface DayOf {
  state: State;
  watch: Watch | null;
  lines: readonly LogLine[];
}

export interface DayRead {
  of: DayOf[];
  /** Treatments whose log is on its way. */
  waits: number;
  /** Treatments whose log is neither here nor to be had now. */
  missing: number;
}

const DAY_MS = 86_400_000;

export function useDayRead(span: Span, job: string): DayRead {
  const core = useCore();
  const { core: standing, link } = core.status.value;
  const ready = standing === "ready";
  const [missing, setMissing] = useState<ReadonlySet<string>>(new Set());
  const [read, setRead] = useState<ReadonlyMap<string, readonly LogLine[]>>(new Map());
  const asked = useRef(new Map<string, number>());
  const may = core.treatments.value.filter((t) => (job ? t.job === job : !t.removed && mayHold(t, span)));
  const states = may.map((t) => core.dossier(t.job).value);
  const stamp = states.map((s) => (s ? `${s.job} ${s.entries}` : "-")).join(" ");
  const fetchLog = (job: string) => {
    const say = (is: boolean) => setMissing((old) => marked(old, job, is));
    core.open(job).then(
      () => say(false),
      () => say(true),
    );
  };
  useEffect(() => {
    if (!ready) return;
    may.forEach((t, i) => {
      const state = states[i];
      if (!state) return fetchLog(t.job);
      if (asked.current.get(t.job) === state.entries) return;
      asked.current.set(t.job, state.entries);
      wholeLog(core, t.job).then(
        (lines) => setRead((old) => new Map(old).set(t.job, lines)),
        () => asked.current.delete(t.job),
      );
    });
  }, [ready, link, stamp, span.day]);
  const of = may.flatMap((t, i): DayOf[] => {
    const state = states[i];
    const lines = linesOf(read.get(t.job) ?? [], span);
    return state && lines.length > 0 ? [{ state, watch: core.watch(t.job).value, lines }] : [];
  });
  of.sort((a, b) => (a.lines[0]?.at.ms ?? 0) - (b.lines[0]?.at.ms ?? 0));
  const unread = may.filter((t) => !read.has(t.job));
  const gone = unread.filter((t) => missing.has(t.job)).length;
  return { of, waits: unread.length - gone, missing: gone };
}

/** The same set with or without one member. */
function marked(old: ReadonlySet<string>, job: string, is: boolean): ReadonlySet<string> {
  const set = new Set(old);
  if (is) set.add(job);
  else set.delete(job);
  return set;
}

/** Whether a treatment may hold entries of the day: it was there by then, and was not over long before. */
function mayHold(t: Summary, span: Span): boolean {
  return t.opened_ms < span.to && (t.open || t.last_day >= span.from - DAY_MS);
}
