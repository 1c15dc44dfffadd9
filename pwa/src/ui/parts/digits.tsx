// The digits of a clock, drawn to fill the width that they have.
import { digitsBox } from "./digits-box";

export function Digits({ text, left }: { text: string; left?: boolean }) {
  const { width, height, line } = digitsBox(text);
  const place = left ? "xMinYMid meet" : "xMidYMid meet";
  return (
    <svg class="digits" viewBox={`0 0 ${width} ${height}`} preserveAspectRatio={place} aria-hidden="true">
      <text y={line} textLength={width} lengthAdjust="spacingAndGlyphs">
        {text}
      </text>
    </svg>
  );
}
