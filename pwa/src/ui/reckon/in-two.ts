// A figure as it is shown, and what else is said of it.

/** "40 L (38 to 42 L), 10.6 US gal" as the figure, and its range or the same in another unit; "2-3 (ISO 105-A05)" is whole. */
export function inTwo(shown: string): [figure: string, more: string] {
  const at = / \((?=[^)]* to )|, /.exec(shown);
  if (!at) return [shown, ""];
  return [shown.slice(0, at.index), shown.slice(at.index).replace(/^,? /, "")];
}
