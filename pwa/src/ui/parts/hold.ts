// The held press, as a pure function of touches and their times.
//
// Water makes ghost taps and a pooled drop can press for seconds. So what changes the record at
// the sink is one pointer that comes down alone, keeps still, and is *released* between 0.5 and
// 2.5 seconds. Anything else changes nothing and says why.
//
// Two more ways lead to the same act, for people who cannot hold:
//   - a key held and released likewise, or two short presses of a key;
//   - two activations without a pointer (switch access, a screen reader), the second within 8 s.
// On request of the person (`way: "twice"`) two touches do it as well.

/** Milliseconds and CSS pixels. */
export const HOLD = { shortest: 500, longest: 2500, drift: 12, confirm: 8000, apart: 300 } as const;

/** Why a press did nothing. `taken`: the browser took the touch away, for a scroll or a call. */
export type Spoil = "short" | "long" | "moved" | "second" | "taken";

/** What the person is told has happened. */
export type Outcome = "done" | "ready" | "armed" | "lapsed" | Spoil | null;

type Hold =
  | { is: "rest" }
  | { is: "held"; by: number; x: number; y: number; since: number; ready: boolean; armed: number | null }
  /** Until everything has left the glass. */
  | { is: "spoiled" }
  /** The first of two presses has been made, at this time. */
  | { is: "armed"; since: number };

export interface Press {
  readonly way: "hold" | "twice";
  readonly hold: Hold;
  /** Every pointer on the glass, wherever it is. */
  readonly touching: readonly number[];
}

/** The key of a keyboard counts as one more pointer. */
export const KEY = -1;

export type Touch =
  | { do: "down"; id: number; x: number; y: number; t: number; inside: boolean }
  | { do: "move"; id: number; x: number; y: number; t: number }
  | { do: "up"; id: number; x: number; y: number; t: number }
  | { do: "cancel"; id: number; t: number }
  | { do: "activate"; t: number }
  | { do: "time"; t: number };

export function newPress(way: Press["way"], touching: readonly number[] = []): Press {
  return { way, hold: { is: "rest" }, touching };
}

/** One touch, or the passing of time. `out` is what has just come of it. */
export function press(p: Press, e: Touch): { next: Press; out: Outcome } {
  switch (e.do) {
    case "down":
      return down(p, e);
    case "move":
      return move(p, e);
    case "up":
      return up(p, e);
    case "cancel":
      return lift(p, e.id, p.hold.is === "held" && p.hold.by === e.id ? "taken" : null);
    case "activate":
      return activate(p, e.t);
    case "time":
      return time(p, e.t);
  }
}

/** When `time` should be told next, or null. */
export function nextTime(p: Press): number | null {
  const h = p.hold;
  if (h.is === "armed") return h.since + HOLD.confirm + 1;
  if (h.is !== "held") return null;
  return h.ready ? h.since + HOLD.longest + 1 : h.since + HOLD.shortest;
}

function down(p: Press, e: Touch & { do: "down" }): { next: Press; out: Outcome } {
  const others = p.touching.filter((id) => id !== e.id);
  const touching = [...others, e.id];
  if (p.hold.is === "held") return { next: { ...p, touching, hold: { is: "spoiled" } }, out: "second" };
  if (!e.inside) return { next: { ...p, touching }, out: null };
  if (others.length > 0) return { next: { ...p, touching, hold: { is: "spoiled" } }, out: "second" };
  const armed = p.hold.is === "armed" ? p.hold.since : null;
  const hold: Hold = { is: "held", by: e.id, x: e.x, y: e.y, since: e.t, ready: false, armed };
  return { next: { ...p, touching, hold }, out: null };
}

function move(p: Press, e: Touch & { do: "move" }): { next: Press; out: Outcome } {
  const h = p.hold;
  if (h.is !== "held" || h.by !== e.id) return { next: p, out: null };
  if (drifted(p, h, e)) return { next: { ...p, hold: { is: "spoiled" } }, out: "moved" };
  return time(p, e.t);
}

function up(p: Press, e: Touch & { do: "up" }): { next: Press; out: Outcome } {
  const h = p.hold;
  if (h.is !== "held" || h.by !== e.id) return lift(p, e.id, null);
  const held = e.t - h.since;
  if (held > HOLD.longest) return lift(p, e.id, "long");
  if (drifted(p, h, e)) return lift(p, e.id, "moved");
  const short = held < HOLD.shortest;
  const twoStep = p.way === "twice" || (e.id === KEY && short);
  if (!twoStep) return lift(p, e.id, short ? "short" : "done");
  const lifted = lift(p, e.id, null).next;
  const rest: Press = { ...lifted, hold: h.armed === null ? { is: "rest" } : { is: "armed", since: h.armed } };
  return activate(rest, e.t);
}

/** A touch has left the glass. A spoiled press is over when nothing is left on it. */
function lift(p: Press, id: number, out: Outcome): { next: Press; out: Outcome } {
  const touching = p.touching.filter((other) => other !== id);
  const wasOurs = p.hold.is === "held" && p.hold.by === id;
  const over = wasOurs || (p.hold.is === "spoiled" && touching.length === 0);
  const hold: Hold = !over ? p.hold : touching.length > 0 ? { is: "spoiled" } : { is: "rest" };
  return { next: { ...p, touching, hold }, out };
}

function activate(p: Press, t: number): { next: Press; out: Outcome } {
  const h = p.hold;
  if (h.is === "held" || h.is === "spoiled") return { next: p, out: null };
  if (h.is === "armed" && t - h.since <= HOLD.confirm) {
    if (t - h.since < HOLD.apart) return { next: p, out: null };
    return { next: { ...p, hold: { is: "rest" } }, out: "done" };
  }
  return { next: { ...p, hold: { is: "armed", since: t } }, out: "armed" };
}

function time(p: Press, t: number): { next: Press; out: Outcome } {
  const h = p.hold;
  if (h.is === "armed" && t - h.since > HOLD.confirm) return { next: { ...p, hold: { is: "rest" } }, out: "lapsed" };
  if (h.is !== "held") return { next: p, out: null };
  const held = t - h.since;
  if (held > HOLD.longest) return { next: { ...p, hold: { is: "spoiled" } }, out: "long" };
  if (held < HOLD.shortest || h.ready) return { next: p, out: null };
  return { next: { ...p, hold: { ...h, ready: true } }, out: p.way === "hold" ? "ready" : null };
}

/** A person who has asked for two presses may have hands that shake. */
function drifted(p: Press, h: Hold & { is: "held" }, e: { x: number; y: number }): boolean {
  const allowed = p.way === "twice" ? 4 * HOLD.drift : HOLD.drift;
  return Math.hypot(e.x - h.x, e.y - h.y) > allowed;
}

/** The sentence for a press that did nothing, or that waits for its second half. */
export function holdSays(out: Outcome, label: string): string {
  switch (out) {
    case "short":
      return "Too short: hold until it says let go.";
    case "long":
      return "Held too long: nothing was recorded. Hold again, and let go when it says so.";
    case "moved":
      return "The touch slid: nothing was recorded. Hold still.";
    case "second":
      return "Something else touches the glass: nothing was recorded. Wipe it and hold again.";
    case "taken":
      return "The press was interrupted: nothing was recorded.";
    case "armed":
      return `Press once more within 8 seconds: ${label}.`;
    case "lapsed":
      return "No second press came: nothing was recorded.";
    default:
      return "";
  }
}

/** The same on a button with little room. */
export function holdSaysBriefly(out: Outcome, label: string): string {
  switch (out) {
    case "short":
      return "Too short.";
    case "long":
      return "Held too long: nothing was recorded.";
    case "second":
      return "Wet glass: nothing was recorded.";
    case "moved":
      return "It slid: nothing was recorded.";
    case "taken":
    case "lapsed":
      return "nothing was recorded";
    case "armed":
      return "press once more";
    default:
      return holdSays(out, label);
  }
}
