// The sound check: it plays and speaks, and a person says whether it was heard. Nobody but an ear can know that.
import { useState } from "preact/hooks";
import { signal } from "@preact/signals";
import { otherFaults, record, type Wrong } from "../base/acts";
import { isIos, lacks } from "../base/browser";
import { useCore } from "../base/core";
import { useOneAtATime } from "../base/once";
import { who } from "../base/remember";
import { Alert } from "../parts/field";
import { HoldButton } from "../parts/hold-button";
import { Icon } from "../parts/icon";
import { announce } from "../parts/say";
import { Sheet } from "../parts/sheet";
import { WhoSheet } from "../parts/who";
import { audio, canSpeak, canTremble, hush, sound, speak, unlock, voices, wants, type AudioState } from "./sound";

/** What somebody has said since the page was loaded: it holds no longer than the page's sound. */
export const heardHere = signal<"yes" | "no" | "">("");

interface SoundCheckProps {
  /** Where it is a treatment's checklist that asks: what was said is recorded there. */
  job?: string;
  onClose: () => void;
}

export function SoundCheck({ job, onClose }: SoundCheckProps) {
  const core = useCore();
  const [played, setPlayed] = useState(false);
  const [asking, setAsking] = useState<"yes" | "no" | null>(null);
  const [wrong, setWrong] = useState<readonly Wrong[]>([]);
  const oneAtATime = useOneAtATime();
  const close = () => {
    hush();
    onClose();
  };
  const play = async () => {
    await unlock();
    sound("target");
    speak("Rinse three, the time is up");
    setPlayed(true);
  };
  const said = (answer: "yes" | "no") =>
    oneAtATime(async () => {
      heardHere.value = answer;
      if (!job) return close();
      if (!who.peek()) return setAsking(answer);
      await keep(answer);
    });
  const keep = async (answer: "yes" | "no") => {
    const over = (core.dossier(job ?? "").peek()?.fields["check.sound_checked"] ?? []).map((v) => v.entry);
    const body = { field: "check.sound_checked", value: answer, over };
    const found = job ? await record(core, { job, kind: "set", body }) : [];
    setWrong(found);
    if (found.length > 0) return;
    announce(`Sound checked: ${answer === "yes" ? "done" : "not done"}`);
    close();
  };
  return (
    <Sheet title="Sound check" onClose={close}>
      <div class="sheet-body" data-test="sound-check" data-audio={audio.value}>
        <p>
          Turn the device up, lay it where it will stand, and play what rings when a time is up. It should be heard over
          running water.
        </p>
        <button type="button" class="key strong" data-test="sound-play" onClick={() => void play()}>
          <Icon is="bell" />
          {played ? "Play it again" : "Play it"}
        </button>
        <p role="status" data-test="sound-state">
          {played ? audioSays(audio.value) : ""}
        </p>
        {played && (
          <div class="heard-it" role="group" aria-label="Did you hear it?">
            <p>
              <b>Did you hear it?</b>
            </p>
            <HoldButton test="sound-yes" label="Yes" icon="tick" tone="quiet" onDone={() => said("yes")} />
            <HoldButton test="sound-no" label="No" icon="cross" tone="quiet" onDone={() => said("no")} />
          </div>
        )}
        <Alert say={otherFaults(wrong, [])} />
        <ul class="facts">
          {advice().map((a) => (
            <li key={a}>{a}</li>
          ))}
        </ul>
        <Gives />
      </div>
      {asking && (
        <WhoSheet
          onClose={(chosen) => {
            setAsking(null);
            if (chosen) void keep(asking);
          }}
        />
      )}
    </Sheet>
  );
}

export function audioSays(a: AudioState): string {
  if (!wants.sound.value) return "Sound is switched off on this device.";
  switch (a) {
    case "runs":
      return "The browser gives sound. Whether it is loud enough only you can hear.";
    case "untouched":
      return "The browser gives sound once the page has been touched.";
    case "stopped":
      return "The browser has stopped the sound, as it does for a call. Touch the screen.";
    case "none":
      return "This browser gives no sound: another device must ring.";
  }
}

function advice(): string[] {
  const mute = isIos()
    ? "The mute switch at the side silences this too: switch it off, and end any focus or do-not-disturb."
    : "A device that is muted, or told not to disturb, may swallow it. Headphones and speakers that are connected take it with them.";
  return [
    mute,
    "Once the screen is locked or another app is in front, a phone may fall silent without a word: leave this page open and the screen on, and let a second device ring too.",
  ];
}

function speechSays(): string {
  if (!canSpeak()) return "it cannot";
  return voices.value > 0 ? "it can, in the voice that the device has" : "it lists no voice: it may stay without words";
}

/** What this device can give, one by one, each as it is. */
function Gives() {
  const core = useCore();
  const s = core.status.value;
  const rows: [string, boolean, string][] = [
    ["Sound", audio.value === "runs", audioSays(audio.value)],
    ["Tremble", canTremble(), canTremble() ? "it can" : "it cannot"],
    ["Speech", canSpeak() && voices.value > 0, speechSays()],
    [
      "Screen kept on",
      "wakeLock" in navigator,
      "wakeLock" in navigator ? "it can" : "only by a picture that plays out of sight",
    ],
    ["Storage", s.persisted, s.persisted ? "the browser has promised to keep it" : "not promised: see This device"],
  ];
  return (
    <section aria-label="What this device gives">
      <h3>What this device gives</h3>
      <dl class="facts-list gives">
        {rows.map(([name, has, say]) => (
          <div class="fact" key={name}>
            <dt>{name}</dt>
            <dd>
              <Icon is={has ? "tick" : "cross"} />
              <span class="known">{say}</span>
            </dd>
          </div>
        ))}
      </dl>
      {lacks().length > 0 && (
        <ul class="facts">
          {lacks().map((l) => (
            <li key={l}>{l}</li>
          ))}
        </ul>
      )}
    </section>
  );
}
