// Looks after all open treatments for as long as the page lives: finds out what is due, sounds it, repeats what is loud
// until somebody has it, and says to the studio machine whether this device would ring.
import { effect, signal, type ReadonlySignal, type Signal } from "@preact/signals";
import type { Core, Summary } from "../../core/api";
import { keep, recall } from "../base/remember";
import { clockMs, deviceNow } from "../base/time";
import { keepAwake } from "../base/wake";
import { AGAIN_MS, figureOf, gravest, SPEAK_EVERY } from "./figures";
import { dismiss, isMemory, NOTHING, acknowledge, plan, sameKeys, type Memory, type Ring, type Watched } from "./plan";
import { afterSound, hush, readState, sound, speak, startSound, wouldSound } from "./sound";

/** Loud, due and acknowledged by nobody. */
export const ringing = signal<readonly Ring[]>([]);
/** What passed unheard on this device. */
export const missed = signal<readonly Ring[]>([]);
/** When the next cue is due, studio milliseconds; null: none is awaited. */
export const awaited = signal<number | null>(null);
/** Keys that were silenced here and whose entries are not written yet. */
export const hushed = signal<ReadonlySet<string>>(new Set());

/** A hidden page looks at least so often while a cue is awaited: its timers stand still while the machine sleeps. */
const HIDDEN_LOOK_MS = 30_000;
/** How often the time of the last look is kept, in milliseconds. */
const KEEP_MS = 10_000;
/** From one treatment to the next at the start, in milliseconds. */
const REACH_MS = 150;
/** The screen is kept on for a cue that is no further away: a phone need not shine all night for the morning. */
const AWAKE_MS = 2 * 3_600_000;

const MEMORY = "ring.memory";

let core: Core | null = null;
let memory: Memory = NOTHING;
let keptAt = 0;
let timer: ReturnType<typeof setTimeout> | undefined;
let unwake: () => void = () => undefined;
let look: () => void = () => undefined;

/** Starts once the first screen has been painted; folding every open treatment would hold it up. */
export function startRinging(real: Core): void {
  core = real;
  startSound();
  startArming(real);
  const begin = () => watchAll(real);
  if ("requestIdleCallback" in globalThis) requestIdleCallback(begin, { timeout: 1500 });
  else setTimeout(begin, 700);
}

/** The core whose treatments ring: what is played on the screens does not. */
export function ringCore(): Core {
  if (!core) throw new Error("nothing looks out for what rings yet");
  return core;
}

function watchAll(core: Core): void {
  memory = recall(MEMORY, NOTHING, isMemory);
  const watched = signal<readonly Watched[] | null>(null);
  const reach = reachSlowly(core);
  look = () => {
    readState();
    if (watched.peek()) lookAt(watched.peek() ?? [], clockMs() + core.status.peek().offset_ms);
  };
  effect(() => {
    watched.value = openTreatments(core, reach.value);
  });
  effect(() => {
    // Each of these asks for a look.
    void [deviceNow.value, watched.value, core.status.value.offset_ms];
    look();
  });
  document.addEventListener("visibilitychange", () => look());
  window.addEventListener("pagehide", keepMemory);
  startLoop();
  startAwake(core);
}

/**
 * The first `reach` open treatments are watched, those with the latest entries in front; of the others nothing is known
 * yet. Null while it is not known which treatments there are.
 */
function openTreatments(core: Core, reach: number): readonly Watched[] | null {
  const list = core.treatments.value;
  if (list.length === 0 && core.status.value.core === "loading") return null;
  return openOnes(list)
    .sort((a, b) => b.last_day - a.last_day)
    .map(({ job, name, sample }, i) => ({
      job,
      name,
      sample,
      cues: (i < reach ? core.watch(job).value?.cues : null) ?? null,
    }));
}

function openOnes(list: readonly Summary[]): Summary[] {
  return list.filter((t) => t.open && !t.removed);
}

/** One treatment after the other: folding many at once would let a tap of the first seconds wait. */
function reachSlowly(core: Core): ReadonlySignal<number> {
  const reach = signal(1);
  effect(() => {
    if (reach.value >= openOnes(core.treatments.value).length) return;
    const timer = setTimeout(() => (reach.value = reach.peek() + 1), REACH_MS);
    return () => clearTimeout(timer);
  });
  return reach;
}

function lookAt(watched: readonly Watched[], now: number): void {
  const p = plan(watched, now, memory);
  const changed = !sameKeys(memory, p.memory);
  memory = p.memory;
  if (changed || Math.abs(now - keptAt) > KEEP_MS) keepMemory();
  show(ringing, p.ring);
  const stillHushed = p.ring.filter((r) => hushed.peek().has(r.key));
  if (stillHushed.length < hushed.peek().size) hushed.value = new Set(stillHushed.map((r) => r.key));
  show(missed, p.missed);
  awaited.value = p.next;
  for (const s of p.soft) {
    sound(figureOf(s.cue));
    if (!s.late) speak(s.cue.speak);
  }
  wakeFor(p.next === null ? null : p.next - now);
}

/** One timer, for the next cue. While the page is seen the second hand looks as well. */
function wakeFor(ms: number | null): void {
  clearTimeout(timer);
  unwake();
  unwake = () => undefined;
  if (ms === null) return;
  const wait = Math.min(Math.max(ms, 1), HIDDEN_LOOK_MS);
  timer = setTimeout(look, wait);
  if (document.hidden) unwake = afterSound(wait, look);
}

function keepMemory(): void {
  keptAt = memory.last ?? 0;
  keep(MEMORY, memory);
}

/** Nothing is drawn anew each second that has not changed. */
function show(s: Signal<readonly Ring[]>, now: readonly Ring[]): void {
  const before = s.peek();
  const same = before.length === now.length && before.every((r, i) => r.key === now[i]?.key && r.cue === now[i]?.cue);
  if (!same) s.value = now;
}

/** Repeats the figure as long as something rings that was not silenced here. */
function startLoop(): void {
  let heard = new Set<string>();
  let again: ReturnType<typeof setInterval> | undefined;
  const stop = () => {
    clearInterval(again);
    again = undefined;
  };
  effect(() => {
    const loud = ringing.value.filter((r) => !hushed.value.has(r.key));
    const fresh = loud.some((r) => !heard.has(r.key));
    const fewer = heard.size > loud.length;
    heard = new Set(loud.map((r) => r.key));
    if (loud.length === 0) {
      stop();
      if (fewer) hush();
      return;
    }
    if (!fresh && again !== undefined) return;
    stop();
    let figures = 0;
    const once = () => {
      const now = ringing.peek().filter((r) => !hushed.peek().has(r.key));
      sound(gravest(now.map((r) => r.cue)));
      if (figures++ % SPEAK_EVERY === 0) speak(now.map((r) => r.cue.speak).join(". "));
    };
    once();
    again = setInterval(once, AGAIN_MS);
  });
}

/** Strictly whether a figure would sound now: the worker says it again by itself, as long as this page lives. */
function startArming(core: Core): void {
  const alive = signal(true);
  let said = false;
  effect(() => {
    const would = alive.value && wouldSound.value;
    if (would === said) return;
    said = would;
    core.arm(would);
  });
  const die = () => (alive.value = false);
  const live = () => {
    alive.value = true;
    readState();
  };
  window.addEventListener("pagehide", die);
  document.addEventListener("freeze", die);
  window.addEventListener("pageshow", live);
  document.addEventListener("resume", live);
}

function startAwake(core: Core): void {
  const soon = signal(false);
  effect(() => {
    void deviceNow.value;
    const now = clockMs() + core.status.value.offset_ms;
    soon.value = ringing.value.length > 0 || (awaited.value !== null && awaited.value - now < AWAKE_MS);
  });
  effect(() => (soon.value ? keepAwake() : undefined));
}

/** Silences these on this device at once, before anything is written. */
export function silence(keys: readonly string[]): void {
  hushed.value = new Set([...hushed.peek(), ...keys]);
}

/** Their entries are durable: they are off this screen before they are folded. */
export function acknowledged(keys: readonly string[]): void {
  memory = acknowledge(memory, keys);
  keepMemory();
  look();
}

/** What was missed has been read; the record is not touched. */
export function dismissMissed(): void {
  memory = dismiss(memory);
  keepMemory();
  look();
}
