// The fields of the next step: a key that shows a value, and one with a step less and more beside it.
import { Icon, type IconName } from "../parts/icon";
import { padStep, readNumber } from "../parts/pad";
import type { Asked, Bench } from "./bench";

interface ValueKeyProps {
  test: string;
  icon?: IconName;
  label: string;
  value: string;
  /** What stands there while it is empty. */
  none?: string;
  fault: string;
  ask: () => void;
}

export function ValueKey({ test, icon, label, value, none = "not said yet", fault, ask }: ValueKeyProps) {
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
          <b>{value || none}</b>
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

export function Stepped({ bench, test, label, unit, value, fault, onValue }: SteppedProps) {
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
