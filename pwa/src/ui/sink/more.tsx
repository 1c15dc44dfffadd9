// What is seldom needed at the sink, behind one key.
import { useCore } from "../base/core";
import { wake } from "../base/wake";
import { count } from "../base/words";
import { Icon, type IconName } from "../parts/icon";
import { PhotoKey } from "../parts/photo-key";
import { Sheet } from "../parts/sheet";
import type { Asked, Bench } from "./bench";

export function More({ bench }: { bench: Bench }) {
  const { state, shown, running } = bench;
  const at = `#/t/${state.job}`;
  return (
    <Sheet title="More" onClose={() => bench.ask(null)}>
      <div class="sheet-body">
        <nav class="doors" aria-label="More of this treatment">
          {shown && (
            <Turn bench={bench} to="next" icon="bath">
              Begin another bath while this one runs
            </Turn>
          )}
          {!shown && running.length > 0 && (
            <Turn bench={bench} to={null} icon="clock">
              Back to the bath that runs
            </Turn>
          )}
          <Ask bench={bench} to="curve" icon="curve">
            The rinses so far, decide
          </Ask>
          <Ask bench={bench} to="source" icon="drop">
            Measure the source water
          </Ask>
          {shown?.what !== "drying" && (
            <Ask bench={bench} to="mass" icon="textile">
              Weigh it
            </Ask>
          )}
          {shown?.what === "drying" && (
            <Ask bench={bench} to="ago" icon="clock">
              The next check was earlier
            </Ask>
          )}
          <Ask bench={bench} to="dry" icon="dry">
            It is dry
          </Ask>
          <Ask bench={bench} to="overnight" icon="moon">
            Left overnight
          </Ask>
          <Ask bench={bench} to="warnings" icon="look">
            What to look at
          </Ask>
          {state.aborts.length > 0 && (
            <Ask bench={bench} to="stopped" icon="stop">
              The stop: its steps, and why
            </Ask>
          )}
          <PhotoKey job={state.job} of={shown?.entry ?? ""} label="Photograph it" />
          <a class="key big" href={`${at}/hand`} data-test="hand">
            <Icon is="person" />
            Hand over
          </a>
          <a class="key big" href={`${at}/ready`} data-test="ready">
            <Icon is="tick" />
            Make ready: plan, tests, stop plan
          </a>
          <a class="key big" href={`${at}/log`} data-test="log">
            <Icon is="list" />
            The log, {count(state.entries, "entry", "entries")}
          </a>
          <a class="key big" href={`${at}/about`} data-test="about">
            <Icon is="textile" />
            About the object
          </a>
          <a class="key big" href={`${at}/reckon`}>
            <Icon is="reckon" />
            Reckonings
          </a>
          <a class="key big" href="#/phone">
            <Icon is="phone" />
            This device
          </a>
        </nav>
        <ul class="facts">
          {state.doubts.length > 0 && (
            <li>{count(state.doubts.length, "entry is", "entries are")} doubtful: the log says why.</li>
          )}
          {state.unknown > 0 && (
            <li>
              {count(state.unknown, "entry was", "entries were")} written by a newer version and cannot be read here.
              Nothing is lost.
            </li>
          )}
          <ScreenSays running={running.length > 0} />
        </ul>
      </div>
    </Sheet>
  );
}

function Ask({ bench, to, icon, children }: { bench: Bench; to: Asked; icon: IconName; children: string }) {
  return (
    <button type="button" class="key big" data-test={`more-${to}`} onClick={() => bench.ask(to)}>
      <Icon is={icon} />
      {children}
    </button>
  );
}

interface TurnProps {
  bench: Bench;
  to: "next" | null;
  icon: "bath" | "clock";
  children: string;
}

function Turn({ bench, to, icon, children }: TurnProps) {
  return (
    <button
      type="button"
      class="key big"
      data-test={to === "next" ? "another" : "the-running"}
      onClick={() => {
        bench.show(to);
        bench.ask(null);
      }}
    >
      <Icon is={icon} />
      {children}
    </button>
  );
}

function ScreenSays({ running }: { running: boolean }) {
  const s = useCore().status.value;
  const screen = !running
    ? "While a bath runs the screen is kept on."
    : wake.value === "kept"
      ? "The screen is kept on while this bath runs."
      : "This browser cannot keep the screen on: set the phone's own screen time longer. The clock loses nothing.";
  return (
    <>
      <li>{screen}</li>
      {s.offset_ms !== 0 && Math.abs(s.offset_ms) >= 2000 && (
        <li>
          This device's clock is {count(Math.round(Math.abs(s.offset_ms) / 1000), "second", "seconds")}{" "}
          {s.offset_ms > 0 ? "behind" : "ahead of"} the studio machine's; the times shown are put right.
        </li>
      )}
    </>
  );
}
