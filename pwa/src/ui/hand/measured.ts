// Quantities that this version has words for.
import { QUANTITIES, type Q } from "../sink/quantities";

export type { Q } from "../sink/quantities";

export function isQ(q: string): q is Q {
  return q in QUANTITIES;
}
