// The curve under the clock: one sentence and the drawing. It opens the whole of it, and the decision.
import { useEffect } from "preact/hooks";
import type { Rinse } from "../../core/api";
import type { Bench } from "./bench";
import { Curve } from "./curve";
import { kSays } from "./curve-scale";
import { roomy } from "./room";
import { pendingFor, pendingPoint, type Kept } from "./pending";

const EMPTY: Rinse = {
  source: null,
  points: [],
  change_pct: null,
  curve: [],
  more_low: null,
  more_high: null,
  propose: "",
  say: "",
  reasons: [],
  refused: "",
  working: { name: "", inputs: {} },
};

/** How long a kept reading may wait for the fold, ms; then the curve shows the fold alone. */
const WAITS_MS = 5000;

/** Forgets the reading that was just kept once the fold has it, so that taking it back takes it away. */
function useGone(rinse: Rinse | null, pending: Kept | null): void {
  const points = rinse?.points.length ?? 0;
  useEffect(() => {
    const kept = pendingPoint.peek();
    if (!kept) return;
    if (points > kept.before) {
      pendingPoint.value = null;
      return;
    }
    const timer = setTimeout(() => (pendingPoint.value = null), WAITS_MS);
    return () => clearTimeout(timer);
  }, [points, pending]);
}

export function CurveCard({ bench }: { bench: Bench }) {
  const rinse = bench.watch?.rinse ?? null;
  const pending = pendingFor(bench.state.job, rinse, pendingPoint.value);
  useGone(rinse, pending);
  const of = rinse ?? EMPTY;
  if (!rinse && !pending) return null;
  return (
    <button
      type="button"
      class={roomy.value ? "curve-card" : "curve-card beside"}
      data-test="curve-open"
      onClick={() => bench.ask("curve")}
    >
      <span class="curve-say">
        <b>{lastSays(of, pending?.k25 ?? null)}</b> {changeSays(of)} <em>{proposalSays(of)}</em>
      </span>
      <Curve rinse={of} size={roomy.value ? "sink" : "spark"} pending={pending} />
    </button>
  );
}

function lastSays(rinse: Rinse, pendingK25: number | null): string {
  const k = pendingK25 ?? rinse.points.at(-1)?.k25;
  if (k === undefined) return "";
  return `${kSays(k)} µS/cm${rinse.source ? `, source ${kSays(rinse.source.k25)}` : ", source not measured"}.`;
}

/** "68 % less than the rinse before." */
export function changeSays(rinse: Rinse): string {
  if (rinse.change_pct === null) return "";
  const by = Math.round(Math.abs(rinse.change_pct));
  return `${by} % ${rinse.change_pct <= 0 ? "less" : "more"} than the rinse before.`;
}

/** What the core proposes, in few words; its own sentence where it says no number. */
function proposalSays(rinse: Rinse): string {
  const { more_low: low, more_high: high } = rinse;
  if (rinse.propose === "stop") return "Proposed: stop.";
  if (low !== null && high !== null && high > 0) return low === high ? `${low} more.` : `${low} to ${high} more.`;
  return rinse.refused ? "Nothing is predicted." : rinse.say;
}
