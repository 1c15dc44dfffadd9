// What has not reached the studio machine, in words. Nothing is said to have arrived, and nothing to be
// missing, before this device has looked.
import type { Status } from "../../core/api";
import { count } from "../base/words";

/** In a few words, for the line at the top. */
export function unsentSays(s: Status): string {
  if (s.unsent > 0) return `${count(s.unsent, "entry", "entries")} not at the studio machine yet`;
  if (s.paired || s.revoked) return "all at the studio machine";
  return s.core === "loading" ? "looking at what is kept here" : "nothing recorded here yet";
}

/** What waits here and what becomes of it. */
export function waitingSays(s: Status): string {
  if (s.unsent === 0 && s.core === "loading") return "What is kept here is being looked at …";
  if (s.unsent === 0) return "Nothing: everything that was recorded here has arrived.";
  const wait = `${count(s.unsent, "entry waits", "entries wait")} on this device`;
  const drafts = s.drafts > 0 ? ` ${count(s.drafts, "tap is", "taps are")} kept here and not yet in the log.` : "";
  if (s.revoked)
    return `${wait}, which the studio machine has shut out. Save them to a file and have it taken in on the studio page.${drafts}`;
  if (s.dev === "") return `${wait}. They can be sent, or taken in from a file, once it has been paired.${drafts}`;
  return `${wait}. They are sent as soon as the studio machine answers.${drafts}`;
}
