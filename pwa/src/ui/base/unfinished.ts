// What a person typed or chose and has not kept: it outlives a turn to another screen and a page that
// is loaded anew, on this tab. Who goes back from it on purpose lets go of it, so that no half-made
// correction turns up again unasked.
import { useState } from "preact/hooks";
import { isPlayed } from "./time";

/** What is used of sessionStorage. */
export interface Box {
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
  removeItem(key: string): void;
}

const PREFIX = "sinkside.unfinished.";

/** Where a browser gives no such storage, what is unfinished lives as long as its screen. */
export class Unfinished<T> {
  constructor(
    private readonly box: Box | undefined,
    private readonly key: string,
    private readonly ok: (v: unknown) => v is T,
  ) {}

  read(): T | undefined {
    try {
      const v: unknown = JSON.parse(this.box?.getItem(PREFIX + this.key) ?? "null");
      return this.ok(v) ? v : undefined;
    } catch {
      return undefined;
    }
  }

  keep(v: T): void {
    try {
      this.box?.setItem(PREFIX + this.key, JSON.stringify(v));
    } catch {
      // No room: it stays on the screen.
    }
  }

  forget(): void {
    try {
      this.box?.removeItem(PREFIX + this.key);
    } catch {
      // Then it was not kept either.
    }
  }
}

function box(): Box | undefined {
  try {
    return sessionStorage;
  } catch {
    return undefined;
  }
}

/** What is tried in a day that is played does not turn up in earnest. */
function keyNow(key: string): string {
  return isPlayed() ? `played.${key}` : key;
}

const isNothing = (v: unknown): v is never => v === undefined;

/** Forgets what was left unfinished under a key. */
export function letGo(key: string): void {
  new Unfinished(box(), keyNow(key), isNothing).forget();
}

export interface UseUnfinished<T> {
  value: T;
  set: (v: T) => void;
  /** The value stays on the screen and is not there again later. */
  forget: () => void;
  /** It was left unfinished before. */
  found: boolean;
}

/** As useState, for what must not be lost by leaving. */
export function useUnfinished<T>(key: string, first: () => T, ok: (v: unknown) => v is T): UseUnfinished<T> {
  const [store] = useState(() => new Unfinished(box(), keyNow(key), ok));
  const [before] = useState(() => store.read());
  const [value, setValue] = useState<T>(before ?? first);
  const set = (v: T) => {
    setValue(() => v);
    store.keep(v);
  };
  return { value, set, forget: () => store.forget(), found: before !== undefined };
}
