// Which devices would ring. A device does when one of its tabs does; the studio machine counts devices.

export interface RingingHost {
  after(ms: number, f: () => void): () => void;
  /** Whether this device would ring. */
  own(armed: boolean): void;
  /** How many devices would. */
  count(n: number): void;
}

/** An armed tab says so again after this time; one that is silent for longer than the second is gone. */
export const SAY_AGAIN_MS = 60_000;
export const FORGET_MS = 150_000;

export class Ringing {
  private readonly tabs = new Map<string, () => void>();
  private counted = 0;

  constructor(private readonly host: RingingHost) {}

  get armed(): boolean {
    return this.tabs.size > 0;
  }

  said(tab: string, armed: boolean): void {
    const before = this.armed;
    this.tabs.get(tab)?.();
    this.tabs.delete(tab);
    if (armed)
      this.tabs.set(
        tab,
        this.host.after(FORGET_MS, () => this.said(tab, false)),
      );
    if (this.armed !== before) this.host.own(this.armed);
    this.tell();
  }

  /** The studio machine says how many; 0 when it is out of reach. */
  heard(n: number): void {
    this.counted = n;
    this.tell();
  }

  private tell(): void {
    this.host.count(Math.max(this.counted, this.armed ? 1 : 0));
  }
}
