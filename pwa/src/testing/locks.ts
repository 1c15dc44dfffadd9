import type { Locks } from "../core/seat";

/** Web Locks for one name, as browsers have them. */
export class FakeLocks implements Locks {
  private holder: { release: () => void; rob: () => void } | undefined;
  private queue: (() => void)[] = [];

  request(_name: string, options: { steal?: boolean; signal?: AbortSignal }, held: (l: unknown) => Promise<void>) {
    return new Promise<void>((resolve, reject) => {
      const aborted = () => reject(new DOMException("given up", "AbortError"));
      const grant = () => {
        if (options.signal?.aborted) return this.next();
        const me = { release: resolve, rob: () => reject(new DOMException("robbed", "AbortError")) };
        this.holder = me;
        const done = () => {
          resolve();
          if (this.holder !== me) return;
          this.holder = undefined;
          this.next();
        };
        held({}).then(done, (e: unknown) => {
          reject(e instanceof Error ? e : new Error(String(e)));
          done();
        });
      };
      options.signal?.addEventListener("abort", aborted);
      if (options.steal) {
        this.holder?.rob();
        grant();
      } else if (this.holder) this.queue.push(grant);
      else grant();
    });
  }

  private next() {
    this.queue.shift()?.();
  }
}
