// What the parts of the sink share.
import type { State, Step } from "../../core/api";
import type { Wrong } from "../base/acts";
import type { Bath } from "./bath";

/** A question that has been opened over the sink. */
export type Asked =
  "who" | "temperature" | "ph" | "conductivity" | "note" | "more" | "liquid" | "litres" | "target" | "ago";

export interface Bench {
  state: State;
  /** The bath that the clock shows; null while the next one is chosen. */
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
  show: (entry: string | "next" | null) => void;
}
