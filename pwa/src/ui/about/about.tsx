// About the object: what is known of it, and where two people have said two things, the choice.
import { useState } from "preact/hooks";
import type { State } from "../../core/api";
import { faultAt, otherFaults, record, type Wrong } from "../base/acts";
import { useCore } from "../base/core";
import { useOneAtATime } from "../base/once";
import { who } from "../base/remember";
import { useMinute } from "../base/ticking";
import { count, dayKey, when } from "../base/words";
import { Alert, Fault, TextField } from "../parts/field";
import { Icon } from "../parts/icon";
import { Page } from "../parts/page";
import { WhoKey, WhoSheet } from "../parts/who";
import { useFetched } from "../log/log";
import { nameOf } from "../treatment";
import { FACTS, FactRow, SETTINGS } from "./fact";

export function About({ job }: { job: string }) {
  const core = useCore();
  const state = core.dossier(job).value;
  useFetched(job, state === null);
  const [asking, setAsking] = useState(false);
  if (!state)
    return (
      <Page title="About the object" back={{ to: `#/t/${job}`, say: "Sink" }}>
        <p class="quiet">Reading its log …</p>
      </Page>
    );
  return (
    <Page title={nameOf(state)} back={{ to: `#/t/${job}`, say: "Sink" }}>
      <dl class="facts-list">
        {FACTS.map((f) => (
          <FactRow key={f.field} job={job} fact={f} values={state.fields[f.field] ?? []} />
        ))}
      </dl>
      <div class="row">
        <p class="quiet">Entries made here are signed {who.value || "by nobody yet"}.</p>
        <WhoKey onAsk={() => setAsking(true)} />
      </div>
      <section class="part">
        <h2>How it is watched</h2>
        <dl class="facts-list">
          {SETTINGS.map((f) => (
            <FactRow key={f.field} job={job} fact={f} values={state.fields[f.field] ?? []} />
          ))}
        </dl>
      </section>
      <Life state={state} />
      {asking && <WhoSheet onClose={() => setAsking(false)} />}
    </Page>
  );
}

function Life({ state }: { state: State }) {
  const now = useMinute();
  return (
    <section class="part">
      <h2>This treatment</h2>
      <p>
        {state.opened ? `Opened ${when(state.opened.ms, now)}. ` : ""}
        {count(state.steps.length, "bath", "baths")}, {count(state.readings, "reading", "readings")},{" "}
        {count(state.notes, "note", "notes")}; {count(state.entries, "entry", "entries")} in all.
        {state.sample && " It is a sample, invented to try things on."}
      </p>
      <div class="row">
        <a class="key" href={`#/t/${state.job}/log`}>
          <Icon is="list" />
          The log
        </a>
        {state.last_ms > 0 && (
          <a class="key" href={`#/t/${state.job}/day/${dayKey(state.last_ms)}`} data-test="about-day">
            <Icon is="note" />
            Its last day on paper
          </a>
        )}
        <a class="key" href={`/api/treatments/${state.job}/log.jsonl`} download>
          <Icon is="save" />
          Save as JSON lines
        </a>
        <a class="key" href={`/api/treatments/${state.job}/log.csv`} download>
          <Icon is="save" />
          Save as CSV
        </a>
      </div>
      <OpenOrClose state={state} />
    </section>
  );
}

function OpenOrClose({ state }: { state: State }) {
  const core = useCore();
  const [asked, setAsked] = useState(false);
  const [why, setWhy] = useState("");
  const oneAtATime = useOneAtATime();
  const [wrong, setWrong] = useState<readonly Wrong[]>([]);
  const kind = state.open ? "close" : "reopen";
  const running = state.steps.some((s) => !s.ended);
  const say = state.open ? "Close this treatment" : "Open this treatment again";
  const act = () =>
    oneAtATime(async () => {
      const found = await record(core, { job: state.job, kind, body: why.trim() ? { why } : {} });
      setWrong(found);
      if (found.length > 0) return;
      setAsked(false);
      setWhy("");
    });
  if (!asked)
    return (
      <button type="button" class="key" data-test={kind} onClick={() => setAsked(true)}>
        <Icon is={state.open ? "tick" : "undo"} />
        {say} …
      </button>
    );
  const stray = otherFaults(wrong, ["why"]);
  return (
    <form
      class="form inset"
      onSubmit={(e) => {
        e.preventDefault();
        void act();
      }}
    >
      {running && state.open && (
        <p class="fault">
          <Fault say="A step is still running in it. Once it is closed no device rings for it." />
        </p>
      )}
      <TextField
        label={state.open ? "How it stands (may be left empty)" : "Why it goes on (may be left empty)"}
        test="close-why"
        value={why}
        onValue={setWhy}
        fault={faultAt(wrong, "why")}
        help={state.open ? "It leaves the page called Now and stays in the studio for good." : ""}
      />
      <Alert say={stray} />
      <div class="row">
        <button type="submit" class="key strong" data-test={`${kind}-go`}>
          <Icon is="tick" />
          {say}
        </button>
        <button type="button" class="key" onClick={() => setAsked(false)}>
          <Icon is="back" />
          Leave it
        </button>
      </div>
    </form>
  );
}
