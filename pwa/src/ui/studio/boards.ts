// Which treatments have a board on the studio page: those where something runs or is wet, the one that is due first in front.
import type { Card, Open } from "../board";

export interface BoardOf {
  of: Open;
  cards: Card[];
}

/** `cards` are in order; a treatment stands where its first one does. */
export function boardsOf(cards: readonly Card[]): BoardOf[] {
  const out: BoardOf[] = [];
  for (const c of cards) {
    if (!c.step && (c.of.state?.wet_since_ms ?? null) === null) continue;
    const known = out.find((b) => b.of === c.of);
    if (known) known.cards.push(c);
    else out.push({ of: c.of, cards: [c] });
  }
  return out;
}
