import assert from "node:assert/strict";
import { test } from "node:test";
import { Refusal, type Machine } from "../studio/machine";
import { playedMachine } from "./played-machine";

test("while a day is played the studio machine is asked, and does nothing", async () => {
  const done: string[] = [];
  const real = new Proxy({} as Machine, {
    get: (_, name) => () => {
      done.push(String(name));
      return Promise.resolve([]);
    },
  });
  const m = playedMachine(real);
  await m.place();
  await m.devices();
  const acts = [() => m.newCode(), () => m.revoke("D"), () => m.importFile(new Blob(), "RV"), () => m.removeSample()];
  for (const act of acts) await assert.rejects(act, (e) => e instanceof Refusal && /Leave it/.test(e.message));
  assert.deepEqual(done, ["place", "devices"]);
});
