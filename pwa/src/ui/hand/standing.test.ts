import assert from "node:assert/strict";
import { test } from "node:test";
import type { Reading, State } from "../../core/api";
import { atSink, knownHands, lastReadings } from "./standing";

function state(more: object): State {
  return { takeovers: [], steps: [], last: {}, ...more } as unknown as State;
}

test("at the sink is who took over last, or has begun or ended a step since", () => {
  assert.equal(atSink(state({})), null);
  const steps = [{ by: "RV", begun: { ms: 10 }, ended: { ms: 30 }, ended_by: "OT" }];
  assert.deepEqual(atSink(state({ steps })), { by: "OT", ms: 30 });
  const took = [{ by: "IB", at: { ms: 20 } }];
  assert.equal(atSink(state({ takeovers: took }))?.by, "IB");
  assert.equal(atSink(state({ steps, takeovers: took }))?.by, "OT");
});

test("last readings come newest first, and those of a newer version are left to the log", () => {
  const at = (q: string, ms: number) => ({ q, at: { ms } }) as Reading;
  const last = { ph: at("ph", 5), temperature: at("temperature", 9), turbidity: at("turbidity", 12) };
  assert.deepEqual(
    lastReadings(state({ last })).map((r) => r.q),
    ["temperature", "ph"],
  );
});

test("who worked here can take over again, who hands over cannot", () => {
  const s = state({ steps: [{ by: "RV", ended_by: "OT" }], takeovers: [{ by: "IB", from: "RV" }] });
  assert.deepEqual(knownHands(s, ["OT"], "IB"), ["OT", "RV"]);
});
