// What shape of a table can be read in the room that there is.

/** Widths of a table in CSS pixels. */
export interface Widths {
  /** By itself, with its longest cells broken. */
  natural: number;
  /** With every cell broken between all its words. */
  least: number;
}

/** So much wider than its room a table may be by itself and still be read when its cells are broken. */
const MOST_TIGHT = 1.4;

/** As it is, with its cells broken more often, or row by row. */
export function shapeOf({ natural, least }: Widths, room: number): "table" | "tight" | "rows" {
  if (natural <= room) return "table";
  return least <= room && natural <= MOST_TIGHT * room ? "tight" : "rows";
}
