import assert from "node:assert/strict";
import { test } from "node:test";
import type { State, Step } from "../../core/api";
import type { Card, Open } from "../board";
import { boardsOf } from "./boards";

const open = (wet: boolean) => ({ state: { wet_since_ms: wet ? 1 : null } as State }) as Open;
const card = (of: Open, runs: boolean): Card => ({ of, step: runs ? ({} as Step) : null, due: null });

test("what runs or is wet has one board, at the place of its first card", () => {
  const [a, b, dry, wet] = [open(true), open(true), open(false), open(true)];
  const boards = boardsOf([card(b, true), card(a, true), card(b, true), card(wet, false), card(dry, false)]);
  assert.deepEqual(
    boards.map((x) => x.of),
    [b, a, wet],
  );
  assert.equal(boards[0]?.cards.length, 2);
});
