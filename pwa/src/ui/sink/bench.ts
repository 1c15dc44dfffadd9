// What the parts of the sink share.
import type { Asked as Reckoned, State, Step, Watch } from "../../core/api";
import type { Wrong } from "../base/acts";
import type { Bath } from "./bath";
import type { Q } from "./quantities";

/** A question that has been opened over the sink. */
export type Asked =
  | Q
  | "who"
  | "source"
  | "note"
  | "more"
  | "acts"
  | "ago"
  | "kind"
  | "liquid"
  | "litres"
  | "target"
  | "temp"
  | "batch"
  | "where"
  | "air"
  | "curve"
  | "limit"
  | "warnings"
  | "stopped"
  | "reason"
  | "uncleared"
  | "dry"
  | "estimate"
  | "overnight";

export interface Bench {
  state: State;
  /** Comes with the state; null while neither has been worked out yet. */
  watch: Watch | null;
  /** The step that the clock shows; null while the next one is chosen. */
  shown: Step | null;
  running: readonly Step[];
  bath: Bath;
  setBath: (b: Bath) => void;
  /** What was chosen has become an entry. */
  bathBegun: () => void;
  /** Device time at which it happened; null for now. */
  earlier: number | null;
  setEarlier: (ms: number | null) => void;
  /** What the core said about the last act, at its field. */
  wrong: readonly Wrong[];
  setWrong: (w: readonly Wrong[]) => void;
  ask: (a: Asked | null) => void;
  /** Opens the working of a number. */
  work: (title: string, asked: Reckoned) => void;
  show: (entry: string | "next" | null) => void;
}
