// The short figures that cues sound as: our own, few notes, told apart by their movement rather than their pitch.
import type { Cue } from "../../core/api";

/** One note: where it lies, in seconds from the figure's begin, how long it is, and its pitch in hertz. */
export interface Note {
  at: number;
  long: number;
  hz: number;
}

export type Figure = "limit" | "target" | "soft";

/** Pitches between 500 and 1500 Hz: small loudspeakers give them, and ears with an age still hear them. */
export const FIGURES: Readonly<Record<Figure, readonly Note[]>> = {
  // Two tones in alternation: look now.
  limit: [0, 1, 2, 3, 4, 5].map((i) => ({ at: i * 0.22, long: 0.2, hz: i % 2 ? 740 : 1110 })),
  // Three steps upwards, twice: its time is up.
  target: [0, 0.9].flatMap((at) => [
    { at, long: 0.16, hz: 660 },
    { at: at + 0.18, long: 0.16, hz: 830 },
    { at: at + 0.36, long: 0.34, hz: 990 },
  ]),
  // One step down, once.
  soft: [
    { at: 0, long: 0.18, hz: 830 },
    { at: 0.2, long: 0.4, hz: 620 },
  ],
};

/** Milliseconds that the phone trembles and rests in turn. */
export const TREMBLE: Readonly<Record<Figure, readonly number[]>> = {
  limit: [200, 80, 200, 80, 200, 80, 200],
  target: [300, 150, 300],
  soft: [120],
};

export function figureOf(cue: Cue): Figure {
  if (!cue.loud) return "soft";
  return cue.kind === "end" || cue.kind === "mark" || cue.kind === "mould" ? "limit" : "target";
}

/** The figure for several cues at once: the gravest. */
export function gravest(cues: readonly Cue[]): Figure {
  const all = cues.map(figureOf);
  return all.includes("limit") ? "limit" : all.includes("target") ? "target" : "soft";
}

/** From one figure to the next while it rings, in milliseconds. */
export const AGAIN_MS = 3_000;
/** The words come with every so many figures, so that the people in the room can talk about it. */
export const SPEAK_EVERY = 5;
