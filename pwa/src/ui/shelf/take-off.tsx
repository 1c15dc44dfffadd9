// Taking something off the shelf: every entry that put it there is struck, with one reason.
import { useState } from "preact/hooks";
import { SHELF } from "../../core/ids";
import { faultAt, faults, otherFaults, record, type Wrong } from "../base/acts";
import { useCore } from "../base/core";
import { useOneAtATime } from "../base/once";
import { isText } from "../base/remember";
import { useUnfinished } from "../base/unfinished";
import { Alert, TextField } from "../parts/field";
import { Icon } from "../parts/icon";
import { announce } from "../parts/say";
import { Sheet } from "../parts/sheet";
import { entriesOf } from "./entries";

interface TakeOffProps {
  what: string;
  name: string;
  onClose: () => void;
}

export function TakeOff({ what, name, onClose }: TakeOffProps) {
  const core = useCore();
  const { value: why, set: setWhy, forget } = useUnfinished<string>(`off.${what}.${name}`, () => "", isText);
  const [wrong, setWrong] = useState<readonly Wrong[]>([]);
  const oneAtATime = useOneAtATime();
  const back = () => {
    forget();
    onClose();
  };
  const strike = () =>
    oneAtATime(async () => {
      const found = await strikeAll(why);
      setWrong(found);
      if (found.length > 0) return;
      announce(`${name} is off the shelf`);
      back();
    });
  const strikeAll = async (why: string): Promise<Wrong[]> => {
    try {
      const entries = await entriesOf(core, what, name);
      if (entries.length === 0)
        return [{ field: "", say: "Its entry was not found on this device yet. Try it again in a moment." }];
      for (const of of entries) {
        const found = await record(core, { job: SHELF, kind: "strike", body: { of, why } });
        if (found.length > 0) return found;
      }
      return [];
    } catch (e) {
      return faults(e);
    }
  };
  return (
    <Sheet title="Take it off the shelf" onClose={back}>
      <div class="sheet-body">
        <p class="quoted">{name}</p>
        <form
          class="form"
          onSubmit={(e) => {
            e.preventDefault();
            void strike();
          }}
        >
          <TextField
            label="Why"
            test="why"
            value={why}
            onValue={setWhy}
            fault={faultAt(wrong, "why")}
            help="It is no longer offered. What was recorded with it stays as it is, and the shelf's log keeps it with this reason."
          />
          <Alert say={otherFaults(wrong, ["why"])} />
          <button type="submit" class="key wide strong" data-test="off-go">
            <Icon is="strike" />
            Take it off
          </button>
        </form>
      </div>
    </Sheet>
  );
}
