// The worker's first file: gives a Tab what it needs of the browser.
import { openJournal } from "../journal/schema";
import { newNonce } from "./ids";
import { answer, type BetweenTabs, type FromWorker, type ToWorker } from "./messages";
import { PageClock } from "./page-clock";
import { noLocks } from "./seat";
import { Tab } from "./tab";
import { compileCore } from "./wasm";

/** What is used of the global scope of a dedicated worker. */
interface Scope {
  postMessage(m: FromWorker): void;
  onmessage: ((e: MessageEvent<ToWorker>) => void) | null;
  addEventListener(type: "online", f: () => void): void;
}

const scope = globalThis as unknown as Scope;
// Another number where tabs of before would not understand: their database is taken away too.
const channel = new BroadcastChannel("sinkside-2");

const clock = new PageClock();

const after = (ms: number, f: () => void): (() => void) => {
  const timer = setTimeout(f, ms);
  return () => clearTimeout(timer);
};

const every = (ms: number, f: () => void): (() => void) => {
  const timer = setInterval(f, ms);
  return () => clearInterval(timer);
};

function connect(): WebSocket {
  const url = new URL("/api/sync", location.href);
  url.protocol = url.protocol === "https:" ? "wss:" : "ws:";
  return new WebSocket(url);
}

// The core compiles while the database opens.
const module = compileCore(__CORE_URL__);
module.catch(() => undefined);
let first = true;

async function begin(): Promise<Tab> {
  const db = await openJournal(() => scope.postMessage({ outdated: true }));
  const tab = new Tab({
    db,
    id: newNonce(),
    build: __CORE_BUILD__,
    locks: "locks" in navigator ? navigator.locks : noLocks(),
    compile: () => {
      const again = first ? module : compileCore(__CORE_URL__);
      first = false;
      return again;
    },
    connect,
    now: clock.now,
    after,
    every,
    random: () => Math.random(),
    post: (m) => channel.postMessage(m),
    show: (news) => scope.postMessage({ news }),
  });
  channel.onmessage = (e: MessageEvent<BetweenTabs>) => tab.hear(e.data);
  tab.start();
  return tab;
}

const tab = begin();
tab.catch((e: unknown) => scope.postMessage({ failed: e instanceof Error ? e.message : String(e) }));

scope.addEventListener("online", () => void tab.then((t) => t.nudge()));
scope.onmessage = (e) => {
  const m = e.data;
  clock.heard(m);
  void tab.then(async (t) => {
    if ("nudge" in m) t.nudge();
    else if ("hidden" in m) t.hidden();
    else if ("arm" in m) t.armed(m.arm);
    else scope.postMessage({ reply: await answer(t, m.ask) });
  });
};
