import assert from "node:assert/strict";
import { test } from "node:test";
import {
  brokenChains,
  compileCore,
  DEV,
  draft,
  JOB,
  NOON,
  newPhone,
  pairedDb,
  read,
  settle,
  until,
} from "../testing/kit";
import { image } from "../testing/picture";
import { openJournal, type DB } from "../journal/schema";
import type { Fault } from "../journal/tx";
import type { Socket } from "../link/line";
import type { BetweenTabs, News } from "./messages";
import { FakeLocks } from "../testing/locks";
import { SILENT_MS } from "./seat";
import { Tab, type TabHost } from "./tab";

Object.assign(globalThis, { fetch: () => Promise.reject(new Error("offline")) });

/** A socket that never opens. */
class DeadSocket implements Socket {
  binaryType: BinaryType = "arraybuffer";
  bufferedAmount = 0;
  onopen = null;
  onmessage = null;
  onclose = null;
  send() {}
  close() {}
}

/** A tab of a browser; its time passes by itself until it is frozen. */
interface OneTab {
  tab: Tab;
  news: Partial<News>;
  freeze(): void;
  thaw(): void;
}

class Browser {
  readonly locks = new FakeLocks();
  readonly tabs: OneTab[] = [];
  /** Added to the time of day: lets a leader's silence pass at once. */
  ahead = 0;
  private timers: { due: number; f: () => void; of: object }[] = [];

  async open(compile: TabHost["compile"] = compileCore, db?: DB, fault?: Fault): Promise<OneTab> {
    const me = {};
    let frozen = false;
    const missed: BetweenTabs[] = [];
    const news: Partial<News> = {};
    const now = () => NOON + this.ahead;
    const after = (ms: number, f: () => void) => {
      const timer = { due: now() + ms, f, of: me };
      this.timers.push(timer);
      return () => {
        this.timers = this.timers.filter((t) => t !== timer);
      };
    };
    const every = (ms: number, f: () => void): (() => void) => {
      let stop = (): void => undefined;
      const again = () => {
        stop = after(ms, () => (again(), f()));
      };
      again();
      return () => stop();
    };
    const host: TabHost = {
      db: db ?? (await openJournal()),
      id: `tab ${this.tabs.length}`,
      build: "build",
      locks: this.locks,
      compile,
      connect: () => new DeadSocket(),
      now,
      after,
      every,
      random: () => 0,
      post: (m) => {
        for (const other of others) if (other !== hear) other(structuredClone(m));
      },
      show: (n) => Object.assign(news, n),
      ...(fault ? { fault } : {}),
    };
    const tab = new Tab(host);
    const others = this.hearers;
    const hear = (m: BetweenTabs) => {
      if (frozen) missed.push(m);
      else tab.hear(m);
    };
    others.push(hear);
    const one = {
      tab,
      news,
      freeze: () => {
        frozen = true;
        this.frozen.add(me);
      },
      thaw: () => {
        frozen = false;
        this.frozen.delete(me);
        for (const m of missed.splice(0)) tab.hear(m);
      },
    };
    this.tabs.push(one);
    tab.start();
    await settle();
    return one;
  }

  private readonly hearers: ((m: BetweenTabs) => void)[] = [];
  private readonly frozen = new Set<object>();

  async pass(ms: number): Promise<void> {
    const end = this.ahead + ms;
    for (;;) {
      const next = this.timers
        .filter((t) => t.due <= NOON + end && !this.frozen.has(t.of))
        .sort((a, b) => a.due - b.due)[0];
      if (!next) break;
      this.timers = this.timers.filter((t) => t !== next);
      this.ahead = Math.max(this.ahead, next.due - NOON);
      next.f();
      await settle();
    }
    this.ahead = end;
    await settle();
  }
}

const texts = async (db: DB) => (await db.getAll("entries")).map((row) => read(row).body.text);
const ready = (one: OneTab) => until("the core", () => one.news.status?.core === "ready");

test("a tap in either tab becomes an entry of one chain, and both are told", async () => {
  const db = await pairedDb();
  const b = new Browser();
  const one = await b.open();
  const two = await b.open();
  await ready(one);
  await Promise.all([one.tab.watch(JOB), two.tab.watch(JOB)]);
  const a = await one.tab.tap(draft("a"));
  const c = await two.tab.tap(draft("c"));
  assert.ok("entry" in a && "entry" in c);
  assert.deepEqual(await texts(db), ["a", "c"]);
  assert.deepEqual(await brokenChains(db), []);
  await b.pass(100);
  await until("both to be told", () =>
    [one, two].every((t) => JSON.parse(t.news.folded?.shown?.state ?? "{}").notes === 2),
  );
  assert.deepEqual([one.news.status?.leader, two.news.status?.leader], [true, false]);
  await until("the count", () => one.news.status?.unsent === 2 && two.news.status?.unsent === 2);
});

test("what cannot be is refused at its field, and leaves nothing", async () => {
  const db = await pairedDb();
  const b = new Browser();
  await b.open();
  const two = await b.open();
  const outcome = await two.tab.tap(draft("x", { kind: "reading", body: '{"q":"ph","value":"15","unit":"pH"}' }));
  assert.ok("errors" in outcome);
  assert.equal(outcome.errors[0]?.field, "value");
  assert.deepEqual([await db.count("entries"), await db.count("drafts")], [0, 0]);
});

test("a tap while the core is loading is safe as a draft, and an entry once it is up", async () => {
  const db = await pairedDb();
  const b = new Browser();
  let load = (): void => undefined;
  const loading = new Promise<void>((resolve) => (load = resolve));
  const one = await b.open(() => loading.then(compileCore));
  const tapped = one.tab.tap(draft("early"));
  await until("the draft", async () => (await db.count("drafts")) === 1);
  await b.pass(1000);
  assert.deepEqual(await tapped, { draft: "early" });
  assert.deepEqual(await texts(db), []);
  load();
  await until("the entry", async () => (await db.count("entries")) === 1);
  assert.equal(await db.count("drafts"), 0);
});

test("a core that cannot be had leaves the draft and says so", async () => {
  const db = await pairedDb();
  const b = new Browser();
  const said = console.error;
  console.error = () => undefined;
  const one = await b.open(() => Promise.reject(new Error("no core")));
  await until("the core to be given up", () => one.news.status?.core === "failed");
  console.error = said;
  assert.deepEqual(await one.tab.tap(draft("late")), { draft: "late" });
  assert.match(one.news.status?.problem ?? "", /kept as drafts/);
  const file = await one.tab.unsentFile();
  assert.equal(file.count, 1);
  assert.equal(await db.count("drafts"), 1);
});

test("a phone that is not paired keeps what is tapped", async () => {
  newPhone();
  const b = new Browser();
  const one = await b.open();
  await ready(one);
  assert.deepEqual(await one.tab.tap(draft("early")), { draft: "early" });
  await until("the count", () => one.news.status?.drafts === 1);
});

test("a frozen leader is taken over without a fork, and nothing is lost or doubled", async () => {
  const db = await pairedDb();
  const b = new Browser();
  const one = await b.open();
  const two = await b.open();
  await ready(one);
  await one.tab.tap(draft("before"));
  one.freeze();
  const tapped = two.tab.tap(draft("during"));
  await until("the draft", async () => (await db.count("drafts")) === 1);
  await b.pass(1000);
  assert.deepEqual(await tapped, { draft: "during" });
  await b.pass(SILENT_MS);
  await until("the second tab to lead", () => two.news.status?.leader === true);
  await until("the entry", async () => (await db.count("entries")) === 2);
  // The first thaws and goes on with what it had in hand.
  const stale = one.tab.tap(draft("after"));
  one.thaw();
  await b.pass(2000);
  assert.ok(await stale);
  await until("the entry", async () => (await db.count("entries")) === 3);
  await until("the first tab to follow", () => one.news.status?.leader === false);
  assert.deepEqual((await texts(db)).sort(), ["after", "before", "during"]);
  assert.deepEqual(await brokenChains(db), []);
  assert.equal(await db.count("drafts"), 0);
});

test("a follower whose leader closes goes on with its questions", async () => {
  await pairedDb();
  const b = new Browser();
  const one = await b.open();
  const two = await b.open();
  await ready(one);
  await one.tab.tap(draft("note"));
  one.freeze();
  const page = two.tab.log(JOB, 0, 10);
  await b.pass(SILENT_MS + 2000);
  assert.equal((await page).total, 1);
});

test("a start whose snapshot shows everything folds nothing, and a new core folds again", async () => {
  const db = await pairedDb();
  const b = new Browser();
  const one = await b.open();
  await ready(one);
  await one.tab.tap(draft("note"));
  await one.tab.watch(JOB);
  await b.pass(1000);
  await until("the snapshot", async () => (await db.count("snapshots")) > 0);
  const row = (await db.get("snapshots", JOB))!;
  // A state that no fold would give tells where it came from.
  await db.put("snapshots", { ...row, state: '{"from":"snapshot"}' });
  one.freeze();
  const never = new Promise<WebAssembly.Module>(() => undefined);
  const next = new Browser();
  const two = await next.open(() => never);
  assert.deepEqual(await two.tab.watch(JOB), { state: '{"from":"snapshot"}', watch: row.watch });
  await db.put("snapshots", { ...row, build: "another", state: '{"from":"snapshot"}' });
  two.freeze();
  const third = await new Browser().open();
  assert.match((await third.tab.watch(JOB))?.state ?? "", /"notes":1/);
});

test("a full phone says so at the tap, and keeps nothing that it has not kept", async () => {
  const db = await pairedDb();
  const one = await new Browser().open(compileCore, db, () => {
    throw new DOMException("full", "QuotaExceededError");
  });
  const outcome = await one.tab.tap(draft("tap"));
  assert.ok("errors" in outcome);
  assert.match(outcome.errors[0]?.say ?? "", /no room left/);
  assert.equal(await db.count("drafts"), 0);
});

test("a phone that is full at the start still says who it is and what waits", async () => {
  const db = await pairedDb();
  await db.put("drafts", draft("waits"));
  const full = new Proxy(db, {
    get(of, name) {
      if (name === "transaction")
        return (stores: string[], mode?: IDBTransactionMode) => {
          if (mode === "readwrite") throw new DOMException("full", "QuotaExceededError");
          return of.transaction(stores as ["meta"], "readonly");
        };
      const member: unknown = Reflect.get(of, name);
      return typeof member === "function" ? member.bind(of) : member;
    },
  });
  const one = await new Browser().open(compileCore, full);
  await until("the status", () => one.news.status?.problem !== undefined && one.news.status.problem !== "");
  const { paired, dev, unsent, problem } = one.news.status!;
  assert.deepEqual({ paired, dev, unsent }, { paired: true, dev: DEV, unsent: 1 });
  assert.match(problem, /no room left/);
});

test("the id of the phone is in every entry", async () => {
  const db = await pairedDb();
  const one = await new Browser().open();
  await one.tab.tap(draft("note"));
  assert.deepEqual(
    (await db.getAll("entries")).map((row) => row.dev),
    [DEV],
  );
});

test("a photograph is kept with its entry, and shown from the phone while the studio machine is out of reach", async () => {
  const db = await pairedDb();
  const b = new Browser();
  await b.open();
  const two = await b.open();
  const outcome = await two.tab.keepPhoto(draft("p", { kind: "photo", body: '{"text":"the hoist"}' }), image(5000));
  assert.ok("entry" in outcome, JSON.stringify(outcome));
  const body = read((await db.getAll("entries"))[0]!).body as { blob?: string; w?: number; text?: string };
  assert.deepEqual([body.w, body.text, body.blob?.length], [800, "the hoist", 43]);
  const shown = await two.tab.photo(body.blob ?? "");
  assert.deepEqual([shown?.size, shown?.type], [5000, "image/jpeg"]);
  assert.equal(await two.tab.photo("A".repeat(43)), null);
});

test("what is no picture is refused in a sentence, and a full phone keeps neither half", async () => {
  const db = await pairedDb();
  const one = await new Browser().open(compileCore, db, (step) => {
    if (step === "before the photograph") throw new DOMException("full", "QuotaExceededError");
  });
  const refused = await one.tab.keepPhoto(draft("a", { kind: "photo", body: "{}" }), new Blob(["no picture"]));
  assert.ok("errors" in refused);
  assert.match(refused.errors[0]?.say ?? "", /cannot be read/);
  const full = await one.tab.keepPhoto(draft("b", { kind: "photo", body: "{}" }), image(5000));
  assert.ok("errors" in full);
  assert.match(full.errors[0]?.say ?? "", /no room/);
  assert.deepEqual([await db.count("drafts"), await db.count("photos"), await db.count("photo_data")], [0, 0, 0]);
});

test("a phone rings while one of its tabs does, whichever leads, and a tab that is gone rings no more", async () => {
  await pairedDb();
  const b = new Browser();
  const one = await b.open();
  const two = await b.open();
  await ready(one);
  two.tab.armed(true);
  await until("to be armed", () => one.news.status?.armed === 1);
  one.freeze();
  await b.pass(SILENT_MS + 2000);
  await until("the second tab to lead", () => two.news.status?.leader === true);
  await until("it to be armed still", () => two.news.status?.armed === 1);
  const three = await b.open();
  three.tab.armed(true);
  two.tab.armed(false);
  await settle();
  assert.equal(two.news.status?.armed, 1);
  // It says so again and again, until it is gone.
  await b.pass(300_000);
  assert.equal(two.news.status?.armed, 1);
  three.freeze();
  await b.pass(300_000);
  assert.equal(two.news.status?.armed, 0);
});
