import assert from "node:assert/strict";
import { test } from "node:test";
import { FakeTime, newLibrary, settle } from "../testing/kit";
import { Desk, type DeskWorker } from "./desk";
import * as ops from "./library-ops";
import type { Request } from "./messages";

const library = await newLibrary();

/** Workers that answer from the real library, or stay silent. */
function workers() {
  const made: { ended: boolean; silent: boolean; worker: DeskWorker }[] = [];
  const make = (): DeskWorker => {
    const of = { ended: false, silent: false, worker: undefined as unknown as DeskWorker };
    of.worker = {
      onmessage: null,
      onerror: null,
      terminate: () => (of.ended = true),
      postMessage: (r: Request) => {
        if (of.silent) return;
        const value =
          r.method === "list" ? ops.list(library) : ops.run(library, r.args[0] as string, r.args[1] as object);
        of.worker.onmessage?.({ data: { reply: { id: r.id, value } } } as MessageEvent);
      },
    };
    made.push(of);
    return of.worker;
  };
  return { made, make };
}

test("the worker is started when somebody asks, and ended when nobody has for a while", async () => {
  const { made, make } = workers();
  const time = new FakeTime();
  const desk = new Desk(make, time.after);
  assert.equal(made.length, 0);
  const answer = await desk.run("tray", { length: "90", width: "60", depth: "10" });
  assert.ok("values" in answer && answer.values.some((v) => v.shown === "54 L"));
  await time.pass(4 * 60_000);
  await desk.run("tray", {});
  await time.pass(4 * 60_000);
  assert.equal(made[0]?.ended, false);
  await time.pass(2 * 60_000);
  assert.equal(made[0]?.ended, true);
  await desk.run("tray", {});
  assert.equal(made.length, 2);
});

test("a question that is not answered yet keeps the worker", async () => {
  const { made, make } = workers();
  const time = new FakeTime();
  const desk = new Desk(make, time.after);
  await desk.list();
  if (made[0]) made[0].silent = true;
  void desk.run("tray", {}).catch(() => undefined);
  await time.pass(20 * 60_000);
  assert.equal(made[0]?.ended, false);
});

test("a worker that fails is said, and the next question starts another", async () => {
  const { made, make } = workers();
  const desk = new Desk(make, new FakeTime().after);
  await desk.list();
  if (made[0]) made[0].silent = true;
  const lost = desk.run("tray", {});
  made[0]?.worker.onerror?.({} as ErrorEvent);
  await assert.rejects(lost, /Nothing that was recorded is touched/);
  await settle();
  assert.equal(made[0]?.ended, true);
  assert.ok("problems" in (await desk.run("tray", {})));
  assert.equal(made.length, 2);
});
