// What has reached the studio machine and what has not, in one line.
import type { Status } from "../../core/api";
import { useCore } from "../base/core";
import { Ringers } from "../ring/ringers";
import { unsentSays } from "./waiting";

/** A link to what this device keeps; at the sink plain text, since there it would be too small to press. */
export function Standing({ plain }: { plain?: boolean }) {
  const s = useCore().status.value;
  const line = (
    <>
      <span data-test="unsent" data-count={s.unsent}>
        {unsentSays(s)}
      </span>
      {" · "}
      <span data-test="link" data-link={s.link} data-core={s.core}>
        {linkSays(s)}
      </span>
    </>
  );
  if (plain)
    return (
      <p class="standing">
        <Ringers plain />
        {" · "}
        {line}
      </p>
    );
  return (
    <a class="standing" href="#/phone" data-test="standing">
      {line}
    </a>
  );
}

export function linkSays(s: Status): string {
  if (s.revoked) return "shut out";
  if (s.core === "failed") return "out of order";
  if (s.diskFull) return "its disk is full";
  if (s.storageLow) return "phone nearly full";
  if (!s.paired) return "not paired";
  return { on: "connected", connecting: "looking for it", off: "no connection" }[s.link];
}
