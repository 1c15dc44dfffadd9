// A button that acts on a held press. The rules are in hold.ts; here they meet the browser.
import { useEffect, useRef, useState } from "preact/hooks";
import { pressWay } from "../base/remember";
import {
  holdSays,
  holdSaysBriefly,
  KEY,
  newPress,
  nextTime,
  press,
  type Outcome,
  type Press,
  type Touch,
} from "./hold";
import { Icon, type IconName } from "./icon";
import { announce } from "./say";
import { touchingNow, watchTouches } from "./touches";

interface HoldButtonProps {
  test: string;
  label: string;
  icon?: IconName;
  tone?: "act" | "end" | "quiet" | "stop";
  /** What is acted on, for a screen reader, where the label alone does not say. */
  about?: string;
  /** Of one answer among several: whether it stands. */
  chosen?: boolean;
  /** The act. Until it resolves, further presses do nothing. */
  onDone: () => Promise<unknown> | void;
}

type Showing = "rest" | "held" | "ready" | "armed" | "busy";

export function HoldButton({ test, label, icon, tone = "act", about, chosen, onDone }: HoldButtonProps) {
  const { button, showing, say } = usePress(label, onDone, tone === "stop" || tone === "quiet");
  const hint = { rest: restHint(), held: "hold still", ready: "let go now", armed: "press once more", busy: "keeping" };
  return (
    <button
      type="button"
      ref={button}
      class={`hold ${tone} ${showing} ${pressWay.value}${chosen ? " chosen" : ""}`}
      aria-pressed={chosen}
      data-test={test}
      data-hold={showing}
    >
      <span class="fill" aria-hidden="true" />
      <span class="label">
        {icon && <Icon is={icon} />}
        {label}
        {about && <span class="unseen">, {about}</span>}
      </span>
      <small>{showing === "rest" && say ? say : hint[showing]}</small>
    </button>
  );
}

function restHint(): string {
  return pressWay.value === "hold" ? "hold, then let go" : "press twice";
}

/** How long the sentence about a press that did nothing stays, in milliseconds. */
const SAY_MS = 6000;

function usePress(label: string, onDone: HoldButtonProps["onDone"], brief: boolean) {
  const button = useRef<HTMLButtonElement>(null);
  const [showing, show] = useState<Showing>("rest");
  const [say, setSay] = useState("");
  // The listeners live as long as the button, so they reach what is newest through this.
  const latest = useRef({ label, onDone });
  latest.current = { label, onDone };
  const way = pressWay.value;

  useEffect(() => {
    const b = button.current;
    if (!b) return;
    let p: Press = newPress(way, touchingNow());
    let timer: ReturnType<typeof setTimeout> | undefined;
    let busy = false;

    const tell = (e: Touch) => {
      const { next, out } = press(p, e);
      p = next;
      clearTimeout(timer);
      const at = nextTime(p);
      if (at !== null) timer = setTimeout(() => tell({ do: "time", t: performance.now() }), at - performance.now());
      if (!busy) show(showingOf(p));
      heed(out);
    };
    const heed = (out: Outcome) => {
      if (out === null) return;
      if (out === "done") return void act();
      if (out === "ready") return tremble(20);
      const sentence = holdSays(out, latest.current.label);
      setSay(brief ? holdSaysBriefly(out, latest.current.label) : sentence);
      announce(sentence);
    };
    const act = async () => {
      if (busy) return;
      busy = true;
      show("busy");
      setSay("");
      tremble([30, 40, 30]);
      try {
        await latest.current.onDone();
      } finally {
        busy = false;
        show(showingOf(p));
      }
    };
    const undo = listen(b, tell, () => busy);
    return () => {
      undo();
      clearTimeout(timer);
    };
  }, [way]);

  useEffect(() => {
    if (!say) return;
    const timer = setTimeout(() => setSay(""), SAY_MS);
    return () => clearTimeout(timer);
  }, [say]);

  return { button, showing, say };
}

/** Browsers refuse, and complain, before the page's first finished touch. */
function tremble(pattern: number | number[]): void {
  if (navigator.userActivation?.hasBeenActive) navigator.vibrate?.(pattern);
}

function showingOf(p: Press): Showing {
  if (p.hold.is === "held") return p.hold.ready && p.way === "hold" ? "ready" : "held";
  return p.hold.is === "armed" ? "armed" : "rest";
}

/** How long after a pointer's last event, in milliseconds, a browser may still send its click. */
const CLICK_LAG = 700;

/** Turns the browser's events into touches. */
function listen(b: HTMLButtonElement, tell: (e: Touch) => void, busy: () => boolean): () => void {
  let pointerLeft = -Infinity;
  const stop = new AbortController();
  const { signal } = stop;

  const unwatch = watchTouches((e) => {
    const { pointerId: id, clientX: x, clientY: y, timeStamp: t } = e;
    const inside = e.type === "pointerdown" && b.contains(e.target as Node) && e.button === 0 && !busy();
    if (e.type !== "pointermove" && b.contains(e.target as Node)) pointerLeft = t;
    if (e.type === "pointerdown") tell({ do: "down", id, x, y, t, inside });
    else if (e.type === "pointermove") tell({ do: "move", id, x, y, t });
    else if (e.type === "pointerup") tell({ do: "up", id, x, y, t });
    else tell({ do: "cancel", id, t });
  });
  const isKey = (e: KeyboardEvent) => e.key === "Enter" || e.key === " ";
  b.addEventListener(
    "keydown",
    (e) => {
      if (!isKey(e)) return;
      e.preventDefault();
      if (!e.repeat && !busy()) tell({ do: "down", id: KEY, x: 0, y: 0, t: e.timeStamp, inside: true });
    },
    { signal },
  );
  b.addEventListener(
    "keyup",
    (e) => {
      if (!isKey(e)) return;
      e.preventDefault();
      tell({ do: "up", id: KEY, x: 0, y: 0, t: e.timeStamp });
    },
    { signal },
  );
  b.addEventListener("blur", (e) => tell({ do: "cancel", id: KEY, t: e.timeStamp }), { signal });
  b.addEventListener("contextmenu", (e) => e.preventDefault(), { signal });
  // A click that follows no pointer and no key comes from switch access or a screen reader.
  b.addEventListener(
    "click",
    (e) => e.timeStamp - pointerLeft > CLICK_LAG && !busy() && tell({ do: "activate", t: e.timeStamp }),
    { signal },
  );
  return () => {
    unwatch();
    stop.abort();
  };
}
