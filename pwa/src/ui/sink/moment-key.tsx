// Asking when something was measured or done. One key that says "now", and a question behind it.
import { useState } from "preact/hooks";
import { deviceNow } from "../base/core";
import { Chips } from "../parts/chips";
import { Icon } from "../parts/icon";
import { Sheet } from "../parts/sheet";
import { AGOS, agoSays, HOWS, momentSays, type Moment } from "./moment";

interface MomentKeyProps {
  moment: Moment;
  onMoment: (m: Moment) => void;
  /** The entry says how its time is known, as a reading does; an act says only when it was. */
  how?: boolean;
}

export function MomentKey({ moment, onMoment, how = false }: MomentKeyProps) {
  const [asking, setAsking] = useState(false);
  const late = moment.ago > 0 || moment.how !== "clock";
  return (
    <>
      <button
        type="button"
        class={late ? "key option chosen" : "key option"}
        data-test="moment"
        onClick={() => setAsking(true)}
      >
        <Icon is="clock" />
        <span>{momentSays(moment, deviceNow.peek())}</span>
      </button>
      {asking && <MomentSheet moment={moment} onMoment={onMoment} how={how} onClose={() => setAsking(false)} />}
    </>
  );
}

function MomentSheet({ moment, onMoment, how, onClose }: MomentKeyProps & { onClose: () => void }) {
  return (
    <Sheet title="When was it?" onClose={onClose}>
      <div class="sheet-body">
        {how && (
          <>
            <h3>How the time is known</h3>
            <Chips
              label="How the time is known"
              choices={HOWS}
              now={moment.how}
              onChoose={(how) => onMoment({ ...moment, how })}
              test="how"
            />
          </>
        )}
        <h3>How long ago</h3>
        <Chips
          label="Minutes ago"
          choices={AGOS.map((a) => [a, agoSays(a)] as const)}
          now={moment.ago}
          onChoose={(ago) => onMoment({ ...moment, ago })}
          test="ago"
          even
        />
        <p class="quiet">The record keeps when it was measured and when it was entered, and marks what came late.</p>
        <button type="button" class="key strong" data-test="moment-use" onClick={onClose}>
          <Icon is="tick" />
          Use it
        </button>
      </div>
    </Sheet>
  );
}
