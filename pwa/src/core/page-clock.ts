// The worker's clock follows its page's: what a person sees is what is recorded, also where one of the
// two was moved.

/** When a message was sent: by the page's clock, and by the steady one that pages and workers share. */
export interface Sent {
  at: number;
  steady: number;
}

/** Clocks this close are taken for one. */
const SAME_MS = 1000;
/** A message is on its way, or waits for a worker that starts, for this long at most. */
const LONGEST_WAY_MS = 60_000;

export const steadyNow = (): number => performance.timeOrigin + performance.now();

export class PageClock {
  private ahead = 0;

  constructor(
    private readonly own: () => number = () => Date.now(),
    private readonly steady: () => number = steadyNow,
  ) {}

  readonly now = (): number => this.own() + this.ahead;

  /** A message of the page came. */
  heard(m: Sent): void {
    const way = Math.min(Math.max(this.steady() - m.steady, 0), LONGEST_WAY_MS);
    const ahead = Math.round(m.at + way - this.own());
    this.ahead = Math.abs(ahead) > SAME_MS ? ahead : 0;
  }
}
