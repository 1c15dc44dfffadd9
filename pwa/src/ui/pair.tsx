// Pairing this device. A link only fills in the code: it is spent when the person says so.
import { useState } from "preact/hooks";
import { isInstalled, isIos } from "./base/browser";
import { useCore } from "./base/core";
import { who } from "./base/remember";
import { Fault, TextField } from "./parts/field";
import { Icon } from "./parts/icon";
import { Page } from "./parts/page";
import { go } from "./route";

export function PairScreen({ code }: { code: string }) {
  const [here, setHere] = useState(!isIos() || isInstalled());
  return (
    <Page title="Pair this device" back={{ to: "#/", say: "Now" }}>
      {here ? <PairForm code={code} /> : <InstallFirst code={code} onHere={() => setHere(true)} />}
    </Page>
  );
}

function InstallFirst({ code, onHere }: { code: string; onHere: () => void }) {
  return (
    <div class="form">
      <p>
        On this device an installed app keeps its record apart from the browser's. So install it first, and type the
        code in the installed app. The code has not been used yet.
      </p>
      <ol class="steps">
        <li>Press the browser's share key, the square with the arrow.</li>
        <li>Choose “Add to Home Screen”, then “Add”.</li>
        <li>Open Sinkside from the home screen and press “Pair it”.</li>
        <li>Type this code there{code ? ":" : ", as the studio machine shows it."}</li>
      </ol>
      {code && (
        <p class="code" data-test="pair-show">
          {code}
        </p>
      )}
      <button type="button" class="key" data-test="pair-here" onClick={onHere}>
        Pair this browser all the same
      </button>
    </div>
  );
}

function PairForm({ code }: { code: string }) {
  const core = useCore();
  const status = core.status.value;
  const [typed, setTyped] = useState(code);
  const [label, setLabel] = useState(() =>
    who.peek() ? `${who.peek()}'s ${navigator.maxTouchPoints > 0 ? "phone" : "computer"}` : "",
  );
  const [say, setSay] = useState("");
  const [labelSay, setLabelSay] = useState("");
  const [busy, setBusy] = useState(false);
  const pair = async () => {
    if (busy) return;
    if (!label.trim()) return setLabelSay("Give the device a name that your colleagues will know.");
    if (!typed.trim()) return setSay("Type the code that the studio machine shows.");
    setBusy(true);
    setSay("");
    try {
      const answer = await core.pair(typed.trim(), label.trim());
      if ("say" in answer) setSay(answer.say);
      else go("#/");
    } catch {
      setSay("The studio machine could not be asked. Is this device in its network?");
    } finally {
      setBusy(false);
    }
  };
  return (
    <form
      class="form"
      onSubmit={(e) => {
        e.preventDefault();
        void pair();
      }}
    >
      {status.paired && (
        <p class="quiet">
          This device is paired already{status.label && `, as “${status.label}”`}. A further pairing replaces that.
        </p>
      )}
      <TextField
        label="Code"
        test="pair-code-typed"
        value={typed}
        onValue={setTyped}
        help="From the studio page, under “Pair a phone”. It works once and runs out."
        fault={say}
      />
      <TextField
        label="What to call this device"
        test="pair-label"
        value={label}
        onValue={(v) => {
          setLabel(v);
          setLabelSay("");
        }}
        help="The studio's list of devices shows it."
        fault={labelSay}
      />
      <button type="submit" class="key wide strong" data-test="pair-go" aria-disabled={busy}>
        <Icon is="link" />
        {busy ? "Pairing …" : "Pair this device"}
      </button>
      {say && (
        <p class="unseen" role="alert">
          <Fault say={say} />
        </p>
      )}
    </form>
  );
}
