// Over every screen: what rings, and how it is acknowledged for all devices. Below it, calmly, what passed unheard here.
import { signal } from "@preact/signals";
import { otherFaults, record, type Wrong } from "../base/acts";
import { CoreContext } from "../base/core";
import { who } from "../base/remember";
import { clockMs, isPlayed } from "../base/time";
import { count, when } from "../base/words";
import { Fault } from "../parts/field";
import { HoldButton } from "../parts/hold-button";
import { Icon } from "../parts/icon";
import { openSheets } from "../parts/sheet";
import { WhoSheet } from "../parts/who";
import { route } from "../route";
import { acknowledged, dismissMissed, hushed, missed, ringCore, ringing, silence } from "./lookout";
import type { Ring } from "./plan";
import { audio, sounded, wants } from "./sound";

/** Written for these as soon as somebody has said who they are. */
const asking = signal<readonly Ring[] | null>(null);
const wrong = signal<readonly Wrong[]>([]);

export function RingBar() {
  // What was missed can wait for a question to be answered, and for what rings.
  const calm = openSheets.value.length === 0;
  const rings = ringing.value;
  const loud = rings.some((r) => !hushed.value.has(r.key));
  const told = calm && rings.length === 0 ? missed.value : [];
  return (
    <div
      class={rings.length + told.length > 0 ? "rings shown" : "rings"}
      data-test="rings"
      data-ring={loud ? "ringing" : "silent"}
      data-sounded={sounded.value}
      data-audio={audio.value}
    >
      {rings.length > 0 && <Ringing rings={rings} loud={loud} />}
      {told.length > 0 && <Missed rings={told} />}
    </div>
  );
}

function Ringing({ rings, loud }: { rings: readonly Ring[]; loud: boolean }) {
  return (
    <section class="ringing" aria-label="Ringing">
      <div class="ring-what">
        <div role="alert">
          {rings.map((r) => (
            <RingLine key={r.key} ring={r} />
          ))}
        </div>
        <p class="ring-sound">{soundSays(loud)}</p>
        {wrong.value.length > 0 && (
          <p class="fault">
            <Fault say={otherFaults(wrong.value, [])} />
          </p>
        )}
      </div>
      <HoldButton
        test="heard"
        icon="tick"
        tone="end"
        label="I have it"
        about={rings.map((r) => r.cue.say).join(", ")}
        onDone={() => have(rings)}
      />
    </section>
  );
}

/** Silent here at once; the entries follow, which silence all devices. */
async function have(rings: readonly Ring[]): Promise<void> {
  wrong.value = [];
  silence(rings.map((r) => r.key));
  // Whoever is at the sink of a day that is played is not here.
  if (who.peek() && !isPlayed()) await write(rings, who.peek());
  else asking.value = rings;
}

async function write(rings: readonly Ring[], by: string): Promise<void> {
  const found = await Promise.all(
    rings.map((r) => record(ringCore(), { job: r.job, kind: "heard", body: { cue: r.cue.id }, by })),
  );
  wrong.value = found.flat();
  acknowledged(rings.filter((_, i) => found[i]?.length === 0).map((r) => r.key));
}

/** Asks who has it where nobody has said yet. Left without an answer, it is written of "?". */
export function RingWho() {
  const rings = asking.value;
  if (!rings) return null;
  const close = (chosen = "?") => {
    asking.value = null;
    void write(rings, chosen);
  };
  return (
    <CoreContext.Provider value={ringCore()}>
      <WhoSheet onClose={close} />
    </CoreContext.Provider>
  );
}

function RingLine({ ring }: { ring: Ring }) {
  const since = whenSays(ring);
  // In a day that is played, the way would lead into the day as it was.
  const here = isPlayed() || ("job" in route.value && route.value.job === ring.job && route.value.at === "sink");
  return (
    <p class="ring-line" data-test="ring" data-cue={ring.cue.id}>
      <Icon is="bell" />
      <span>
        <b>{ring.cue.say}</b>{" "}
        <small>
          {here ? <bdi>{ring.name}</bdi> : <a href={`#/t/${ring.job}`}>{ring.name}</a>}, since {since}
        </small>
      </span>
    </p>
  );
}

function MissedCue({ ring }: { ring: Ring | undefined }) {
  if (!ring) return null;
  return (
    <span data-test="missed-cue" data-cue={ring.cue.id}>
      <b>{ring.cue.say}</b>{" "}
      <small>
        <bdi>{ring.name}</bdi>, {whenSays(ring)}
      </small>
    </span>
  );
}

/** Times of a dossier are shown as they are corrected, by the studio's clock. */
function whenSays(r: Ring): string {
  return when(r.cue.at_ms, clockMs() + ringCore().status.value.offset_ms);
}

function soundSays(loud: boolean): string {
  if (!loud) return "Silent on this device. The others ring until it is recorded.";
  if (!wants.sound.value) return "Sound is off on this device.";
  switch (audio.value) {
    case "runs":
      return "";
    case "untouched":
      return "No sound yet: the browser waits for a touch.";
    case "stopped":
      return "The browser has stopped the sound: touch the screen.";
    case "none":
      return "This browser gives no sound.";
  }
}

function Missed({ rings }: { rings: readonly Ring[] }) {
  return (
    <section class="missed" aria-label="Not heard on this device" data-test="missed">
      {rings.length === 1 ? (
        <p class="missed-one">
          <Icon is="bell" />
          <span>
            Not heard here: <MissedCue ring={rings[0]} />
          </span>
        </p>
      ) : (
        <details>
          <summary>
            <Icon is="bell" />
            {count(rings.length, "cue", "cues")} not heard here
          </summary>
          <ul>
            {rings.map((r) => (
              <li key={r.key}>
                <MissedCue ring={r} />
              </li>
            ))}
          </ul>
        </details>
      )}
      <button type="button" class="key" data-test="missed-seen" onClick={dismissMissed}>
        <Icon is="tick" />I know
      </button>
    </section>
  );
}
