// Who is at the sink. One press changes between the people who have used this device.
import { useState } from "preact/hooks";
import type { Core } from "../../core/api";
import { beAtSink } from "../base/acts";
import { useCore } from "../base/core";
import { who, whoBefore } from "../base/remember";
import { TextField } from "./field";
import { Icon } from "./icon";
import { initialsFault, tidyInitials } from "./initials";
import { Sheet } from "./sheet";

export function WhoKey({ onAsk }: { onAsk: () => void }) {
  return (
    <button type="button" class="key who" data-test="who" aria-label={whoSays()} onClick={onAsk}>
      <Icon is="person" />
      <b>{who.value || "who?"}</b>
    </button>
  );
}

function whoSays(): string {
  return who.value ? `${who.value} is at the sink. Change` : "Say who is at the sink";
}

/** People to choose from: those of this device, the latest first, then the studio's. */
export function knownInitials(core: Core): string[] {
  return [...new Set([...whoBefore.value, ...core.shelf.value.initials])];
}

interface WhoSheetProps {
  /** The treatment at this sink, which can be taken over. */
  job?: string;
  /** With the initials that were chosen; without where nobody was. */
  onClose: (chosen?: string) => void;
}

export function WhoSheet({ job, onClose }: WhoSheetProps) {
  const core = useCore();
  const [typed, setTyped] = useState("");
  const [fault, setFault] = useState("");
  const known = knownInitials(core);
  const choose = (initials: string) => {
    const wrong = initialsFault(initials);
    if (wrong) return setFault(wrong);
    void beAtSink(core, initials);
    onClose(initials);
  };
  return (
    <Sheet title="Who is at the sink?" onClose={() => onClose()}>
      <div class="sheet-body">
        <div class="choices">
          {known.map((w) => (
            <button
              type="button"
              key={w}
              class={w === who.value ? "key big chosen" : "key big"}
              data-test={`who-${w}`}
              aria-pressed={w === who.value}
              onClick={() => choose(w)}
            >
              {w === who.value && <Icon is="tick" />}
              {w}
            </button>
          ))}
        </div>
        {job && (
          <a class="key big" href={`#/t/${job}/hand`} data-test="who-hand">
            <Icon is="look" />
            Taking over? See how it stands first
          </a>
        )}
        <form
          onSubmit={(e) => {
            e.preventDefault();
            choose(tidyInitials(typed));
          }}
        >
          <TextField
            label="Somebody else: initials"
            test="who-new"
            value={typed}
            onValue={(v) => {
              setTyped(v);
              setFault("");
            }}
            fault={fault}
            help="Kept on this device, and on the studio's shelf for the others."
          />
          <button type="submit" class="key strong" data-test="who-keep">
            <Icon is="tick" />
            That is me
          </button>
        </form>
      </div>
    </Sheet>
  );
}

/** Who signs what is entered on this page. */
export function Signed() {
  const [asking, setAsking] = useState(false);
  return (
    <div class="row">
      <p class="quiet">Entries made here are signed {who.value || "by nobody yet"}.</p>
      <WhoKey onAsk={() => setAsking(true)} />
      {asking && <WhoSheet onClose={() => setAsking(false)} />}
    </div>
  );
}
