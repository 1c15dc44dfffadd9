// Ids as the journal has them: a ULID, 48 bits of Unix milliseconds and 80 bits of chance.

const CROCKFORD = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

/** The studio's own log: the zero id. */
export const SHELF = "0".repeat(26);

export function newId(now: number): string {
  let time = "";
  for (let i = 0, ms = now; i < 10; i++, ms = Math.floor(ms / 32)) time = CROCKFORD.charAt(ms % 32) + time;
  let chance = "";
  for (const b of crypto.getRandomValues(new Uint8Array(16))) chance += CROCKFORD.charAt(b % 32);
  return time + chance;
}

/** A random text that nobody guesses, for claims that are made once. */
export function newNonce(): string {
  return newId(0).slice(10) + newId(0).slice(10);
}
