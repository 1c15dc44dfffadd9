// The two clocks that are always in sight: how long it has been immersed, against what was tested, and how
// long it has been wet.
import { useCore } from "../base/core";
import { minutes, when } from "../base/words";
import { Icon } from "../parts/icon";
import { immersedMs } from "../treatment";
import type { Bench } from "./bench";
import { limitBar, limitLabel, limitLacks } from "./limit";
import { nowAt, Ticking, useTicking } from "../base/ticking";

export function Clocks({ bench }: { bench: Bench }) {
  return (
    <section class="clocks" aria-label="How long it has been immersed and wet">
      <Immersed bench={bench} />
      <Wet bench={bench} />
    </section>
  );
}

function Immersed({ bench }: { bench: Bench }) {
  const { state } = bench;
  const limit = bench.watch?.dwell ?? null;
  const lacks = limitLacks(limit);
  const is = useTicking((now) => limitBar(limit, immersedMs(state, now))?.is ?? "within", [limit, state]).value;
  return (
    <button type="button" class={`tile ${is}`} data-test="limit" onClick={() => bench.ask("limit")}>
      <small>{limitLabel(limit)}</small>
      <b>
        {is !== "within" && <Icon is="past" />}
        <span data-test="immersed">
          <Ticking say={(now) => wetSays(immersedMs(state, now))} deps={[state]} />
        </span>
        {is !== "within" && <small> {is === "near" ? "past 80 %" : "past it"}</small>}
      </b>
      {lacks && (
        <small class="lacks" data-test="untested">
          {lacks}
        </small>
      )}
      <LimitBarDrawn bench={bench} />
    </button>
  );
}

/** The bar with its 80 % mark. Where no test gives a limit it is an empty, broken line. */
function LimitBarDrawn({ bench }: { bench: Bench }) {
  const { state } = bench;
  const limit = bench.watch?.dwell ?? null;
  // Once in a while is enough: the bar moves by a pixel in half a minute.
  const gone = useTicking((now) => Math.floor(immersedMs(state, now) / 10_000) * 10_000, [state]).value;
  const bar = limitBar(limit, gone);
  return (
    <svg class="limit-bar" viewBox="0 0 100 10" preserveAspectRatio="none" aria-hidden="true">
      {bar ? (
        <>
          <rect class="rest" y="1" width="100" height="8" />
          <rect class="gone" y="1" width={bar.gone * 100} height="8" />
          {bar.over > 0 && <rect class="over" x={bar.end * 100} y="1" width={bar.over * 100} height="8" />}
          <path class="mark" d={`M${bar.mark * 100} 0V10`} vector-effect="non-scaling-stroke" />
          {bar.end < 1 && <path class="mark" d={`M${bar.end * 100} 0V10`} vector-effect="non-scaling-stroke" />}
        </>
      ) : (
        <path class="none" d="M0 5H100" vector-effect="non-scaling-stroke" />
      )}
    </svg>
  );
}

function Wet({ bench }: { bench: Bench }) {
  const core = useCore();
  const { state } = bench;
  const since = state.wet_since_ms;
  const at = nowAt(core);
  return (
    <div class="tile">
      <small>{wetLabel(bench, at)}</small>
      <b data-test="wet">
        {since !== null ? (
          <Ticking say={(now) => wetSays(now - since)} deps={[since]} />
        ) : state.dry ? (
          "dry"
        ) : (
          "not yet wet"
        )}
      </b>
    </div>
  );
}

function wetLabel({ state }: Bench, now: number): string {
  if (state.wet_since_ms !== null) return `Wet since ${when(state.wet_since_ms, now)}`;
  return state.dry ? `Dry since ${when(state.dry.at.ms, now)}` : "Wet";
}

/** "14 min", "1 h 14": short enough for a narrow card. */
export function wetSays(ms: number): string {
  return minutes(ms).replace(/^(\d+ h \d+) min$/, "$1");
}
