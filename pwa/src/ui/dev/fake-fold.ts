// A small imitation of the fold, so that screens can be looked at without the core. Not the rules:
// those are the core's, and nothing here is in the app.
import type { Amended, FieldValue, LogLine, Moment, Reading, State, Step } from "../../core/api";
import { bathWord, rfc3339, target } from "../base/words";

export interface FakeEntry {
  name: string;
  dev: string;
  n: number;
  kind: string;
  body: Record<string, unknown>;
  atMs: number;
  recordedMs: number;
  by: string;
}

export function fakeState(job: string, log: readonly FakeEntry[]): State {
  const struck = new Set(log.filter((e) => e.kind === "strike").map((e) => text(e.body["of"])));
  const live = log.filter((e) => !struck.has(e.name)).map((e) => amendedBody(e, log));
  const steps = stepsOf(live);
  const readings = live.filter((e) => e.kind === "reading").map(readingOf);
  for (const s of steps) s.readings = readings.filter((r) => r.of === s.entry);
  const opening = live.find((e) => e.kind === "open");
  const running = steps.filter((s) => !s.ended).map((s) => s.begun.ms);
  const closings = live.filter((e) => e.kind === "close" || e.kind === "reopen");
  return {
    job,
    entries: log.length,
    open: closings.at(-1)?.kind !== "close",
    sample: opening?.body["sample"] === true,
    opened: opening ? moment(opening) : null,
    fields: fieldsOf(live),
    steps,
    last: Object.fromEntries(readings.map((r) => [r.q, r])),
    readings: readings.length,
    notes: live.filter((e) => e.kind === "note").length,
    immersed_ms: steps.reduce((sum, s) => sum + (s.clock_ms ?? 0), 0),
    running_since_ms: running.length > 0 ? Math.min(...running) : null,
    first_wet_ms: steps[0]?.begun.ms ?? null,
    last_ms: log.at(-1)?.recordedMs ?? 0,
    doubts: [],
    unknown: 0,
    clocks: [],
  };
}

function stepsOf(live: readonly FakeEntry[]): Step[] {
  const ends = new Map(live.filter((e) => e.kind === "end").map((e) => [text(e.body["of"]), e]));
  const seen: Record<string, number> = {};
  return live
    .filter((e) => e.kind === "begin")
    .map((e) => {
      const what = text(e.body["what"]);
      const end = ends.get(e.name);
      const clock = end ? end.atMs - e.atMs : null;
      return {
        entry: e.name,
        what,
        ordinal: (seen[what] = (seen[what] ?? 0) + 1),
        liquid: text(e.body["liquid"]),
        litres: text(e.body["litres"]),
        target_s: Number(e.body["target_s"]),
        uncleared: e.body["uncleared"] === true,
        begun: moment(e),
        by: e.by,
        ended: end ? moment(end) : null,
        end_entry: end?.name ?? "",
        ended_by: end?.by ?? "",
        clock_ms: clock,
        mono_ms: null,
        limit_ms: clock,
        readings: [],
        versions: 1,
        choose: false,
      };
    });
}

function fieldsOf(live: readonly FakeEntry[]): Record<string, FieldValue[]> {
  const out: Record<string, FieldValue[]> = {};
  const add = (field: string, value: string, e: FakeEntry) => {
    const over = Array.isArray(e.body["over"]) ? e.body["over"] : [];
    const left = (out[field] ?? []).filter((v) => !over.includes(v.entry));
    out[field] = [...left, { value, entry: e.name, by: e.by, at_ms: e.atMs }];
  };
  for (const e of live) {
    if (e.kind === "open") add("name", text(e.body["name"]), e);
    if (e.kind === "set") add(text(e.body["field"]), text(e.body["value"]), e);
  }
  return out;
}

function amendedBody(e: FakeEntry, log: readonly FakeEntry[]): FakeEntry {
  const last = log.filter((a) => a.kind === "amend" && a.body["of"] === e.name).at(-1);
  if (!last) return e;
  const at = Date.parse(text(last.body["at"]));
  return { ...e, body: last.body["body"] as FakeEntry["body"], atMs: Number.isFinite(at) ? at : e.atMs };
}

function readingOf(e: FakeEntry): Reading {
  const { q, value, unit, of } = e.body;
  return { entry: e.name, q: text(q), value: text(value), unit: text(unit), of: text(of), at: moment(e), by: e.by };
}

export function fakeLine(e: FakeEntry, log: readonly FakeEntry[]): LogLine {
  const strike = log.find((s) => s.kind === "strike" && s.body["of"] === e.name);
  const amends = log.filter((a) => a.kind === "amend" && a.body["of"] === e.name);
  const replaced = new Set(amends.flatMap((a) => (Array.isArray(a.body["over"]) ? (a.body["over"] as string[]) : [])));
  return {
    entry: e.name,
    dev: e.dev,
    n: e.n,
    kind: e.kind,
    say: say(e.kind, e.body, log),
    at: moment(e),
    by: e.by,
    struck: strike ? { entry: strike.name, by: strike.by, why: text(strike.body["why"]), ms: strike.atMs } : null,
    amended: amends.map((a): Amended => ({
      entry: a.name,
      say: say(e.kind, a.body["body"] as FakeEntry["body"], log),
      why: text(a.body["why"]),
      by: a.by,
      ms: a.atMs,
      struck: false,
      stands: !replaced.has(a.name),
      at: text(a.body["at"]),
      body: a.body["body"],
    })),
    was: "",
    doubt: "",
    late: e.recordedMs - e.atMs > 120_000,
    body: e.body,
  };
}

function say(kind: string, b: FakeEntry["body"], log: readonly FakeEntry[]): string {
  switch (kind) {
    case "open":
      return `Treatment opened: ${text(b["name"])}.`;
    case "set":
      return `${text(b["field"])}: ${text(b["value"])}`;
    case "begin":
      return `${bathWord(text(b["what"]))} begun: ${text(b["liquid"])}, ${text(b["litres"])} L, for ${target(Number(b["target_s"]))}.`;
    case "end":
      return "Bath ended.";
    case "reading":
      return `${text(b["q"])} ${text(b["value"])} ${text(b["unit"])}`;
    case "note":
      return text(b["text"]);
    case "strike":
    case "amend": {
      const of = log.find((e) => e.name === b["of"]);
      return `${kind === "strike" ? "Struck" : "Correction of"}: ${of ? say(of.kind, of.body, log) : "an entry"}`;
    }
    default:
      return kind;
  }
}

function moment(e: FakeEntry): Moment {
  return { ms: e.atMs, at: rfc3339(e.atMs), corrected: false, recorded_ms: e.recordedMs };
}

function text(v: unknown): string {
  return typeof v === "string" || typeof v === "number" ? String(v) : "";
}
