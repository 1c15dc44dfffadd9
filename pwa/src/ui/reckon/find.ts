// Finding a reckoning by what a person wants to know, in their words.
import type { Reckoning } from "../../core/api";
import { ALIKE, ALSO, EMPTY } from "./alike";
import { apart, isSlip, likeness, wordsOf } from "./words";

export interface Found {
  /** Best first; all, in their order, where nothing is typed. */
  list: readonly Reckoning[];
  /** Typed words that are read as others, since none here is written so. */
  readAs: readonly [typed: string, meant: readonly string[]][];
  /** Typed words that nothing here is found by. */
  unknown: readonly string[];
}

/** Words of a reckoning that count alike. */
type Words = readonly { words: readonly string[]; counts: number }[];

/** Nobody asks in more words; what is pasted may have thousands. */
const MOST_WORDS = 12;

/** A word of the same meaning, or one that was mistyped, counts less than the word itself. */
const ALIKE_COUNTS = 0.5;
const SLIP_COUNTS = 0.6;

const MOST_MEANT = 3;

/** So much of what the best one gets, another must get to be shown beside it. */
const ENOUGH = 0.4;

export function find(list: readonly Reckoning[], typed: string): Found {
  const all = wordsOf(typed);
  const words = (all.some((w) => !EMPTY.has(w)) ? all.filter((w) => !EMPTY.has(w)) : all).slice(0, MOST_WORDS);
  if (words.length === 0) return { list, readAs: [], unknown: [] };
  const known = knownIn(list);
  const readAs: [string, string[]][] = [];
  const unknown: string[] = [];
  const got = list.map(() => 0);
  for (const w of words) {
    let gets = fits(known, w);
    if (gets.every((g) => g === 0)) {
      const meant = slipped(known, w);
      if (meant.length === 0) unknown.push(w);
      else readAs.push([w, meant]);
      const by = meant.map((m) => fits(known, m));
      gets = known.map((_, i) => SLIP_COUNTS * Math.max(0, ...by.map((b) => b[i] ?? 0)));
    }
    // A word that few have tells more than one that most have.
    const having = gets.filter((g) => g > 0).length;
    const tells = having > 0 ? Math.log(1 + list.length / having) : 0;
    gets.forEach((g, i) => (got[i] = (got[i] ?? 0) + g * tells));
  }
  const best = Math.max(0, ...got);
  const found = list
    .map((r, at) => ({ r, at, got: got[at] ?? 0 }))
    .filter((f) => f.got > 0 && f.got >= ENOUGH * best)
    .sort((a, b) => b.got - a.got || a.at - b.at)
    .map((f) => f.r);
  return { list: found, readAs, unknown };
}

const indexes = new WeakMap<readonly Reckoning[], readonly Words[]>();

/** The words of all, gathered once for each list. */
function knownIn(list: readonly Reckoning[]): readonly Words[] {
  const known = indexes.get(list) ?? list.map(knownOf);
  indexes.set(list, known);
  return known;
}

/** What a reckoning can be found by, the words that say most first. */
function knownOf(r: Reckoning): Words {
  const inputs = [...r.inputs, ...r.inputs.flatMap((x) => x.columns)];
  const said = [...r.results, ...inputs, ...inputs.flatMap((x) => x.choices)].map((x) => x.title);
  return [
    { words: wordsOf(`${r.title} ${r.name.replace(/_/g, " ")}`), counts: 5 },
    { words: wordsOf(`${r.asks} ${ALSO[r.name] ?? ""}`), counts: 4 },
    { words: wordsOf(r.family), counts: 2 },
    { words: wordsOf([...said, ...inputs.flatMap((x) => [x.unit, ...x.units])].join(" ")), counts: 1 },
  ];
}

/** How well a word fits each reckoning, itself or by another of its meaning. */
function fits(known: readonly Words[], w: string): number[] {
  const others = ALIKE.filter((row) => row.some((a) => isBegun(w, a))).flat();
  return known.map((k) => Math.max(fit(k, w), ALIKE_COUNTS * Math.max(0, ...others.map((a) => fit(k, a)))));
}

const fit = (known: Words, w: string): number =>
  Math.max(...known.map(({ words, counts }) => counts * Math.max(0, ...words.map((k) => likeness(w, k)))));

/** It is a word of a row of meanings, or so much of it that no other can be meant. */
const isBegun = (w: string, a: string): boolean => {
  const how = likeness(w, a);
  return how >= 0.9 || (how > 0 && w.length > 3);
};

/** Words that may have been meant by one that nothing here is written as. */
function slipped(known: readonly Words[], w: string): string[] {
  const all = new Set([...known.flatMap((k) => k.flatMap((x) => x.words)), ...ALIKE.flat()]);
  const near = [...all].filter((k) => k.length > 3 && isSlip(w, k)).map((k) => ({ k, d: apart(w, k) }));
  const least = Math.min(...near.map((n) => n.d));
  return near
    .filter((n) => n.d === least)
    .map((n) => n.k)
    .slice(0, MOST_MEANT);
}
