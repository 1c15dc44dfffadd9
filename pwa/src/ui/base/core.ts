// How a screen reaches the core.
import { createContext } from "preact";
import { useContext } from "preact/hooks";
import type { Core } from "../../core/api";

export { deviceNow, studioNow } from "./time";

export const CoreContext = createContext<Core | null>(null);

export function useCore(): Core {
  const core = useContext(CoreContext);
  if (!core) throw new Error("this screen stands outside of the app");
  return core;
}
