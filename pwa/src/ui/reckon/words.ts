// Words for finding: how text becomes words, and when two words are one.

/** Words of a text: small letters, no accents, no single letters. What is written with a stroke is one word too:
 * "g/m²" is "gm2". */
export function wordsOf(text: string): string[] {
  const plain = text.toLowerCase().normalize("NFKD").replace(/\p{M}/gu, "").replace(/μ/g, "u").replace(/δ/g, "delta");
  const out: string[] = [];
  for (const token of plain.split(/\s+/)) {
    const parts = token.split(/[^\p{L}\p{N}]+/u).filter(Boolean);
    if (parts.length > 1) out.push(parts.join(""));
    out.push(...parts);
  }
  return [...new Set(out.filter((w) => w.length > 1 && /\p{L}/u.test(w)))];
}

const ENDINGS = ["ations", "ation", "ating", "ated", "ates", "ate", "ings", "ing", "ions", "ion", "ed", "es", "e", "s"];

const stems = new Map<string, string>();

/** A word without its ending: "rinsing", "rinses" and "rinse" are one. */
export function stem(w: string): string {
  const before = stems.get(w);
  if (before !== undefined) return before;
  const made = cut(w);
  if (stems.size < 10_000) stems.set(w, made);
  return made;
}

function cut(w: string): string {
  const y = w.replace(/^(..+)(?:ies|ied)$/, "$1y");
  const ending = y === w ? ENDINGS.find((e) => w.endsWith(e) && w.length - e.length >= 3) : undefined;
  const rest = ending ? w.slice(0, -ending.length) : y;
  return rest.replace(/(\p{L})\1$/u, "$1");
}

/** How well a typed word is a known one: 1 where it is the same, 0 where it is another. */
export function likeness(typed: string, known: string): number {
  if (typed === known) return 1;
  if (stem(typed) === stem(known)) return 0.9;
  if (known.startsWith(typed)) return 0.75;
  if (known.length > 3 && typed.startsWith(known)) return 0.4;
  return 0;
}

/** Whether a typed word may be a known one, mistyped. Of four letters many make another word: there only a letter left
 * out, or two that changed places, are taken for a slip. */
export function isSlip(typed: string, known: string): boolean {
  const most = slips(typed);
  if (most === 0 || Math.abs(typed.length - known.length) > most) return false;
  if (typed.length < 6 && typed[0] !== known[0]) return false;
  if (typed.length === 4 && known.length < 5 && sorted(typed) !== sorted(known)) return false;
  return apart(typed, known) <= most;
}

const sorted = (w: string): string => [...w].sort().join("");

const slips = (w: string): number => (w.length < 4 ? 0 : w.length < 8 ? 1 : 2);

/** Letters to put in, take out, change or swap with their neighbour, to make one word of another. */
export function apart(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let least = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, (before[j - 2] ?? 0) + 1);
      row.push(least);
    }
    before = last;
    last = row;
  }
  return last[b.length] ?? 0;
}
