// The entry that keeps a result, and holding one against what is reckoned today.
import type { Kept, Reckoning, Result } from "../../core/api";

/** The build of the library that reckons here. */
export const PROGRAM = `reckonings ${__LIBRARY_BUILD__}`;

interface Line {
  name: string;
  title: string;
  shown: string;
  value?: number;
  unit?: string;
}

/** Figures and verdicts as they are kept. */
function linesOf(result: Result): Line[] {
  return [
    ...result.values.map(({ name, title, shown, value, unit }) => ({ name, title, shown, value, unit })),
    ...result.verdicts.map(({ name, title, say }) => ({ name, title, shown: say })),
  ];
}

export function keptBody(
  r: Pick<Reckoning, "name" | "title">,
  asked: Readonly<Record<string, unknown>>,
  result: Result,
  text: string,
): object {
  const note = text.trim();
  return {
    name: r.name,
    title: r.title,
    inputs: asked,
    values: linesOf(result),
    program: PROGRAM,
    ...(note ? { text: note } : {}),
  };
}

export interface Differs {
  title: string;
  /** Empty where there was, or is, no such figure. */
  then: string;
  now: string;
}

/** Two answers are one where their numbers agree to this: last bits differ between machines. */
const SAME = 1e-9;

/** What is reckoned otherwise today than it was when it was kept. */
export function differences(kept: readonly Kept[], today: Result): Differs[] {
  const now = new Map(linesOf(today).map((l) => [l.name, l]));
  const out: Differs[] = [];
  for (const k of kept) {
    const l = now.get(k.name);
    now.delete(k.name);
    if (!l || !agree(k, l)) out.push({ title: k.title, ...apart(k, l) });
  }
  for (const l of now.values()) out.push({ title: l.title, then: "", now: l.shown });
  return out;
}

/** How the two are written; in full where what is shown is the same and the numbers behind it are not. */
function apart(k: Kept, l: Line | undefined): { then: string; now: string } {
  if (k.shown !== l?.shown || l.value === undefined) return { then: k.shown, now: l?.shown ?? "" };
  return { then: `${k.value} ${k.unit}`.trim(), now: `${l.value} ${l.unit ?? ""}`.trim() };
}

function agree(k: Kept, l: Line): boolean {
  if (k.value === "" || l.value === undefined) return k.shown === l.shown;
  const then = Number(k.value);
  if (!Number.isFinite(then)) return k.value === String(l.value);
  return k.unit === l.unit && Math.abs(then - l.value) <= SAME * Math.max(Math.abs(then), Math.abs(l.value));
}
