// What is asked when a drying begins: how it lies, and how the air moves. All of it may stay as it is.
import { faultAt } from "../base/acts";
import { Chips } from "../parts/chips";
import type { Bench } from "./bench";
import { ValueKey } from "./next-fields";

export function DryingFields({ bench }: { bench: Bench }) {
  const { bath, setBath, wrong, ask } = bench;
  return (
    <>
      <Chips
        label="Which face is up"
        choices={[
          ["up", "Face up"],
          ["down", "Face down"],
        ]}
        now={bath.face}
        onChoose={(face) => setBath({ ...bath, face })}
        test="face"
      />
      <Chips
        label="How it is held"
        choices={[
          ["weights", "Weights"],
          ["pins", "Pins"],
          ["none", "Nothing"],
        ]}
        now={bath.held}
        onChoose={(held) => setBath({ ...bath, held })}
        test="held"
      />
      <Chips
        label="How the air moves"
        choices={[
          ["still", "Still air"],
          ["gentle", "Gentle air"],
          ["fan", "Fan"],
        ]}
        now={bath.airflow}
        onChoose={(airflow) => setBath({ ...bath, airflow })}
        test="airflow"
      />
      <Chips
        label="How many faces are open to the air"
        choices={[
          ["1", "One face open"],
          ["2", "Both faces open"],
        ]}
        now={bath.sides}
        onChoose={(sides) => setBath({ ...bath, sides })}
        test="sides"
      />
      <div class="trio pair">
        <ValueKey
          test="air"
          label="Air speed, m/s"
          value={bath.air}
          none="not measured"
          fault={faultAt(wrong, "air_m_s")}
          ask={() => ask("air")}
        />
        <ValueKey test="where" label="Place" value={bath.where} none="one board" fault="" ask={() => ask("where")} />
      </div>
    </>
  );
}
