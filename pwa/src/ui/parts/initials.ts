// Initials as people type them.

/** Initials as they are kept: "rv " is RV. Empty where they are none. */
export function tidyInitials(text: string): string {
  const t = text.trim().replace(/[.\s]+/g, "");
  return t.length <= 4 ? t.toUpperCase() : t;
}

/** As many characters as the core takes; more would be refused at every act from then on. */
const MOST = 12;

/** What is wrong with initials, in a sentence; empty when nothing is. */
export function initialsFault(initials: string): string {
  const n = [...initials].length;
  if (n === 0) return "Type the initials that your studio knows you by.";
  return n > MOST ? `Initials are at most ${MOST} characters; this has ${n}.` : "";
}
