// Which screen the address asks for. Hash routes: they work offline and never reach a server's log.
import { signal } from "@preact/signals";

export type Route =
  | { at: "now" }
  | { at: "all" }
  | { at: "new" }
  | { at: "sink"; job: string }
  | { at: "log"; job: string }
  | { at: "about"; job: string }
  | { at: "hand"; job: string }
  | { at: "day"; day: string; job: string }
  | { at: "ready"; job: string; part: string }
  | { at: "shelf"; part: string }
  | { at: "batch" }
  | { at: "reckonings"; job: string }
  | { at: "reckon"; name: string; job: string }
  | { at: "reckoned"; job: string; entry: string }
  | { at: "studio" }
  | { at: "pair"; code: string }
  | { at: "phone" }
  | { at: "play" }
  | { at: "nowhere" };

export function parseRoute(hash: string): Route {
  const parts = hash
    .replace(/^#?\/?/, "")
    .split("/")
    .filter(Boolean)
    .map(decode);
  const [first = "", second, third] = parts;
  switch (first) {
    case "":
      return { at: "now" };
    case "all":
    case "new":
    case "studio":
    case "phone":
    case "play":
      return parts.length === 1 ? { at: first } : { at: "nowhere" };
    case "pair":
      return { at: "pair", code: second ?? "" };
    case "reckon":
      return reckonRoute(second, "");
    case "shelf":
      return second === "batch" ? { at: "batch" } : { at: "shelf", part: second ?? "" };
    case "day":
      return dayRoute(second, "");
    case "t":
      if (!second) return { at: "nowhere" };
      if (third === undefined) return { at: "sink", job: second };
      if (third === "reckon") return reckonRoute(parts[3], second);
      if (third === "reckoned" && parts[3]) return { at: "reckoned", job: second, entry: parts[3] };
      if (third === "ready") return { at: "ready", job: second, part: parts[3] ?? "" };
      if (third === "log" || third === "about" || third === "hand") return { at: third, job: second };
      if (third === "day") return dayRoute(parts[3], second);
      return { at: "nowhere" };
    default:
      return { at: "nowhere" };
  }
}

/** The list of reckonings, or one; for a treatment where `job` is not empty. */
function reckonRoute(name: string | undefined, job: string): Route {
  return name ? { at: "reckon", name, job } : { at: "reckonings", job };
}

/** A day of the calendar, as 2026-03-04; all treatments where `job` is empty. */
function dayRoute(day: string | undefined, job: string): Route {
  const ms = day && /^\d{4}-\d\d-\d\d$/.test(day) ? Date.parse(day) : NaN;
  // 30 February is read as a day of March.
  const real = Number.isFinite(ms) && new Date(ms).toISOString().slice(0, 10) === day;
  return day && real ? { at: "day", day, job } : { at: "nowhere" };
}

function decode(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

export const route = signal<Route>({ at: "now" });

export function startRoutes(): void {
  const read = () => (route.value = parseRoute(location.hash));
  window.addEventListener("hashchange", read);
  read();
}

export function go(hash: string): void {
  location.hash = hash;
}
