// Choosing the next bath: what, which liquid, how much, how long. Kept from the last one.
import { studioNow, useCore } from "../base/core";
import { faultAt } from "../base/acts";
import { bathWord, when } from "../base/words";
import { Icon, type IconName } from "../parts/icon";
import { padStep, readNumber } from "../parts/pad";
import { stepName } from "../treatment";
import { bathLike, WHATS } from "./bath";
import type { Asked, Bench } from "./bench";

export function NextBath({ bench }: { bench: Bench }) {
  const { bath, setBath, state, wrong, ask } = bench;
  const fault = (field: string) => faultAt(wrong, field);
  return (
    <section class="next" aria-labelledby="next-bath">
      <h2 id="next-bath">
        <b>Next bath</b> <LastBath bench={bench} />
      </h2>
      <div class="whats" role="group" aria-label="What is done">
        {WHATS.map((w) => (
          <button
            type="button"
            key={w}
            class={w === bath.what ? "key chosen" : "key"}
            aria-pressed={w === bath.what}
            data-test={`what-${w}`}
            onClick={() => setBath(bathLike(state, w))}
          >
            {w === bath.what && <Icon is="tick" />}
            {bathWord(w)}
          </button>
        ))}
      </div>
      <ValueKey
        test="liquid"
        icon="drop"
        label="Liquid"
        value={bath.liquid}
        fault={fault("liquid")}
        ask={() => ask("liquid")}
      />
      <Stepped
        bench={bench}
        test="litres"
        label="Litres"
        unit="L"
        value={bath.litres}
        fault={fault("litres")}
        onValue={(litres) => setBath({ ...bath, litres })}
      />
      <Stepped
        bench={bench}
        test="target"
        label="Target"
        unit="min"
        value={bath.minutes}
        fault={fault("target_s")}
        onValue={(minutes) => setBath({ ...bath, minutes })}
      />
    </section>
  );
}

function LastBath({ bench }: { bench: Bench }) {
  const now = studioNow(useCore());
  const last = bench.state.steps.filter((s) => s.ended).at(-1);
  if (bench.running.length > 0) return <span>while {bench.running.map(stepName).join(" and ")} runs</span>;
  if (!last?.ended) return <span>the first of this treatment</span>;
  return (
    <span>
      after {stepName(last)}, ended {when(last.ended.ms, now)}
    </span>
  );
}

interface ValueKeyProps {
  test: string;
  icon?: IconName;
  label: string;
  value: string;
  fault: string;
  ask: () => void;
}

function ValueKey({ test, icon, label, value, fault, ask }: ValueKeyProps) {
  return (
    <button type="button" class={fault ? "key value wrong" : "key value"} data-test={test} onClick={ask}>
      {icon && <Icon is={icon} />}
      <span>
        <small>
          {label} {fault && value}
        </small>{" "}
        {fault ? (
          <em class="fault">
            <Icon is="past" />
            {fault}
          </em>
        ) : (
          <b>{value || "not said yet"}</b>
        )}
      </span>
    </button>
  );
}

interface SteppedProps {
  bench: Bench;
  test: Asked & ("litres" | "target");
  label: string;
  unit: string;
  value: string;
  fault: string;
  onValue: (v: string) => void;
}

function Stepped({ bench, test, label, unit, value, fault, onValue }: SteppedProps) {
  const step = (by: number) => {
    if (readNumber(value) === null) return bench.ask(test);
    onValue(padStep({ text: value, fresh: true }, by).text);
  };
  return (
    <div class="stepped">
      <button
        type="button"
        class="key step"
        aria-label={`${label}: one less`}
        data-test={`${test}-less`}
        onClick={() => step(-1)}
      >
        <Icon is="less" />
      </button>
      <ValueKey
        test={test}
        label={label}
        value={value && `${value} ${unit}`}
        fault={fault}
        ask={() => bench.ask(test)}
      />
      <button
        type="button"
        class="key step"
        aria-label={`${label}: one more`}
        data-test={`${test}-more`}
        onClick={() => step(1)}
      >
        <Icon is="more" />
      </button>
    </div>
  );
}
