// Finding a reckoning by what a person wants to know, in their words.
import type { Reckoning } from "../../core/api";

/** Words that people use for one thing. What is typed finds the others of its row too. */
const ALIKE: readonly string[][] = [
  ["detergent", "surfactant", "soap", "product"],
  ["mould", "mold", "damp", "mildew"],
  ["light", "lux", "fade", "fading", "exhibition", "display"],
  ["lift", "heavy", "carry", "weight"],
  ["mass", "weigh", "weight", "heavy"],
  ["shrink", "shrinkage", "size", "measure", "dimension"],
  ["colour", "color", "lab", "difference", "stain", "bleed", "bleeding"],
  ["dry", "drying", "evaporate"],
  ["dilute", "dilution", "thin", "stock"],
  ["acid", "alkali", "buffer", "ph"],
  ["humidity", "rh", "moisture", "damp"],
  ["water", "hardness", "conductivity"],
  ["cost", "price", "money", "estimate", "quote", "invoice"],
  ["time", "hours", "duration"],
  ["mount", "board", "cover", "fabric", "frame"],
  ["cut", "cutting", "layout", "waste", "cloth"],
  ["sew", "stitch", "thread"],
  ["poultice", "gel", "agar"],
];

const wordsOf = (text: string): string[] =>
  text
    .toLowerCase()
    .normalize("NFKD")
    .split(/[^\p{L}\p{N}]+/u)
    .filter((w) => w.length > 1);

/** Words that stand in every question, and tell nothing apart. */
const EMPTY = new Set([
  "what",
  "how",
  "does",
  "is",
  "the",
  "of",
  "this",
  "and",
  "for",
  "to",
  "in",
  "it",
  "do",
  "my",
  "much",
  "many",
  "long",
  "take",
  "takes",
  "need",
  "can",
]);

/** What a reckoning can be found by, the words that say most first. */
function known(r: Reckoning): { strong: string[]; weak: string[] } {
  const strong = wordsOf(`${r.asks} ${r.title} ${r.name.replace(/_/g, " ")} ${r.family}`);
  const weak = wordsOf([...r.results.map((x) => x.title), ...r.inputs.map((x) => x.title)].join(" "));
  return { strong, weak };
}

/** Those that fit most of the words typed, best first; all, in their order, where nothing is typed. */
export function find(list: readonly Reckoning[], typed: string): readonly Reckoning[] {
  const all = wordsOf(typed);
  const words = all.some((w) => !EMPTY.has(w)) ? all.filter((w) => !EMPTY.has(w)) : all;
  if (words.length === 0) return list;
  const fitting = list.map((r, at) => ({ r, at, ...weigh(known(r), words) }));
  const most = Math.max(0, ...fitting.map((f) => f.words));
  const best = fitting.filter((f) => f.words > 0 && f.words === most);
  return best.sort((a, b) => b.weight - a.weight || a.at - b.at).map((f) => f.r);
}

/** How many of the words a reckoning fits, and how well. */
function weigh(k: { strong: string[]; weak: string[] }, typed: readonly string[]): { words: number; weight: number } {
  let words = 0;
  let weight = 0;
  for (const w of typed) {
    const found = fits(k, w) || 0.5 * Math.max(0, ...alike(w).map((a) => fits(k, a)));
    if (found > 0) words++;
    weight += found;
  }
  return { words, weight };
}

const alike = (w: string): string[] =>
  ALIKE.filter((row) => row.some((a) => a.startsWith(w) || w.startsWith(a))).flat();

function fits({ strong, weak }: { strong: string[]; weak: string[] }, w: string): number {
  if (strong.includes(w)) return 4;
  if (strong.some((s) => s.startsWith(w))) return 3;
  if (weak.some((s) => s.startsWith(w))) return 1;
  return 0;
}
