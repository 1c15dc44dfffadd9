// How this device rings: each way switched by itself, and the sound check.
import { useState } from "preact/hooks";
import { Icon } from "../parts/icon";
import { Ringers } from "./ringers";
import { audio, canSpeak, canTremble, wants } from "./sound";
import { audioSays, heardHere, SoundCheck } from "./sound-check";

export function RingSettings() {
  const [checking, setChecking] = useState(false);
  return (
    <section class="part" aria-labelledby="ringing">
      <h2 id="ringing">How it rings</h2>
      <p data-test="ring-state">
        {audioSays(audio.value)}
        {heardHere.value === "yes" && " Somebody heard it since the page was opened."}
        {heardHere.value === "no" && " Somebody could not hear it."}
      </p>
      <Ringers />
      <div class="row" role="group" aria-label="How it rings">
        <Switch is="sound" say="Sound" can={audio.value !== "none"} />
        <Switch is="tremble" say="Tremble" can={canTremble()} />
        <Switch is="speech" say="Spoken words" can={canSpeak()} />
      </div>
      <button type="button" class="key strong" data-test="sound-check-open" onClick={() => setChecking(true)}>
        <Icon is="bell" />
        Sound check
      </button>
      {checking && <SoundCheck onClose={() => setChecking(false)} />}
    </section>
  );
}

function Switch({ is, say, can }: { is: keyof typeof wants; say: string; can: boolean }) {
  const on = wants[is].value;
  return (
    <button
      type="button"
      class={on && can ? "key chosen" : "key"}
      aria-pressed={on && can}
      disabled={!can}
      data-test={`ring-${is}`}
      onClick={() => (wants[is].value = !on)}
    >
      <Icon is={on && can ? "tick" : "cross"} />
      {say}
      {can ? (on ? ": on" : ": off") : ": not here"}
    </button>
  );
}
