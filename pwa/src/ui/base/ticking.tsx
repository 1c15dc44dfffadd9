// What follows the clock. Only the figures that change are drawn again each second, never the tree about them.
import { useMemo } from "preact/hooks";
import { computed, type ReadonlySignal } from "@preact/signals";
import type { Core } from "../../core/api";
import { deviceNow, studioNow, useCore } from "./core";

/** A value of the studio's time. Who reads it is drawn again only when it changes. `of` rests on `deps` alone. */
export function useTicking<T extends string | number | boolean>(
  of: (nowMs: number) => T,
  deps: readonly unknown[],
): ReadonlySignal<T> {
  const core = useCore();
  return useMemo(() => computed(() => of(studioNow(core))), [core, ...deps]);
}

/** A text that follows the clock. */
export function Ticking({ say, deps }: { say: (nowMs: number) => string; deps: readonly unknown[] }) {
  return <>{useTicking(say, deps)}</>;
}

/** The studio's time now, for what does not follow it. */
export function nowAt(core: Core): number {
  return deviceNow.peek() + core.status.peek().offset_ms;
}

/** The studio's time in whole minutes, for pages that show days and clock times: they are drawn again once a minute. */
export function useMinute(): number {
  return useTicking((now) => now - (now % 60_000), []).value;
}
