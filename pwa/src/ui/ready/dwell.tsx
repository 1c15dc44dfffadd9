// Tested dwells, entered by hand: how long each colour stood pressed and wet in a test that it passed.
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import type { Dwell, LogLine, State, Watch } from "../../core/api";
import { isTexts } from "../base/remember";
import { useMinute } from "../base/ticking";
import { useUnfinished } from "../base/unfinished";
import { when } from "../base/words";
import { Icon } from "../parts/icon";
import { StrikeSheet } from "../log/strike";
import { dwellSays } from "../sink/limit";
import { DwellForm } from "./dwell-form";
import { colourSays, coloursOf, dwellLine } from "./dwells";

export function dwellStands(watch: Watch | null): string {
  if (!watch) return "looking it up";
  const d = watch.dwell;
  if (d.s <= 0) return "no test recorded";
  const lacks = d.untested.length > 0 ? `, ${d.untested.length} without a test that fits` : "";
  return `limit ${dwellSays(d.s)}${lacks}`;
}

export function DwellPart({ state, watch }: { state: State; watch: Watch | null }) {
  const [strike, setStrike] = useState<Pick<LogLine, "entry" | "say"> | null>(null);
  const adding = useUnfinished<string[]>(`dwelling.${state.job}`, () => [], isTexts);
  const [colour] = adding.value;
  const leave = () => {
    adding.set([]);
    adding.forget();
  };
  return (
    <>
      <LimitSays watch={watch} />
      <ul class="dwells">
        {[...coloursOf(state), ""].map((c) => (
          <ColourRow key={c} colour={c} state={state} onAdd={() => adding.set([c])} onStrike={setStrike}>
            {c === colour && <DwellForm key={c} state={state} watch={watch} colour={c} onClose={leave} />}
          </ColourRow>
        ))}
      </ul>
      {state.colours.length === 0 && (
        <p class="quiet">
          No colours are recorded for this object, so none can be called tested. Name every dyed colour, threads and
          labels too.
        </p>
      )}
      <a class="key" href={`#/t/${state.job}/about`} data-test="to-colours">
        <Icon is="textile" />
        {state.colours.length === 0 ? "Name its colours" : "Its colours"}
      </a>
      {strike && <StrikeSheet job={state.job} line={strike} onClose={() => setStrike(null)} />}
    </>
  );
}

function LimitSays({ watch }: { watch: Watch | null }) {
  if (!watch) return null;
  const d = watch.dwell;
  return (
    <div class="limit-says" data-test="dwell-limit">
      <p>
        {d.s > 0 ? (
          <>
            <b>{dwellSays(d.s)}</b> is the limit{d.colour && `, set by ${d.colour}`}
            {d.liquid && `, in ${d.liquid}`}. It rings at {dwellSays(d.mark_s)}.
          </>
        ) : (
          <b>{d.say || "No test recorded."}</b>
        )}
      </p>
      {d.untested.length > 0 && (
        <ul class="facts" aria-label="Without a test that fits">
          {d.untested.map((u) => (
            <li key={u}>
              <Icon is="past" /> {u}
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}

interface ColourRowProps {
  colour: string;
  state: State;
  onAdd: () => void;
  onStrike: (line: Pick<LogLine, "entry" | "say">) => void;
  /** The form of a test, while one is entered. */
  children: ComponentChildren;
}

function ColourRow({ colour, state, onAdd, onStrike, children }: ColourRowProps) {
  const tests = state.dwells.filter((d) => d.colour === colour);
  // A word for all colours at once is the exception: it stands as a key alone until somebody gives it.
  return (
    <li data-test="dwell-colour" data-colour={colour}>
      <div class="row">
        <p>
          <b>{colourSays(colour)}</b>{" "}
          {tests.length === 0 && (
            <small class="quiet">{colour ? "no test recorded" : "on one person's word, for all at once"}</small>
          )}
        </p>
        <button type="button" class="key" data-test="dwell-add" onClick={onAdd}>
          <Icon is="more" />
          Enter a test
          <span class="unseen"> of {colour || "every colour"}</span>
        </button>
      </div>
      {tests.map((d) => (
        <TestLine key={d.entry} of={d} onStrike={() => onStrike({ entry: d.entry, say: sayOf(d) })} />
      ))}
      {children}
    </li>
  );
}

function sayOf(d: Dwell): string {
  return `${colourSays(d.colour)}: ${dwellLine(d)}; ${d.name} vouches for it`;
}

function TestLine({ of, onStrike }: { of: Dwell; onStrike: () => void }) {
  const now = useMinute();
  return (
    <div class="row tested" data-test="dwell">
      <p>
        {dwellLine(of)}{" "}
        <small class="quiet">
          {of.name} vouches for it, entered by {of.by} {when(of.at_ms, now)}
        </small>
      </p>
      <button type="button" class="key" data-test="dwell-strike" onClick={onStrike}>
        <Icon is="strike" />
        Strike
        <span class="unseen"> {sayOf(of)}</span>
      </button>
    </div>
  );
}
