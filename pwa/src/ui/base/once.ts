// One act at a time: a second tap while the first is on its way does nothing. On a slow phone the
// answer takes longer than a double tap, and a screen that was not drawn again cannot say so.
import { useState } from "preact/hooks";

export class OneAtATime {
  private busy = false;

  /** Runs an act unless one runs already. */
  readonly run = async (act: () => Promise<void>): Promise<void> => {
    if (this.busy) return;
    this.busy = true;
    try {
      await act();
    } finally {
      this.busy = false;
    }
  };
}

export function useOneAtATime(): OneAtATime["run"] {
  const [one] = useState(() => new OneAtATime());
  return one.run;
}
