// Keeping a result with a treatment: its inputs, its figures and the program that reckoned it, as one entry.
import { useState } from "preact/hooks";
import type { Reckoning, Result, Summary } from "../../core/api";
import { otherFaults, record, type Wrong } from "../base/acts";
import { useCore } from "../base/core";
import { useOneAtATime } from "../base/once";
import { who } from "../base/remember";
import { Alert, Field, TextField } from "../parts/field";
import { Icon } from "../parts/icon";
import { WhoKey, WhoSheet } from "../parts/who";
import { WholeChoice } from "./input-field";
import { keptBody } from "./kept-body";

/** What somebody has said about keeping a result. It outlives the result that it was said of. */
export interface Keeping {
  /** The treatment that was chosen; null where none was yet. */
  picked: string | null;
  text: string;
  open: boolean;
  /** What was kept last. */
  kept: string;
}

export function useKeeping(job: string) {
  const [keeping, set] = useState<Keeping>({ picked: null, text: "", open: job !== "", kept: "" });
  return { keeping, change: (to: Partial<Keeping>) => set((before) => ({ ...before, ...to })) };
}

interface KeepProps {
  r: Reckoning;
  asked: Readonly<Record<string, unknown>>;
  result: Result;
  /** The result is of what is asked, not of what was asked before. */
  current: boolean;
  /** The treatment that the person comes from; empty where none. */
  job: string;
  of: ReturnType<typeof useKeeping>;
}

export function Keep({ r, asked, result, current, job, of: { keeping, change } }: KeepProps) {
  const core = useCore();
  const open = core.treatments.value.filter((t) => t.open);
  const { picked, text } = keeping;
  const chosen = picked ?? (open.some((t) => t.job === job) ? job : "");
  const [wrong, setWrong] = useState<readonly Wrong[]>([]);
  const [asking, setAsking] = useState<"" | "to keep" | "to change">("");
  const oneAtATime = useOneAtATime();
  const said = JSON.stringify([chosen, asked, text]);

  const keep = () =>
    oneAtATime(async () => {
      if (!chosen) return setWrong([{ field: "", say: "Choose the treatment that it belongs to." }]);
      // Pressed once more, it is there already.
      if (keeping.kept === said) return;
      if (!current) return setWrong([{ field: "", say: "It is being reckoned anew: press once more." }]);
      if (!who.value) return setAsking("to keep");
      const body = keptBody(r, asked, result, text);
      const found = await record(core, { job: chosen, kind: "reckoned", body }, `Kept: ${r.title}`);
      setWrong(found);
      if (found.length === 0) change({ kept: said });
    });

  return (
    <details
      class="fold"
      data-test="keep-with"
      open={keeping.open}
      onToggle={(e) => change({ open: e.currentTarget.open })}
    >
      <summary>Keep it with a treatment</summary>
      <form
        class="form inset"
        onSubmit={(e) => {
          e.preventDefault();
          void keep();
        }}
      >
        <Field
          label="Treatment"
          help={
            <>
              <WholeChoice title={nameOf(open.find((t) => t.job === chosen))} />
              What was put in, the figures and the version of the program are kept. Working, tables and pictures are
              not: that version makes them again from what was put in.
            </>
          }
        >
          {(ids) => (
            <select
              {...ids}
              data-test="keep-job"
              value={chosen}
              onChange={(e) => change({ picked: e.currentTarget.value })}
            >
              <option value="">Choose …</option>
              {open.map((t) => (
                <option key={t.job} value={t.job}>
                  {nameOf(t)}
                </option>
              ))}
            </select>
          )}
        </Field>
        <TextField
          label="What it is for"
          test="keep-text"
          value={text}
          onValue={(text) => change({ text })}
          help="May be left empty."
        />
        <Alert say={otherFaults(wrong, [])} />
        <div class="row">
          <button type="submit" class="key strong" data-test="keep-go">
            <Icon is="tick" />
            Keep it
          </button>
          <WhoKey onAsk={() => setAsking("to change")} />
        </div>
        {keeping.kept === said && (
          <p role="status" data-test="keep-done">
            Kept. <a href={`#/t/${chosen}/reckon`}>All that was reckoned for this treatment</a>
          </p>
        )}
      </form>
      {asking && (
        <WhoSheet
          onClose={(chosen) => {
            setAsking("");
            if (chosen && asking === "to keep") void keep();
          }}
        />
      )}
    </details>
  );
}

const nameOf = (t: Pick<Summary, "name" | "number"> | undefined): string =>
  [t?.name, t?.number].filter(Boolean).join(", ");
