// Finding a reckoning by what a person wants to know, in their words.
import type { Reckoning } from "../../core/api";

/** Words that people use for one thing. What is typed finds the others of its row too. */
const ALIKE: readonly string[][] = [
  ["detergent", "surfactant", "soap", "product"],
  ["mould", "mold", "damp", "mildew"],
  ["light", "fade", "fading"],
  ["lux", "illuminance", "dose", "exposure"],
  ["exhibit", "exhibition", "display", "show", "rota", "loan"],
  ["uv", "ultraviolet"],
  ["lift", "lifting", "carry"],
  ["mass", "weigh", "weight", "heavy"],
  ["gsm", "grammage", "area"],
  ["shrink", "shrinkage", "stretch", "size", "dimension"],
  ["square", "squareness", "corner", "outline"],
  ["colour", "color", "lab", "difference"],
  ["stain", "bleed", "bleeding", "blotter"],
  ["dry", "drying", "evaporate"],
  ["dilute", "dilution", "thin", "stock"],
  ["acid", "alkali", "buffer", "ph"],
  ["meter", "electrode", "probe", "calibrate", "calibration"],
  ["humidity", "rh", "moisture", "damp"],
  ["moisture", "regain", "wool", "cotton", "silk", "linen"],
  ["hard", "hardness", "limescale", "lime", "chalk", "calcium"],
  ["chelator", "edta", "sequestrant"],
  ["quality", "grade", "pure", "purity", "deionised", "distilled"],
  ["warm", "hot", "cold", "temperature"],
  ["cmc", "micelle"],
  ["crystal", "hydrate", "anhydrous"],
  ["cost", "price", "money", "estimate", "quote", "invoice"],
  ["time", "hours", "duration"],
  ["mount", "board", "cover", "fabric"],
  ["frame", "glazing", "rebate", "hang", "hanging"],
  ["cut", "cutting", "layout", "waste", "cloth"],
  ["sew", "sewing", "stitch", "thread"],
  ["poultice", "gel", "agar"],
  ["glue", "adhesive", "paste", "starch"],
  ["tray", "bath", "basin", "trough"],
  ["silica", "salt", "chamber", "box"],
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
  "too",
  "or",
  "on",
  "from",
  "with",
  "be",
  "are",
  "which",
]);

/** What a reckoning can be found by, the words that say most first. */
function known(r: Reckoning): { strong: string[]; weak: string[] } {
  const strong = wordsOf(`${r.asks} ${r.title} ${r.name.replace(/_/g, " ")} ${r.family}`);
  const inputs = [...r.inputs, ...r.inputs.flatMap((x) => x.columns)];
  const weak = wordsOf([...r.results, ...inputs, ...inputs.flatMap((x) => x.choices)].map((x) => x.title).join(" "));
  return { strong, weak };
}

/** Those that fit most of the words typed, best first; all, in their order, where nothing is typed. */
export function find(list: readonly Reckoning[], typed: string): readonly Reckoning[] {
  const all = wordsOf(typed);
  const words = all.some((w) => !EMPTY.has(w)) ? all.filter((w) => !EMPTY.has(w)) : all;
  if (words.length === 0) return list;
  const fitting = list.map((r, at) => ({ r, at, ...weigh(known(r), words) }));
  const most = Math.max(0, ...fitting.map((f) => f.words));
  // Of many words one may be meant otherwise than it is meant here.
  const enough = most > 2 ? most - 1 : most;
  const best = fitting.filter((f) => f.words > 0 && f.words >= enough);
  return best.sort((a, b) => b.words - a.words || b.weight - a.weight || a.at - b.at).map((f) => f.r);
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
  ALIKE.filter((row) =>
    row.some((a) => a === w || (w.length > 2 && a.startsWith(w)) || (a.length > 3 && w.startsWith(a))),
  ).flat();

function fits({ strong, weak }: { strong: string[]; weak: string[] }, w: string): number {
  if (strong.includes(w)) return 4;
  if (strong.some((s) => s.startsWith(w))) return 3;
  if (weak.some((s) => s.startsWith(w))) return 1;
  return 0;
}
