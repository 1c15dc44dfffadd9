// Every treatment that the studio knows, open and closed, found by name or number.
import { useState } from "preact/hooks";
import type { Summary } from "../core/api";
import { useCore } from "./base/core";
import { useMinute } from "./base/ticking";
import { count, when } from "./base/words";
import { TextField } from "./parts/field";
import { Page } from "./parts/page";

/** More are found by typing, not by scrolling. */
const MOST = 200;

export function All() {
  const core = useCore();
  const [sought, setSought] = useState("");
  const all = core.treatments.value.filter((t) => !t.removed).sort(latestFirst);
  const found = all.filter((t) => matches(t, sought));
  return (
    <Page title="All treatments" back={{ to: "#/", say: "Now" }}>
      <TextField
        label="Find by name or number"
        type="search"
        test="find"
        value={sought}
        onValue={setSought}
        help={sought ? `${count(found.length, "treatment", "treatments")} of ${all.length}` : `${all.length} in all`}
      />
      <ul class="cards tight">
        {found.slice(0, MOST).map((t) => (
          <Line key={t.job} of={t} />
        ))}
      </ul>
      {found.length > MOST && <p class="quiet">The first {MOST} are shown. Type more of the name to see the others.</p>}
    </Page>
  );
}

function Line({ of }: { of: Summary }) {
  const now = useMinute();
  return (
    <li>
      <a class="card rests" href={`#/t/${of.job}`} data-test="treatment">
        <span class="of">
          <b>{of.name || "Treatment without a name"}</b>
          {of.number && ` · ${of.number}`}
        </span>
        <span class="then">
          {of.open ? "open" : "closed"}, begun {when(of.opened_ms, now)}
          {of.sample && " · sample"}
        </span>
      </a>
    </li>
  );
}

function latestFirst(a: Summary, b: Summary): number {
  return Number(b.open) - Number(a.open) || b.last_day - a.last_day || b.opened_ms - a.opened_ms;
}

export function matches(t: Summary, sought: string): boolean {
  const text = `${t.name} ${t.number}`.toLocaleLowerCase();
  return sought
    .toLocaleLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word));
}
