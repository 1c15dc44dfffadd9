import assert from "node:assert/strict";
import { test } from "node:test";
import type { Status } from "../../core/api";
import { unknownStatus } from "../../core/standing";
import { unsentSays, waitingSays } from "./waiting";

const is = (part: Partial<Status>): Status => ({ ...unknownStatus, ...part });
const ready: Partial<Status> = { core: "ready", dev: "01J", paired: true };

const rows: [name: string, status: Status, short: RegExp, long: RegExp][] = [
  ["before it has looked", is({}), /^looking at what is kept/, /being looked at/],
  ["nothing waits", is(ready), /^all at the studio machine$/, /^Nothing: everything/],
  [
    "entries wait",
    is({ ...ready, unsent: 2 }),
    /^2 entries not/,
    /^2 entries wait .* as soon as the studio machine answers\.$/,
  ],
  [
    "never paired",
    is({ core: "ready", unsent: 1, drafts: 1 }),
    /^1 entry not/,
    /once it has been paired\. 1 tap is kept here/,
  ],
  [
    "shut out",
    is({ ...ready, paired: false, revoked: true, unsent: 1 }),
    /^1 entry not/,
    /shut out\. Save them to a file/,
  ],
];

for (const [name, status, short, long] of rows) {
  test(`what waits: ${name}`, () => {
    assert.match(unsentSays(status), short);
    assert.match(waitingSays(status), long);
  });
}
