// Filling a table of a form from what was recorded: the hours of a treatment's log, the past steps of the studio.
import { useState } from "preact/hooks";
import type { Reckoning } from "../../core/api";
import { useCore } from "../base/core";
import { Icon } from "../parts/icon";
import { fillFrom, type Filled } from "./form";

interface FillInProps {
  r: Reckoning;
  job: string;
  filled: Filled;
  onFill: (f: Filled) => void;
}

type Rows = Record<string, unknown>[];

export function FillIn({ r, job, filled, onFill }: FillInProps) {
  const core = useCore();
  const [say, setSay] = useState("");
  const into = (table: string, rows: Rows, none: string) => {
    if (rows.length === 0) return setSay(none);
    const i = r.inputs.find((x) => x.name === table);
    if (!i) return;
    const most = rows.slice(0, i.max_rows);
    const { rows: made } = fillFrom(r, { [table]: most });
    onFill({ ...filled, rows: { ...filled.rows, [table]: made?.[table] ?? [] } });
    setSay(most.length < rows.length ? `${most.length} of ${rows.length} fit.` : `${rows.length} filled in.`);
  };
  const failed = () => setSay("The studio machine is out of reach: its past steps cannot be had now.");
  const log = () =>
    void core.worked(job).then((rows) => into("work", rows, "No step of this treatment has ended yet."), failed);
  const past = () =>
    void pastSteps().then((rows) => into("past", rows, "No step has ended in this studio yet."), failed);
  const which = r.name === "hours" && job ? log : r.name === "estimate" ? past : null;
  if (!which) return null;
  return (
    <div class="row">
      <button type="button" class="key" data-test="fill-in" onClick={which}>
        <Icon is="list" />
        {r.name === "hours" ? "Fill in from this treatment's log" : "Fill in the studio's past steps"}
      </button>
      {say && (
        <p class="quiet" role="status">
          {say}
        </p>
      )}
    </div>
  );
}

async function pastSteps(): Promise<Rows> {
  const got = await fetch("/api/hours");
  if (!got.ok) throw new Error(String(got.status));
  return ((await got.json()) as { past: Rows }).past;
}
