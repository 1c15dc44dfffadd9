// Keeping a result with a treatment: its inputs, its figures and the program that reckoned it, as one entry.
import { useState } from "preact/hooks";
import type { Reckoning, Result } from "../../core/api";
import { otherFaults, record, type Wrong } from "../base/acts";
import { useCore } from "../base/core";
import { useOneAtATime } from "../base/once";
import { who } from "../base/remember";
import { Alert, Field, TextField } from "../parts/field";
import { Icon } from "../parts/icon";
import { WhoKey, WhoSheet } from "../parts/who";
import { keptBody } from "./kept-body";

interface KeepProps {
  r: Reckoning;
  asked: Readonly<Record<string, unknown>>;
  result: Result;
  /** The treatment that the person comes from; empty where none. */
  job: string;
}

export function Keep({ r, asked, result, job }: KeepProps) {
  const core = useCore();
  const open = core.treatments.value.filter((t) => t.open);
  const [picked, setPicked] = useState<string | null>(null);
  const chosen = picked ?? (open.some((t) => t.job === job) ? job : "");
  const [text, setText] = useState("");
  const [wrong, setWrong] = useState<readonly Wrong[]>([]);
  const [kept, setKept] = useState("");
  const [asking, setAsking] = useState(false);
  const oneAtATime = useOneAtATime();
  const said = JSON.stringify([chosen, asked]);

  const keep = () =>
    oneAtATime(async () => {
      if (!chosen) return setWrong([{ field: "", say: "Choose the treatment that it belongs to." }]);
      if (!who.value) return setAsking(true);
      const body = keptBody(r, asked, result, text);
      const found = await record(core, { job: chosen, kind: "reckoned", body }, `Kept: ${r.title}`);
      setWrong(found);
      if (found.length === 0) setKept(said);
    });

  return (
    <details class="fold" data-test="keep-with" open={job !== ""}>
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
          help="What was put in, the figures and the version of the program are kept. Working, tables and pictures are not: that version makes them again from what was put in."
        >
          {(ids) => (
            <select {...ids} data-test="keep-job" value={chosen} onChange={(e) => setPicked(e.currentTarget.value)}>
              <option value="">Choose …</option>
              {open.map((t) => (
                <option key={t.job} value={t.job}>
                  {[t.name, t.number].filter(Boolean).join(", ")}
                </option>
              ))}
            </select>
          )}
        </Field>
        <TextField label="What it is for" test="keep-text" value={text} onValue={setText} help="May be left empty." />
        <Alert say={otherFaults(wrong, [])} />
        <div class="row">
          <button type="submit" class="key strong" data-test="keep-go">
            <Icon is="tick" />
            Keep it
          </button>
          <WhoKey onAsk={() => setAsking(true)} />
        </div>
        {kept === said && (
          <p role="status" data-test="keep-done">
            Kept. <a href={`#/t/${chosen}/reckon`}>All that was reckoned for this treatment</a>
          </p>
        )}
      </form>
      {asking && <WhoSheet onClose={() => setAsking(false)} />}
    </details>
  );
}
