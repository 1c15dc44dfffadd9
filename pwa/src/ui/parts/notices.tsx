// What a person must know wherever they are. The worst first; each says what to do.
import { useComputed } from "@preact/signals";
import type { ComponentChildren } from "preact";
import type { Status } from "../../core/api";
import { useCore } from "../base/core";
import { route, type Route } from "../route";
import { Icon, type IconName } from "./icon";

export function Notices() {
  const core = useCore();
  const s = core.status.value;
  const found = useComputed(() => notices(core.status.value, route.value.at)).value;
  return (
    <div class="notices" role="status">
      {found.map((n) => (
        <Notice key={n.say} {...n} />
      ))}
      {s.update && (
        <Notice is="save" say="A newer version of the app has been fetched. Nothing recorded is touched by it.">
          <button class="key" onClick={() => core.applyUpdate()}>
            Use it now
          </button>
        </Notice>
      )}
    </div>
  );
}

interface NoticeProps {
  is: IconName;
  say: string;
  grave?: boolean;
  to?: string;
  toSay?: string;
  children?: ComponentChildren;
}

export function Notice({ is, say, grave, to, toSay, children }: NoticeProps) {
  return (
    <div class={grave ? "notice grave" : "notice"}>
      <Icon is={is} />
      <p>{say}</p>
      {to && (
        <a class="key" href={to}>
          {toSay}
        </a>
      )}
      {children}
    </div>
  );
}

function notices(s: Status, at: Route["at"]): NoticeProps[] {
  const out: NoticeProps[] = [];
  const file = { to: "#/phone", toSay: "Save to a file" };
  if (s.core === "failed")
    out.push({
      is: "past",
      grave: true,
      say: "The part that keeps the record did not start. What you tap is kept on this device; load the page again.",
    });
  if (s.revoked)
    out.push({
      is: "past",
      grave: true,
      say: "The studio machine has shut this device out. What it has not sent can be saved to a file and taken in there.",
      ...file,
    });
  if (s.diskFull)
    out.push({
      is: "past",
      grave: true,
      say: "The studio machine's disk is full. This device keeps your entries and sends them when there is room again.",
    });
  if (s.storageLow)
    out.push({
      is: "past",
      grave: true,
      say: "Little room is left on this device. Free some soon, or entries can no longer be kept here.",
      to: "#/phone",
      toSay: "See what is used",
    });
  if (s.problem) out.push({ is: "past", grave: true, say: s.problem });
  // The screen for pairing says so itself; a notice that comes late would push its form away under the finger.
  if (!s.paired && !s.revoked && s.core === "ready" && at !== "pair")
    out.push({
      is: "link",
      say: "This device is not paired with a studio machine. Pair it before you begin: until then what you enter is kept, but cannot be shown.",
      to: "#/pair",
      toSay: "Pair it",
    });
  return out;
}
