// The held press by which a colleague takes over.
import { useState } from "preact/hooks";
import type { State } from "../../core/api";
import { beAtSink, record } from "../base/acts";
import { useCore } from "../base/core";
import { who } from "../base/remember";
import { Alert, TextField } from "../parts/field";
import { HoldButton } from "../parts/hold-button";
import { Icon } from "../parts/icon";
import { initialsFault, tidyInitials } from "../parts/initials";
import { announce } from "../parts/say";
import { knownInitials } from "../parts/who";
import { go } from "../route";
import { atSink, knownHands } from "./standing";

/** Choosing changes nothing. The held press is the entry. */
export function Take({ state }: { state: State }) {
  const core = useCore();
  const from = atSink(state)?.by ?? "";
  const [chosen, choose] = useState("");
  const [typed, setTyped] = useState("");
  const [say, setSay] = useState("");
  const known = knownHands(state, knownInitials(core), from);
  const to = tidyInitials(typed) || chosen;
  const take = async () => {
    const fault = to ? initialsFault(to) : "Choose who takes over, or type the initials.";
    if (fault) return setSay(fault);
    if (to !== from) {
      const says = from ? `${to} has taken over from ${from}` : `${to} has taken over`;
      const wrong = await record(core, { job: state.job, kind: "takeover", body: { from }, by: to }, says);
      if (wrong.length > 0) return setSay(wrong.map((w) => w.say).join(" "));
      announce(`${says}.`);
    }
    await beAtSink(core, to);
    go(`#/t/${state.job}`);
  };
  return (
    <section class="hand-take" aria-label="Take over">
      <div class="hand-who">
        <div class="chips" role="group" aria-label="Who takes over?">
          {known.map((w) => (
            <button
              type="button"
              key={w}
              class={w === to ? "key chosen" : "key"}
              data-test={`hand-${w}`}
              aria-pressed={w === to}
              onClick={() => {
                choose(w);
                setTyped("");
                setSay("");
              }}
            >
              {w === to && <Icon is="tick" />}
              {w}
            </button>
          ))}
        </div>
        <TextField
          label="Somebody else: initials"
          test="hand-new"
          value={typed}
          onValue={(v) => {
            setTyped(v);
            setSay("");
          }}
        />
      </div>
      <Alert say={say} />
      <HoldButton
        test="take-over"
        label={to ? `${to} takes over` : "Take over"}
        icon="person"
        about={from ? `from ${from}` : ""}
        onDone={take}
      />
      {who.value !== "" && who.value !== from && (
        <p class="quiet small">This device writes as {who.value} until then.</p>
      )}
    </section>
  );
}
