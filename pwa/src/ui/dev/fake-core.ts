// A core that lives in memory, for looking at screens: `?fake` in a bundle made with -dev. `?fake=…`
// takes words that change what it shows: unpaired, waiting, grave, empty.
import { signal, type Signal } from "@preact/signals";
import type { Core, State, Status, Summary, WriteRequest, Written } from "../../core/api";
import { fakeLine, fakeState, type FakeEntry } from "./fake-fold";
import { fakeReckon, FAKE_RECKONINGS } from "./fake-reckon";
import { fakeLogs } from "./fake-studio";

const DAY = 86_400_000;

export function createFakeCore(words: string): Core {
  const has = (word: string) => words.split(",").includes(word);
  const logs = has("empty") ? new Map<string, FakeEntry[]>() : fakeLogs(Date.now());
  const states = new Map<string, Signal<State | null>>();
  const status = signal<Status>(startStatus(has));
  const shelf = signal({
    initials: ["RV", "OT", "IB"],
    liquids: ["deionised water", "tap water", "0.5 g/L sodium dodecyl sulfate"],
  });

  const stateOf = (job: string) => {
    let s = states.get(job);
    if (!s) {
      const log = logs.get(job);
      s = signal(log ? fakeState(job, log) : null);
      states.set(job, s);
    }
    return s;
  };
  const summaries = () => [...logs].map(([job, log]) => summaryOf(fakeState(job, log)));
  const treatments = signal<Summary[]>(summaries());

  const add = (d: WriteRequest): string => {
    const log = logs.get(d.job) ?? [];
    const n = log.length + 1;
    const name = `${d.job}-${n}-${Date.now()}`;
    const at = d.at ? Date.parse(d.at) : Date.now();
    const body = d.body as FakeEntry["body"];
    log.push({
      name,
      dev: "01J8DEV0000000000000000000",
      n,
      kind: d.kind,
      body,
      atMs: at,
      recordedMs: Date.now(),
      by: d.by,
    });
    if (/^0+$/.test(d.job)) return name;
    logs.set(d.job, log);
    stateOf(d.job).value = fakeState(d.job, log);
    treatments.value = summaries();
    status.value = { ...status.value, unsent: status.value.unsent + 1 };
    return name;
  };

  return {
    status,
    treatments,
    shelf,
    dossier: stateOf,
    write: async (d): Promise<Written> => {
      const wrong = check(d);
      if (wrong.length > 0) throw wrong;
      return { entry: add(d), ms: 6 };
    },
    newTreatment: async (name, by) => {
      if (!name) throw [{ field: "name", value: "", say: "Give the object a name; everything else can come later." }];
      if (!by) throw [{ field: "by", value: "", say: "Say who is at the sink: initials are enough." }];
      const job = `01J8NEW${String(logs.size).padStart(19, "0")}`;
      add({ job, kind: "open", body: { name }, by });
      return job;
    },
    open: async () => undefined,
    log: async (job, from, count) => {
      const log = logs.get(job) ?? [];
      return { total: log.length, lines: log.slice(from, from + count).map((e) => fakeLine(e, log)) };
    },
    reckonings: async () => FAKE_RECKONINGS,
    reckon: async (_, inputs) => fakeReckon(inputs as Record<string, unknown>),
    unsentFile: async () => ({ name: "sinkside-unsent.jsonl", text: "{}\n", count: status.peek().unsent }),
    pair: async (code) =>
      code === "K7QD-2M9F" ? { ok: true } : { say: "This code is not right, was used, or has run out." },
    applyUpdate: () => undefined,
    askPersist: async () => false,
  };
}

function startStatus(has: (word: string) => boolean): Status {
  const grave = has("grave");
  return {
    paired: !has("unpaired"),
    revoked: false,
    dev: "01J8DEV0000000000000000000",
    label: "RV's phone",
    studio: "Marram House Textile Studio",
    link: has("waiting") || grave ? "off" : "on",
    unsent: has("waiting") || grave ? 12 : 0,
    drafts: 0,
    leader: true,
    core: "ready",
    persisted: false,
    usage: 8_400_000,
    quota: 2_100_000_000,
    storageLow: grave,
    offset_ms: 0,
    update: grave,
    diskFull: grave,
    problem: "",
  };
}

function summaryOf(s: State): Summary {
  const text = (field: string) => s.fields[field]?.at(-1)?.value ?? "";
  return {
    job: s.job,
    name: text("name"),
    number: text("number"),
    open: s.open,
    sample: s.sample,
    opened_ms: s.opened?.ms ?? 0,
    last_day: s.last_ms - (s.last_ms % DAY),
    removed: false,
  };
}

function check(d: WriteRequest): { field: string; value: string; say: string }[] {
  const b = d.body as Record<string, unknown>;
  const out: { field: string; value: string; say: string }[] = [];
  const fail = (field: string, say: string) => out.push({ field, value: String(b[field] ?? ""), say });
  if (!d.by) fail("by", "Say who is at the sink: initials are enough.");
  if (d.kind === "begin" && !b["liquid"]) fail("liquid", "Say what liquid is in the tray.");
  if (d.kind === "begin" && !(Number(b["litres"]) > 0))
    fail("litres", "The litres in the tray must be above 0, up to 10000 L.");
  if (d.kind === "reading" && b["q"] === "ph" && Number(b["value"]) > 14)
    fail("value", `pH ${String(b["value"])} cannot be: it must be 0 to 14.`);
  if ((d.kind === "strike" || d.kind === "amend") && !b["why"])
    fail("why", "Say in a word or two why; the entry stays visible.");
  if (d.at && Date.parse(d.at) > Date.now() + 60_000)
    fail("at", "This is in the future. Give the time at which it happened.");
  return out;
}
