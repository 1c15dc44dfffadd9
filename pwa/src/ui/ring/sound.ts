// What a cue is heard by on this device: a figure of notes, a tremble, a spoken sentence. Browsers give sound to a
// page only after it was touched, and take it away when they like, so its state is read and never assumed.
import { computed, signal, type Signal } from "@preact/signals";
import { remembered } from "../base/remember";
import { FIGURES, TREMBLE, type Figure, type Note } from "./figures";

const isYes = (v: unknown): v is boolean => typeof v === "boolean";

/** What this device's person wants. Kept on this device. */
export const wants: Readonly<Record<"sound" | "tremble" | "speech", Signal<boolean>>> = {
  sound: remembered("ring.sound", true, isYes),
  tremble: remembered("ring.tremble", true, isYes),
  speech: remembered("ring.speech", true, isYes),
};

/**
 * `untouched`: the page has not been touched, so the browser gives it no sound. `runs`: a figure would be heard, if the
 * device is not turned down. `stopped`: the browser has taken the sound away, as for a call. `none`: there is none here.
 */
export type AudioState = "untouched" | "runs" | "stopped" | "none";

export const audio = signal<AudioState>("AudioContext" in globalThis ? "untouched" : "none");

/** A figure would sound now. Tremble and words alone do not count: nobody in the room may notice them. */
export const wouldSound = computed(() => wants.sound.value && audio.value === "runs");

/** Figures that were given to a running sound. */
export const sounded = signal(0);

let context: AudioContext | null = null;
let master: GainNode | null = null;
/** Where the sound's own time stood when it was last looked at, and when that was. */
let stood = { at: 0, time: -1 };

/** Asks for sound at every touch until the browser gives it, and again when the page is seen. */
export function startSound(): void {
  countVoices();
  for (const kind of ["pointerup", "keydown", "click"] as const)
    window.addEventListener(kind, () => void unlock(), { capture: true, passive: true });
  document.addEventListener("visibilitychange", () => {
    if (context && !document.hidden) void unlock();
  });
}

/** Must be called from a touch the first time: made earlier, browsers refuse it and complain. */
export async function unlock(): Promise<void> {
  if (audio.peek() === "none" || audio.peek() === "runs") return;
  if (navigator.userActivation && !navigator.userActivation.hasBeenActive) return;
  try {
    context ??= open();
    if (context.state !== "running") await context.resume();
  } catch {
    // It stays as its state says.
  }
  readState();
}

function open(): AudioContext {
  // Where it is known, this sounds in spite of a mute switch at the phone's side.
  const session = (navigator as { audioSession?: { type: string } }).audioSession;
  if (session) session.type = "playback";
  const c = new AudioContext();
  c.addEventListener("statechange", readState);
  master = c.createGain();
  master.gain.value = 0.8;
  const limiter = c.createDynamicsCompressor();
  master.connect(limiter).connect(c.destination);
  whisper();
  return c;
}

/**
 * Reads the state anew. Some browsers call a sound running whose time stands still after a call: that one is stopped,
 * and asked to go on.
 */
export function readState(): void {
  if (!context) return;
  const at = performance.now();
  let runs = context.state === "running";
  if (runs && at - stood.at > STILL_MS) {
    const still = context.currentTime === stood.time;
    stood = { at, time: context.currentTime };
    if (still) {
      runs = false;
      context.resume().catch(() => undefined);
    }
  }
  audio.value = runs ? "runs" : "stopped";
}

/** A sound's time that stood still for so long, in milliseconds, is taken for stopped. */
const STILL_MS = 800;

/** iOS lets a page speak by itself only after it spoke at a touch. */
function whisper(): void {
  if (!wants.speech.peek() || !canSpeak()) return;
  const nothing = new SpeechSynthesisUtterance(" ");
  nothing.volume = 0;
  speechSynthesis.speak(nothing);
}

/** Sounds a figure and trembles, as far as wanted and given. Tells whether the figure was given to a running sound. */
export function sound(f: Figure): boolean {
  if (wants.tremble.peek()) tremble(f);
  readState();
  if (!wouldSound.peek() || !context || !master) return false;
  const start = context.currentTime + 0.03;
  for (const note of FIGURES[f]) play(context, master, start, note);
  sounded.value = sounded.peek() + 1;
  return true;
}

/**
 * Calls back when the sound's own clock has gone on for so many milliseconds; never where it does not run. Browsers hold
 * back the timers of a hidden page, for a minute and more, but not its sound.
 */
export function afterSound(ms: number, f: () => void): () => void {
  if (!context || !master || audio.peek() !== "runs") return () => undefined;
  const nothing = context.createGain();
  nothing.gain.value = 0;
  const source = context.createConstantSource();
  source.connect(nothing).connect(master);
  source.onended = f;
  source.start();
  source.stop(context.currentTime + ms / 1000);
  return () => {
    source.onended = null;
    source.disconnect();
  };
}

/** A reed-like tone: a triangle and its octave, with soft edges so that it does not click. */
function play(c: AudioContext, out: AudioNode, start: number, { at, long, hz }: Note): void {
  const loud = c.createGain();
  const from = start + at;
  loud.gain.setValueAtTime(0, from);
  loud.gain.linearRampToValueAtTime(0.7, from + 0.015);
  loud.gain.setValueAtTime(0.7, from + Math.max(0.02, long - 0.06));
  loud.gain.linearRampToValueAtTime(0, from + long);
  loud.connect(out);
  for (const [times, share] of [
    [1, 1],
    [2, 0.35],
  ] as const) {
    const tone = c.createOscillator();
    const part = c.createGain();
    tone.type = "triangle";
    tone.frequency.value = hz * times;
    part.gain.value = share;
    tone.connect(part).connect(loud);
    tone.start(from);
    tone.stop(from + long + 0.02);
  }
}

/** Browsers refuse, and complain, before the page's first finished touch. */
function tremble(f: Figure): void {
  if (navigator.userActivation?.hasBeenActive) navigator.vibrate?.([...TREMBLE[f]]);
}

export function canTremble(): boolean {
  return "vibrate" in navigator && navigator.maxTouchPoints > 0;
}

export function canSpeak(): boolean {
  return "speechSynthesis" in globalThis && "SpeechSynthesisUtterance" in globalThis;
}

/** Voices that the browser lists; some list them late, and some that can speak list none. */
export const voices = signal(0);

function countVoices(): void {
  if (!canSpeak()) return;
  voices.value = speechSynthesis.getVoices().length;
  speechSynthesis.onvoiceschanged = () => (voices.value = speechSynthesis.getVoices().length);
}

/** Says a sentence aloud after what is being said. Silent where speech is not wanted. */
export function speak(text: string): void {
  if (!wants.speech.peek() || !text || !canSpeak()) return;
  if (navigator.userActivation && !navigator.userActivation.hasBeenActive) return;
  const said = new SpeechSynthesisUtterance(text);
  said.lang = "en-GB";
  said.rate = 0.95;
  speechSynthesis.speak(said);
}

/** Ends words and tremble. A figure under way is over within two seconds. */
export function hush(): void {
  if (canSpeak()) speechSynthesis.cancel();
  if (navigator.userActivation?.hasBeenActive) navigator.vibrate?.(0);
}
