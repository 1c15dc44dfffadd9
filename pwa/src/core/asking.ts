import type { Reply, Request } from "./messages";

interface Pending {
  request: Request;
  resolve(v: unknown): void;
  reject(e: Error): void;
}

/**
 * Questions on their way to somebody who may go away: kept until they are answered, and sent again
 * to whoever takes over. All that is asked can be asked twice.
 */
export class Asking<T> {
  private readonly pending = new Map<string, Pending>();
  private count = 0;

  constructor(
    private readonly prefix: string,
    private readonly send: (r: Request) => void,
  ) {}

  ask<K extends keyof T & string>(
    method: K,
    ...args: T[K] extends (...a: infer A) => unknown ? A : never
  ): Promise<T[K] extends (...a: never) => Promise<infer R> ? R : never> {
    const request: Request = { id: `${this.prefix}-${++this.count}`, method, args };
    return new Promise((resolve, reject) => {
      // The answering side has the same interface T, so the value is of the method's type.
      this.pending.set(request.id, { request, resolve: resolve as (v: unknown) => void, reject });
      this.send(request);
    });
  }

  settle(r: Reply): void {
    const p = this.pending.get(r.id);
    if (!p) return;
    this.pending.delete(r.id);
    if ("failed" in r) p.reject(new Error(r.failed));
    else p.resolve(r.value);
  }

  /** How many questions are not answered yet. */
  get waiting(): number {
    return this.pending.size;
  }

  /** Nobody will answer any more. */
  fail(say: string): void {
    for (const p of this.pending.values()) p.reject(new Error(say));
    this.pending.clear();
  }

  /** Sends everything that waits for an answer again. */
  again(): void {
    for (const p of this.pending.values()) this.send(p.request);
  }
}
