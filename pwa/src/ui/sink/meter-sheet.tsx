// Which meter, and whether it brings its readings to 25 °C by itself.
import { Chips, Toggle } from "../parts/chips";
import { Icon } from "../parts/icon";
import { Sheet } from "../parts/sheet";
import type { Meter } from "./conductivity-sheet";

export function MeterSheet({ meter, onClose }: { meter: Meter; onClose: () => void }) {
  return (
    <Sheet title="The meter" onClose={onClose}>
      <div class="sheet-body">
        {meter.known.length > 0 && (
          <Chips
            label="Which meter"
            choices={[...meter.known.map((k) => [k, k] as const), ["", "another"] as const]}
            now={meter.name}
            onChoose={meter.choose}
            test="meter"
            long
          />
        )}
        <Toggle on={meter.compensates} test="compensates" onChange={meter.setCompensates}>
          It brings readings to 25 °C by itself
        </Toggle>
        <p class="quiet">
          Such a reading is kept as it is and is not corrected twice. This device remembers it for this meter. When in
          doubt, look in the meter's manual: some show the reading as it is, some correct to 20 °C.
        </p>
        <button type="button" class="key strong" data-test="meter-use" onClick={onClose}>
          <Icon is="tick" />
          Use it
        </button>
      </div>
    </Sheet>
  );
}
