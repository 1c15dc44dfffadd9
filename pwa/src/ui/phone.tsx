// This device: what it keeps, what it has not sent, what it could not give, how it looks.
import { useState } from "preact/hooks";
import { lacks, saveFile } from "./base/browser";
import { useCore } from "./base/core";
import { pressWay, theme, who, type PressWay, type Theme } from "./base/remember";
import { bytes, count } from "./base/words";
import { Chips } from "./parts/chips";
import { Icon } from "./parts/icon";
import { Page } from "./parts/page";
import { linkSays } from "./parts/standing";
import { waitingSays } from "./parts/waiting";
import { WhoKey, WhoSheet } from "./parts/who";
import { RingSettings } from "./ring/settings";

export function Phone() {
  const core = useCore();
  const s = core.status.value;
  return (
    <Page title="This device" back={{ to: "#/", say: "Now" }}>
      <section class="part" aria-labelledby="unsent">
        <h2 id="unsent">Not at the studio machine yet</h2>
        <Unsent />
      </section>
      <Person />
      <section class="part" aria-labelledby="studio">
        <h2 id="studio">The studio machine</h2>
        <p>
          {s.paired
            ? `Paired with ${s.studio || "the studio machine"}${s.label && ` as “${s.label}”`}: ${linkSays(s)}.`
            : "Not paired."}
        </p>
        <div class="row">
          <a class="key" href="#/pair">
            <Icon is="link" />
            {s.paired ? "Pair it anew" : "Pair it"}
          </a>
        </div>
        {s.dev && <p class="hash quiet">Device {s.dev}</p>}
      </section>
      <RingSettings />
      <Storage />
      <Looks />
      <Press />
      <Lacks />
    </Page>
  );
}

function Unsent() {
  const core = useCore();
  const s = core.status.value;
  const [say, setSay] = useState("");
  const save = async () => {
    try {
      const file = await core.unsentFile();
      await saveFile(file.name, file.text, "application/jsonl");
      setSay(`${count(file.count, "entry is", "entries are")} in the file ${file.name}. They stay here as well.`);
    } catch (e) {
      setSay(
        e instanceof Error && e.name === "AbortError" ? "Not saved." : "The file could not be made. Try it again.",
      );
    }
  };
  return (
    <>
      <p data-test="phone-unsent">{waitingSays(s)}</p>
      <button
        type="button"
        class={s.unsent > 0 ? "key strong" : "key"}
        data-test="save-unsent"
        onClick={() => void save()}
      >
        <Icon is="save" />
        Save what was not sent to a file
      </button>
      <p role="status" data-test="save-say">
        {say}
      </p>
    </>
  );
}

function Person() {
  const [asking, setAsking] = useState(false);
  return (
    <section class="part" aria-labelledby="person">
      <h2 id="person">Who is at it</h2>
      <div class="row">
        <p>{who.value ? `Entries made here are signed ${who.value}.` : "Nobody has said yet."}</p>
        <WhoKey onAsk={() => setAsking(true)} />
      </div>
      {asking && <WhoSheet onClose={() => setAsking(false)} />}
    </section>
  );
}

function Storage() {
  const core = useCore();
  const s = core.status.value;
  const [say, setSay] = useState("");
  const ask = async () => {
    const granted = await core.askPersist().catch(() => false);
    setSay(
      granted
        ? "Promised."
        : "The browser did not promise. Installing the app, or using it often, usually changes that.",
    );
  };
  return (
    <section class="part" aria-labelledby="storage">
      <h2 id="storage">Storage</h2>
      <p data-test="storage">
        {s.quota > 0
          ? `${bytes(s.usage)} used of ${bytes(s.quota)} that the browser allows.`
          : "The browser does not say how much is used."}
        {s.storageLow && " That is nearly all: free some room on this device soon."}
      </p>
      <p>
        {s.persisted
          ? "The browser has promised not to clear it by itself."
          : "The browser may clear it when room gets short, or when the app has not been used for weeks. Let entries reach the studio machine, or save them to a file."}
      </p>
      <p data-test="library">
        {core.library.value
          ? "The reckonings are kept here, for when there is no network."
          : "The reckonings are not kept here yet: they come by themselves, a while after a start with the network on."}
      </p>
      {!s.persisted && (
        <button type="button" class="key" data-test="ask-persist" onClick={() => void ask()}>
          <Icon is="tick" />
          Ask it to promise
        </button>
      )}
      <p role="status">{say}</p>
    </section>
  );
}

function Looks() {
  const ways: [Theme, string][] = [
    ["device", "As the device has it"],
    ["light", "Light"],
    ["dim", "Dim"],
  ];
  return (
    <section class="part" aria-labelledby="looks">
      <h2 id="looks">How it looks</h2>
      <Chips label="How it looks" choices={ways} now={theme.value} onChoose={(t) => (theme.value = t)} test="theme" />
    </section>
  );
}

function Press() {
  const ways: [PressWay, string][] = [
    ["hold", "Hold, then let go"],
    ["twice", "Press twice"],
  ];
  return (
    <section class="part" aria-labelledby="press">
      <h2 id="press">How a press at the sink counts</h2>
      <Chips
        label="How a press counts"
        choices={ways}
        now={pressWay.value}
        onChoose={(w) => (pressWay.value = w)}
        test="press"
      />
      <p class="quiet">
        Holding keeps water on the glass from recording anything. Two presses are for hands that cannot hold still, and
        for screen readers; keep the glass dry then. Keys and switches can do either.
      </p>
    </section>
  );
}

function Lacks() {
  const [list] = useState(lacks);
  return (
    <section class="part" aria-labelledby="lacks">
      <h2 id="lacks">What this device could not give</h2>
      {list.length === 0 ? (
        <p>It gives everything that the app asks for.</p>
      ) : (
        <ul class="facts" data-test="lacks">
          {list.map((l) => (
            <li key={l}>{l}</li>
          ))}
        </ul>
      )}
    </section>
  );
}
