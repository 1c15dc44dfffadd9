// One planned bath: what is asked of it, and the keys that move it, repeat it and take it out.
import { useCore } from "../base/core";
import type { Wrong } from "../base/acts";
import { useMinute } from "../base/ticking";
import { bathWord } from "../base/words";
import { Field, TextField } from "../parts/field";
import { Icon, type IconName } from "../parts/icon";
import { batchStands } from "../shelf/says";
import { announce } from "../parts/say";
import { BATHS, isWhat, KINDS, OTHERS } from "../sink/kinds";
import {
  changeRow,
  chooseLiquid,
  inTray,
  liquidChoice,
  moveRow,
  removeRow,
  repeatRow,
  rowFault,
  type PlanDraft,
  type Row,
} from "./plan-draft";

interface BathRowProps {
  /** Counted from 0. */
  place: number;
  row: Row;
  draft: PlanDraft;
  liquids: readonly string[];
  wrong: readonly Wrong[];
  onDraft: (d: PlanDraft) => void;
}

export function BathRow({ place, row, draft, liquids, wrong, onDraft }: BathRowProps) {
  const change = (c: Partial<Row>) => onDraft(changeRow(draft, row.key, c));
  const fault = (field: string) => rowFault(wrong, place, field);
  const name = `Bath ${place + 1}, ${bathWord(row.what)}`;
  const tell = (d: PlanDraft, say: string) => {
    if (d === draft) return;
    onDraft(d);
    announce(say);
  };
  const move = (by: -1 | 1) => tell(moveRow(draft, row.key, by), `${bathWord(row.what)} is now bath ${place + 1 + by}`);
  const number = (field: "litres" | "minutes" | "temp", label: string, core: string) => (
    <TextField
      label={label}
      mode="decimal"
      test={`plan-${field}-${place + 1}`}
      value={row[field]}
      onValue={(v) => change({ [field]: v })}
      fault={fault(core)}
    />
  );
  return (
    <li class="card plan-row" data-test="plan-row" aria-label={name}>
      <Field label={`Bath ${place + 1}`} fault={fault("what")}>
        {(ids) => (
          <select
            {...ids}
            data-test={`plan-what-${place + 1}`}
            value={row.what}
            onChange={(e) => change({ what: e.currentTarget.value })}
          >
            {!isWhat(row.what) && <option value={row.what}>{row.what}</option>}
            {[...BATHS, ...OTHERS].map((w) => (
              <option key={w} value={w}>
                {bathWord(w)}
              </option>
            ))}
          </select>
        )}
      </Field>
      {row.what !== "drying" && (
        <LiquidField
          place={place}
          row={row}
          liquids={liquids}
          fault={fault("liquid") || fault("batch")}
          change={change}
        />
      )}
      <div class="three">
        {row.what !== "drying" && number("litres", inTray(row.what) ? "Litres" : "Litres, if any", "litres")}
        {number("minutes", row.what === "drying" ? "Minutes, if set" : "Minutes", "target_s")}
        {row.what !== "drying" && number("temp", "°C, if set", "temp_c")}
      </div>
      <div class="row-keys" role="group" aria-label={`Move or repeat ${name}`}>
        <RowKey icon="up" say="Up" of={name} test={`plan-up-${place + 1}`} onPress={() => move(-1)} off={place === 0} />
        <RowKey
          icon="down"
          say="Down"
          of={name}
          test={`plan-down-${place + 1}`}
          onPress={() => move(1)}
          off={place === draft.rows.length - 1}
        />
        <RowKey
          icon="again"
          say="Once more"
          of={name}
          test={`plan-again-${place + 1}`}
          onPress={() => tell(repeatRow(draft, row.key), `Once more, as bath ${place + 2}`)}
        />
        <RowKey
          icon="cross"
          say="Take out"
          of={name}
          test={`plan-out-${place + 1}`}
          onPress={() => tell(removeRow(draft, row.key), `${name}: taken out`)}
        />
      </div>
    </li>
  );
}

interface RowKeyProps {
  icon: IconName;
  say: string;
  of: string;
  test: string;
  off?: boolean;
  onPress: () => void;
}

/** At the edge a key stays where it is and does nothing, so that it can be pressed on without looking. */
function RowKey({ icon, say, of, test, off, onPress }: RowKeyProps) {
  const press = (e: { currentTarget: HTMLElement }) => {
    const key = e.currentTarget;
    const rows = key.closest("ol");
    onPress();
    // A row that moves loses the focus, and one that is taken out takes it along.
    requestAnimationFrame(() => (key.isConnected ? key : rows)?.focus());
  };
  return (
    <button type="button" class="key" data-test={test} aria-disabled={off ?? false} onClick={press}>
      <Icon is={icon} />
      {say}
      <span class="unseen"> {of}</span>
    </button>
  );
}

function optionSays(is: ReturnType<typeof batchStands>["is"]): string {
  return { gone: " (gone)", expired: " (past its expiry)", good: "", open: "" }[is];
}

interface LiquidFieldProps {
  place: number;
  row: Row;
  liquids: readonly string[];
  fault: string;
  change: (c: Partial<Row>) => void;
}

function LiquidField({ place, row, liquids, fault, change }: LiquidFieldProps) {
  const core = useCore();
  const now = useMinute();
  const batches = core.shelf.value.batches.filter((b) => !b.gone || b.name === row.batch);
  const label = (isWhat(row.what) && KINDS[row.what].liquid) || "Liquid";
  const at = liquidChoice(row);
  const batch = batches.find((b) => b.name === row.batch);
  const stands = batch ? batchStands(batch, now) : null;
  const unlisted = at.startsWith("batch:") && !batches.some((b) => b.name === row.batch);
  return (
    <>
      <Field label={label} fault={row.own ? "" : fault} help={stands && `Batch ${row.batch}: ${stands.say}.`}>
        {(ids) => (
          <select
            {...ids}
            data-test={`plan-liquid-${place + 1}`}
            value={at}
            onChange={(e) => change(chooseLiquid(e.currentTarget.value))}
          >
            <option value="">not said yet</option>
            {unlisted && <option value={at}>{row.batch}</option>}
            {batches.length > 0 && (
              <optgroup label="Batches on the shelf">
                {batches.map((b) => (
                  <option key={b.entry} value={`batch:${b.name}`}>
                    {b.name}
                    {optionSays(batchStands(b, now).is)}
                  </option>
                ))}
              </optgroup>
            )}
            {liquids.length > 0 && (
              <optgroup label="Liquids and waters">
                {liquids.map((l) => (
                  <option key={l} value={`liquid:${l}`}>
                    {l}
                  </option>
                ))}
              </optgroup>
            )}
            <option value="own">Something else: type it</option>
          </select>
        )}
      </Field>
      {row.own && (
        <TextField
          label={`${label}, as on the bottle`}
          test={`plan-own-${place + 1}`}
          value={row.liquid}
          onValue={(liquid) => change({ liquid })}
          help="It goes on the studio's shelf."
          fault={fault}
        />
      )}
    </>
  );
}
