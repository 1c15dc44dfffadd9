// Over every screen while a recorded day is played: what time it is there, and the keys that move it.
import { useEffect } from "preact/hooks";
import { timeOfDay } from "../base/words";
import { Icon } from "../parts/icon";
import { FAST, isOver, leavePlay, played, playing, setPlayed, setRate, skipped, tape, toNext, type Play } from "./play";
import { toSee } from "./reel";

const TEN_MIN = 600_000;

export function PlayBar() {
  const p = playing.value;
  useEffect(() => {
    document.documentElement.classList.toggle("plays", p !== null);
  }, [p]);
  if (!p) return null;
  const { rate } = tape.value;
  const now = played.value;
  return (
    <aside class="play" aria-label="A recorded day is being played">
      <p class="play-says">
        <b data-test="play-clock" data-ms={Math.round(now)} data-rate={rate}>
          {timeOfDay(now)}
        </b>{" "}
        A recorded day{rate === FAST ? ", a minute a second" : rate === 0 ? ", standing" : ""}. Nothing is recorded.
      </p>
      <p class="play-see" data-test="play-say" role="status">
        <See p={p} now={now} />
      </p>
      <div class="play-keys" role="group" aria-label="Playing">
        <button type="button" class="key" data-test="play-back" onClick={() => setPlayed(now - TEN_MIN)}>
          10 min back
        </button>
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
          data-test="play-rate"
          aria-pressed={rate === 1}
          disabled={isOver.value}
          onClick={() => setRate(rate === 1 ? FAST : 1)}
        >
          {rate === 1 ? "60 times" : "As it was"}
        </button>
        <button type="button" class="key" data-test="play-on" onClick={() => setPlayed(now + TEN_MIN)}>
          10 min on
        </button>
        <button type="button" class="key" data-test="play-next" onClick={toNext}>
          Next entry
        </button>
        <button type="button" class="key strong" data-test="play-leave" onClick={leavePlay}>
          <Icon is="cross" />
          Leave
        </button>
      </div>
    </aside>
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
  const cut = toSee(p.reel, now);
  if (!cut) return <>Two trays and a drying board: three textiles on one day.</>;
  const name = p.core.treatments.value.find((t) => t.job === cut.job)?.name ?? "";
  return (
    <a href={cut.kind === "takeover" ? `#/t/${cut.job}/hand` : `#/t/${cut.job}`}>
      {timeOfDay(cut.ms)} {name}: {cut.say}
    </a>
  );
}
