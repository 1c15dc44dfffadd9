// The fields of a solution that is made up: the product, then the bath that is wanted.
import { useCore } from "../base/core";
import { Chips } from "../parts/chips";
import { Field, TextField } from "../parts/field";
import { CHARGES } from "./items";
import type { Making } from "./solution-asked";

interface BatchFieldsProps {
  m: Making;
  change: (c: Partial<Making>) => void;
  /** What the core says of an input of the reckoning. */
  fault: (input: string) => string;
}

export function BatchFields({ m, change, fault }: BatchFieldsProps) {
  const waters = useCore().shelf.value.waters;
  const unlisted = m.water !== "" && !waters.some((w) => w.name === m.water);
  return (
    <form class="form" aria-label="The solution" onSubmit={(e) => e.preventDefault()}>
      <TextField
        label="Product, by its chemical type"
        test="batch-product"
        value={m.product}
        onValue={(product) => change({ product })}
        help="Such as “sodium dodecyl sulfate”: what it is, not what it is sold as."
      />
      <Field label="Its charge">
        {(ids) => (
          <select
            {...ids}
            data-test="batch-charge"
            value={m.charge}
            onChange={(e) => change({ charge: e.currentTarget.value })}
          >
            {CHARGES.map(([v, say]) => (
              <option key={v} value={v}>
                {say}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Chips
        label="The product is"
        test="batch-form"
        now={m.form}
        choices={[
          ["paste", "a paste"],
          ["liquid", "a liquid"],
          ["powder", "a powder"],
        ]}
        onChoose={(form) => change({ form })}
      />
      <TextField
        label="Active content, % of its mass"
        mode="decimal"
        test="batch-active"
        value={m.active}
        onValue={(active) => change({ active })}
        help="From the label or the maker. 100 for a pure powder."
        fault={m.active.trim() ? fault("active") : ""}
      />
      {m.form !== "powder" && (
        <TextField
          label="Density, g/mL (may be left empty)"
          mode="decimal"
          test="batch-density"
          value={m.density}
          onValue={(density) => change({ density })}
          help="Only to measure it by volume."
          fault={fault("density")}
        />
      )}
      <TextField
        label="CMC, g/L (empty: not known)"
        mode="decimal"
        test="batch-cmc"
        value={m.cmc}
        onValue={(cmc) => change({ cmc })}
        help="Critical micelle concentration. Not knowing it is no fault; it is shown as not known."
        fault={fault("cmc")}
      />
      <TextField label="Lot (may be left empty)" test="batch-lot" value={m.lot} onValue={(lot) => change({ lot })} />
      <TextField
        label="Strength wanted, of the active substance"
        mode="decimal"
        test="batch-target"
        value={m.target}
        onValue={(target) => change({ target })}
        fault={m.target.trim() ? fault("target") : ""}
      />
      <Chips
        label="Unit of the strength"
        test="batch-unit"
        now={m.unit}
        choices={[
          ["g/L", "g/L"],
          ["% w/v", "% w/v"],
          ["× CMC", "× CMC"],
        ]}
        onChoose={(unit) => change({ unit })}
      />
      <TextField
        label="Litres of finished solution"
        mode="decimal"
        test="batch-litres"
        value={m.litres}
        onValue={(litres) => change({ litres })}
        fault={m.litres.trim() ? fault("litres") : ""}
      />
      <Field label="Water" help={waters.length === 0 ? "No water stands on the shelf yet; it can be put there." : ""}>
        {(ids) => (
          <select
            {...ids}
            data-test="batch-water"
            value={m.water}
            onChange={(e) => change({ water: e.currentTarget.value })}
          >
            <option value="">not said</option>
            {unlisted && <option value={m.water}>{m.water}</option>}
            {waters.map((w) => (
              <option key={w.entry} value={w.name}>
                {w.name}
              </option>
            ))}
          </select>
        )}
      </Field>
    </form>
  );
}
