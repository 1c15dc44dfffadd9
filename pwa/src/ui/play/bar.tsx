// Over every screen while a recorded day is played: what time it is there, what there is to see, and
// the keys that move it.
import { useEffect, useState } from "preact/hooks";
import { timeOfDay } from "../base/words";
import { Icon } from "../parts/icon";
import { FAST, isOver, leavePlay, played, playing, setPlayed, setRate, skipped, tape, toNext, type Play } from "./play";
import { toSee } from "./reel";
import { PlayedRings } from "./rings-bar";

const TEN_MIN = 600_000;
/** So long after its begin the bar says what this is, in played milliseconds: five seconds at full speed. */
const OPENING_MS = 300_000;

export function PlayBar() {
  const p = playing.value;
  const [open, setOpen] = useState(false);
  useEffect(() => {
    document.documentElement.classList.toggle("plays", p !== null);
  }, [p]);
  if (!p) return null;
  const { rate } = tape.value;
  const now = played.value;
  return (
    <>
      <aside class="play" aria-label="A recorded day is being played; nothing is recorded">
        <b class="play-clock" data-test="play-clock" data-ms={Math.round(now)} data-rate={rate}>
          {timeOfDay(now)}
        </b>
        <p class="play-see" data-test="play-say" role="status">
          <See p={p} now={now} />
        </p>
        <button
          type="button"
          class="key"
          data-test="play-pause"
          disabled={isOver.value}
          onClick={() => setRate(rate === 0 ? FAST : 0)}
        >
          {rate === 0 ? "Go on" : "Stand"}
        </button>
        <button
          type="button"
          class="key"
          data-test="play-more"
          aria-expanded={open}
          aria-label="Move the clock"
          onClick={() => setOpen(!open)}
        >
          <Icon is="clock" />
        </button>
        <button type="button" class="key" data-test="play-leave" onClick={leavePlay}>
          <Icon is="cross" />
          Leave
        </button>
        {open && (
          <div class="play-keys" role="group" aria-label="Move the clock">
            <button type="button" class="key" data-test="play-back" onClick={() => setPlayed(now - TEN_MIN)}>
              10 min back
            </button>
            <button type="button" class="key" data-test="play-on" onClick={() => setPlayed(now + TEN_MIN)}>
              10 min on
            </button>
            <button type="button" class="key" data-test="play-next" onClick={toNext}>
              Next entry
            </button>
            <button
              type="button"
              class="key"
              data-test="play-rate"
              disabled={isOver.value}
              onClick={() => setRate(rate === 1 ? FAST : 1)}
            >
              {rate === 1 ? "A minute a second" : "As fast as it was"}
            </button>
          </div>
        )}
      </aside>
      <PlayedRings of={p} />
    </>
  );
}

/** What there is to see now, and the way there. */
function See({ p, now }: { p: Play; now: number }) {
  if (isOver.value) return <>The day is over. Go back in it, or leave.</>;
  const skip = skipped.value;
  if (skip && now - skip.to < 3 * 60_000)
    return (
      <>
        Nothing happened from {timeOfDay(skip.from)} to {timeOfDay(skip.to)}: skipped.
      </>
    );
  const cut = now - p.reel.from < OPENING_MS ? undefined : toSee(p.reel, now);
  if (!cut) return <>A recorded day, a minute a second. Nothing is recorded.</>;
  const name = p.core.treatments.value.find((t) => t.job === cut.job)?.name ?? "";
  return (
    <a href={cut.kind === "takeover" ? `#/t/${cut.job}/hand` : `#/t/${cut.job}`}>
      {shortly(cut.say)} · {name}
    </a>
  );
}

/** "Pre-soak 1 begun", of the whole sentence about it. */
function shortly(say: string): string {
  return say.split(/[:;,.]/, 1)[0] ?? say;
}
