// The box that a clock's digits fill. Each figure has the same width, so the clock does not tremble as
// it runs. In hundredths of the type size, as in the bundled face with tabular figures.

const FIGURE = 63.2;
const WIDTH: Record<string, number> = { ":": 24.3, "+": 61.8 };
/** Height of a figure above the line, and the round ones' depth below it. */
const HEIGHT = 69;
const DEPTH = 2;

export function digitsBox(text: string): { width: number; height: number; line: number } {
  const width = [...text].reduce((sum, ch) => sum + (WIDTH[ch] ?? FIGURE), 0);
  return { width, height: HEIGHT + DEPTH, line: HEIGHT };
}
