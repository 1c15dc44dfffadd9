// The digits of a clock, drawn to fill the width that they have. Each figure has the same width,
// so the clock does not tremble as it runs.

/** Widths in hundredths of the type size, as in the bundled face with tabular figures. */
const FIGURE = 63.2;
const WIDTH: Record<string, number> = { ":": 24.3, "+": 61.8 };
/** Height of a figure above the line, and the round ones' depth below it. */
const HEIGHT = 69;
const DEPTH = 2;

export function Digits({ text, left }: { text: string; left?: boolean }) {
  const width = [...text].reduce((sum, ch) => sum + (WIDTH[ch] ?? FIGURE), 0);
  const place = left ? "xMinYMid meet" : "xMidYMid meet";
  return (
    <svg class="digits" viewBox={`0 0 ${width} ${HEIGHT + DEPTH}`} preserveAspectRatio={place} aria-hidden="true">
      <text y={HEIGHT} textLength={width} lengthAdjust="spacingAndGlyphs">
        {text}
      </text>
    </svg>
  );
}
