import assert from "node:assert/strict";
import { test } from "node:test";
import { DEV, draft, JOB, newCore, NOON, pairedDb, stamperOf } from "../testing/kit";
import { saveDraft } from "./drafts";
import { raiseEpoch } from "./meta";
import { stampDraft } from "./stamp";
import { collectUnsent, readUnsent, writeUnsent, type Unsent } from "./unsent";

test("the file of unsent entries reads back as it was written", () => {
  const u: Unsent = {
    head: { sinkside: "unsent", v: 1, dev: DEV, saved: "2026-03-04T18:00:00+01:00" },
    lines: ['{"v":1,"body":{"text":"Blotter: ½ °C – \\u2028 “none”"}}', '{"v":1}'],
  };
  const text = writeUnsent(u);
  assert.ok(text.endsWith("\n"));
  assert.deepEqual(readUnsent(text), u);
  assert.equal(writeUnsent(readUnsent(text)), text);
});

test("what is no such file is refused in a sentence", () => {
  for (const text of ["", "hello", "{}", '{"sinkside":"unsent","v":2}', "[1]"]) {
    assert.throws(() => readUnsent(text), /This is no file of unsent entries/, text);
  }
});

test("it holds what has no receipt, exactly as written, and the drafts", async () => {
  const db = await pairedDb();
  const epoch = await raiseEpoch(db);
  const core = stamperOf(await newCore());
  const lines: string[] = [];
  for (let i = 1; i <= 3; i++) {
    await saveDraft(db, draft(`tap ${i}`));
    const s = await stampDraft(db, core, `tap ${i}`, {}, epoch, () => NOON);
    lines.push(s?.entry.line ?? "");
    if (i === 1) await db.put("receipts", { job: JOB, dev: DEV, n: 1, name: s?.entry.name ?? "", sig: "" });
  }
  await saveDraft(db, draft("waiting"));
  const u = await collectUnsent(db, "2026-03-04T18:00:00+01:00");
  assert.deepEqual(u.lines, lines.slice(1));
  assert.deepEqual(
    u.head.drafts?.map((d) => d.body),
    ['{"text":"waiting"}'],
  );
});
