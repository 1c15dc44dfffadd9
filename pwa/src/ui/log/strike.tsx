// Striking an entry made in error: it stays in the log, marked, with who and why.
import { useState } from "preact/hooks";
import type { LogLine } from "../../core/api";
import { faultAt, otherFaults, record, type Wrong } from "../base/acts";
import { useCore } from "../base/core";
import { isText } from "../base/remember";
import { useUnfinished } from "../base/unfinished";
import { Alert, TextField } from "../parts/field";
import { Icon } from "../parts/icon";
import { Sheet } from "../parts/sheet";

interface StrikeProps {
  job: string;
  line: Pick<LogLine, "entry" | "say">;
  onClose: () => void;
}

export function StrikeSheet({ job, line, onClose }: StrikeProps) {
  const core = useCore();
  const { value: why, set: setWhy, forget } = useUnfinished<string>(`strike.${line.entry}`, () => "", isText);
  const back = () => {
    forget();
    onClose();
  };
  const [wrong, setWrong] = useState<readonly Wrong[]>([]);
  const [busy, setBusy] = useState(false);
  const strike = async () => {
    if (busy) return;
    setBusy(true);
    const found = await record(core, { job, kind: "strike", body: { of: line.entry, why } });
    setBusy(false);
    setWrong(found);
    if (found.length === 0) back();
  };
  const stray = otherFaults(wrong, ["why"]);
  return (
    <Sheet title="Strike" onClose={back}>
      <div class="sheet-body">
        <p class="quoted">{line.say}</p>
        <form
          class="form"
          onSubmit={(e) => {
            e.preventDefault();
            void strike();
          }}
        >
          <TextField
            label="Why it was an error"
            test="why"
            value={why}
            onValue={setWhy}
            fault={faultAt(wrong, "why")}
            help="It no longer counts, and stays in the log with your initials and this reason."
          />
          <Alert say={stray} />
          <button type="submit" class="key wide strong" data-test="strike-go" aria-disabled={busy}>
            <Icon is="strike" />
            Strike this entry
          </button>
        </form>
      </div>
    </Sheet>
  );
}
