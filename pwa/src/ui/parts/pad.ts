// The number pad, as pure functions of keys. What is typed stays text until it is kept.

export interface Pad {
  /** What has been typed, or the value that it starts from. Empty: nothing yet. */
  readonly text: string;
  /** Still the starting value: the next figure replaces it, the step keys change it. */
  readonly fresh: boolean;
}

export type PadKey = "0" | "1" | "2" | "3" | "4" | "5" | "6" | "7" | "8" | "9" | "dot" | "del";

const LONGEST = 8;

export function startPad(last: string): Pad {
  return { text: last, fresh: true };
}

export function padPress(p: Pad, key: PadKey): Pad {
  const text = p.fresh && key !== "del" ? "" : p.text;
  if (key === "del") return { text: p.fresh ? "" : text.slice(0, -1), fresh: false };
  if (key === "dot") return /[.,]/.test(text) ? p : { text: (text || "0") + ".", fresh: false };
  if (text.length >= LONGEST) return p;
  return { text: text === "0" ? key : text + key, fresh: false };
}

/** The pad key that a key of a keyboard stands for, or null. */
export function padKeyOf(key: string): PadKey | null {
  if (/^[0-9]$/.test(key)) return key as PadKey;
  if (key === "." || key === ",") return "dot";
  if (key === "Backspace" || key === "Delete") return "del";
  return null;
}

/** The number that a person typed, with a decimal point or a decimal comma; null when it is none. */
export function readNumber(text: string): number | null {
  const t = text.trim();
  if (!/^\d+([.,]\d*)?$|^[.,]\d+$/.test(t)) return null;
  return Number(t.replace(",", "."));
}

/** One step up or down, in the step's own decimals or finer where the text is. Never below zero. */
export function padStep(p: Pad, step: number): Pad {
  const n = readNumber(p.text);
  if (n === null) return p;
  const places = Math.max(placesOf(p.text), placesOf(String(step)));
  const scale = 10 ** places;
  const stepped = Math.max(0, Math.round(n * scale) + Math.round(step * scale)) / scale;
  return { text: stepped.toFixed(places), fresh: true };
}

function placesOf(text: string): number {
  return /[.,](\d*)$/.exec(text)?.[1]?.length ?? 0;
}
