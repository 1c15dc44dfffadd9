import { useState } from "preact/hooks";
import { deviceNow, useCore } from "../base/core";
import { keep, recall, isText } from "../base/remember";
import { timeOfDay } from "../base/words";
import { TextField } from "../parts/field";
import { HoldButton } from "../parts/hold-button";
import { Sheet } from "../parts/sheet";
import type { Bench } from "./bench";
import { keepAndClose, ofStep } from "./keeping";
import { asideOf } from "./reading-sheet";

export function NoteSheet({ bench }: { bench: Bench }) {
  const core = useCore();
  const key = `note.${bench.state.job}`;
  const [text, setText] = useState(() => recall(key, "", isText));
  const [fault, setFault] = useState("");
  const onKeep = async () => {
    const at = timeOfDay(deviceNow.peek());
    const wrong = await keepAndClose(
      core,
      bench,
      { kind: "note", body: { text, ...ofStep(bench) } },
      `Note kept at ${at}`,
    );
    if (wrong) return setFault(wrong);
    keep(key, "");
  };
  return (
    <Sheet title="Note" aside={asideOf(bench)} onClose={() => bench.ask(null)}>
      <div class="sheet-body">
        <TextField
          label="What you see or do"
          test="note-text"
          lines={6}
          value={text}
          onValue={(v) => {
            setText(v);
            setFault("");
            keep(key, v);
          }}
          help="What you leave unfinished here stays until you come back."
          fault={fault}
        />
      </div>
      <div class="pad-keep">
        <HoldButton test="keep" label="Keep this note" icon="tick" onDone={onKeep} />
      </div>
    </Sheet>
  );
}
