// How many devices would ring, in a few words.
import type { Status } from "../../core/api";
import { useCore } from "../base/core";
import { count } from "../base/words";
import { Icon } from "../parts/icon";
import { wouldSound } from "./sound";

/** A link to this device's sound; at the sink plain text, since there it would be too small to press. */
export function Ringers({ plain }: { plain?: boolean }) {
  const s = useCore().status.value;
  const own = wouldSound.value;
  const say = plain ? ringersSayBriefly(s, own) : ringersSay(s, own);
  const none = s.armed === 0 && !own;
  const attrs = { "data-test": "ringers", "data-armed": s.armed, "data-own": own };
  const inside = (
    <>
      {none && <Icon is="past" />}
      {say}
    </>
  );
  const look = none ? "ringers none" : "ringers";
  return plain ? (
    <span class={look} {...attrs}>
      {inside}
    </span>
  ) : (
    <a class={look} href="#/phone" {...attrs}>
      {inside}
    </a>
  );
}

/** `own`: this device would sound. The count comes from the studio machine, and is its own word while that is out of reach. */
export function ringersSay({ armed, link }: Pick<Status, "armed" | "link">, own: boolean): string {
  const others = Math.max(0, armed - (own ? 1 : 0));
  if (link !== "on" && own) return "This device rings; no word of others";
  if (armed === 0 && !own) return "No device rings: make the sound check";
  if (others === 0) return "Only this device rings";
  if (own) return `${armed} devices ring`;
  return `${count(others, "other device rings", "other devices ring")}, this one does not`;
}

/** The same for the sink's top line. */
export function ringersSayBriefly(s: Pick<Status, "armed" | "link">, own: boolean): string {
  if (s.link !== "on" && own) return "this device rings";
  if (s.armed === 0 && !own) return "No device rings";
  if (own) return s.armed > 1 ? `${s.armed} devices ring` : "only this device rings";
  return `${count(s.armed, "device rings", "devices ring")}, not this one`;
}
