// Which fields an amendment asks for, by the kind of entry, and how a body is taken apart and put
// together again. Members that no field shows are carried over as they are.
import type { LogLine } from "../../core/api";
import { targetSeconds } from "../sink/bath";
import { isWhat, KINDS } from "../sink/kinds";

export interface FormField {
  /** A member of the body, as the core names it in a fault. */
  name: string;
  label: string;
  kind: "text" | "lines" | "number" | "minutes" | "what";
}

type Body = Record<string, unknown>;

const FORMS: Record<string, readonly FormField[]> = {
  open: [
    { name: "name", label: "What is treated", kind: "text" },
    { name: "number", label: "Number", kind: "text" },
  ],
  set: [{ name: "value", label: "Value", kind: "text" }],
  begin: [
    { name: "what", label: "What was done", kind: "what" },
    { name: "liquid", label: "Liquid", kind: "text" },
    { name: "litres", label: "Litres", kind: "number" },
    { name: "target_s", label: "Target, minutes", kind: "minutes" },
  ],
  end: [],
  reading: [{ name: "value", label: "Value", kind: "number" }],
  note: [{ name: "text", label: "Note", kind: "lines" }],
  close: [{ name: "why", label: "Why it was closed", kind: "text" }],
  reopen: [{ name: "why", label: "Why it was opened again", kind: "text" }],
  item: [{ name: "name", label: "Name", kind: "text" }],
  reckoned: [{ name: "text", label: "What it is for", kind: "text" }],
};

export function canAmend(kind: string): boolean {
  return kind in FORMS;
}

/** The fields of this kind of entry; a drying has neither liquid nor litres. */
export function formOf(kind: string, body: Body): readonly FormField[] {
  const all = FORMS[kind] ?? [];
  return isDrying(kind, body) ? all.filter((f) => f.name !== "liquid" && f.name !== "litres") : all;
}

function isDrying(kind: string, body: Body): boolean {
  return kind === "begin" && body["what"] === "drying";
}

/** Whether a body may lack what a field shows: then nothing typed there means that it is left out. */
function mayLack(kind: string, body: Body, field: string): boolean {
  if (field === "number" || field === "why" || kind === "reckoned") return true;
  if (isDrying(kind, body)) return field === "target_s";
  const { what } = body;
  return kind === "begin" && field === "litres" && isWhat(what) && KINDS[what].litres === "optional";
}

/** Versions that nothing has replaced: the latest amendments, or the entry itself. */
export function standing(line: LogLine): { entry: string; say: string; by: string; body: Body; at: string }[] {
  const amends = line.amended.filter((a) => a.stands && !a.struck);
  if (amends.length === 0)
    return [{ entry: line.entry, say: line.say, by: line.by, body: asBody(line.body), at: line.at.at }];
  return amends.map((a) => ({ entry: a.entry, say: a.say, by: a.by, body: asBody(a.body), at: a.at || line.at.at }));
}

function asBody(v: unknown): Body {
  return typeof v === "object" && v !== null ? (v as Body) : {};
}

/** A body as the texts of its form. */
export function bodyTexts(kind: string, body: Body): Record<string, string> {
  const out: Record<string, string> = {};
  for (const f of formOf(kind, body)) {
    const v = body[f.name];
    const text = typeof v === "string" || typeof v === "number" ? String(v) : "";
    out[f.name] = f.kind === "minutes" && text !== "" ? String(Number(text) / 60) : text;
  }
  return out;
}

/** The full new body: the old one with what the form says. An empty optional text is left out. */
export function textsBody(kind: string, old: Body, texts: Record<string, string>): Body {
  const body: Body = { ...old };
  // A counter belongs to the moment at which it was read, not to an amended one.
  delete body["mono"];
  for (const f of formOf(kind, old)) {
    const text = texts[f.name] ?? "";
    if (text.trim() === "" && mayLack(kind, old, f.name)) delete body[f.name];
    else body[f.name] = f.kind === "minutes" ? targetSeconds(text) : text;
  }
  return body;
}
