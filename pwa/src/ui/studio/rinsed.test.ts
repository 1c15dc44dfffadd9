import assert from "node:assert/strict";
import { test } from "node:test";
import type { Open } from "../board";
import { rinsed } from "./rinsed";

interface Given {
  wet?: boolean;
  runs?: boolean;
  points?: number;
  name?: string;
}

function treatment(job: string, { wet = true, runs = false, points = 1, name = job }: Given = {}): Open {
  const rinse = points < 0 ? null : { points: Array.from({ length: points }, () => ({})), say: "Go on." };
  return {
    summary: { job, name },
    state: { wet_since_ms: wet ? 1 : null },
    watch: { rinse },
    running: runs ? [{}] : [],
  } as unknown as Open;
}

test("curves of wet textiles with a reading stand on the studio page, what runs first", () => {
  const open = [
    treatment("rests"),
    treatment("dry", { wet: false }),
    treatment("unread", { points: 0 }),
    treatment("unrinsed", { points: -1 }),
    treatment("runs", { runs: true, name: "" }),
  ];
  assert.deepEqual(
    rinsed(open).map((r) => [r.job, r.name]),
    [
      ["runs", "Treatment without a name"],
      ["rests", "rests"],
    ],
  );
});

test("a treatment that is not known here yet has no curve", () => {
  assert.deepEqual(rinsed([{ ...treatment("a"), state: null }]), []);
  assert.deepEqual(rinsed([{ ...treatment("a"), watch: null }]), []);
});
