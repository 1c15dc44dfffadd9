// A stop plan as text: one step a line.

/** Lines without what stands before them as a list's mark, and without empty ones. */
export function stepsOf(text: string): string[] {
  return text
    .split("\n")
    .map((l) => l.replace(/^\s*(?:[-–•*]|\d{1,2}[.)])\s+/, "").trim())
    .filter(Boolean);
}

export function textOf(steps: readonly string[]): string {
  return steps.join("\n");
}
