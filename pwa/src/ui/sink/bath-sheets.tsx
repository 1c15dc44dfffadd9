// What is asked of the next step besides numbers: its kind, its liquid, the batch, the place.
import { useState } from "preact/hooks";
import { shelveLiquid } from "../base/acts";
import { useCore } from "../base/core";
import { who } from "../base/remember";
import { bathWord, when } from "../base/words";
import { TextField } from "../parts/field";
import { Icon } from "../parts/icon";
import { Sheet } from "../parts/sheet";
import { bathOfKind, liquidsFor, placesFor } from "./bath";
import type { Bench } from "./bench";
import { KINDS, OTHERS } from "./kinds";
import { nowAt } from "../base/ticking";

export function KindSheet({ bench }: { bench: Bench }) {
  return (
    <Sheet title="Another kind of wetting" onClose={() => bench.ask(null)}>
      <div class="sheet-body">
        <div class="choices long">
          {OTHERS.map((w) => (
            <button
              type="button"
              key={w}
              class={w === bench.bath.what ? "key big chosen" : "key big"}
              aria-pressed={w === bench.bath.what}
              data-test={`what-${w}`}
              onClick={() => {
                bench.setBath(bathOfKind(bench.state, bench.watch, w));
                bench.ask(null);
              }}
            >
              {w === bench.bath.what && <Icon is="tick" />}
              {bathWord(w)}
              <small>{KINDS[w].help}</small>
            </button>
          ))}
        </div>
        <p class="quiet">Each of them starts the wet clock. Those that lie in the liquid count as immersion too.</p>
      </div>
    </Sheet>
  );
}

interface PickProps {
  bench: Bench;
  title: string;
  list: readonly string[];
  chosen: string;
  /** Marks for tests: `PICK-choice`, `PICK-new`, `PICK-keep`. */
  test: string;
  help: string;
  empty: string;
  none?: string;
  /** `fresh`: typed, not chosen from the list. */
  onPick: (v: string, fresh: boolean) => void;
}

function Pick({ bench, title, list, chosen, test, help, empty, none, onPick }: PickProps) {
  const [typed, setTyped] = useState("");
  const [fault, setFault] = useState("");
  const pick = (v: string, fresh = false) => {
    onPick(v, fresh);
    bench.ask(null);
  };
  return (
    <Sheet title={title} onClose={() => bench.ask(null)}>
      <div class="sheet-body">
        <div class="choices long">
          {list.map((l) => (
            <button
              type="button"
              key={l}
              class={l === chosen ? "key big chosen" : "key big"}
              aria-pressed={l === chosen}
              data-test={`${test}-choice`}
              onClick={() => pick(l)}
            >
              {l === chosen && <Icon is="tick" />}
              {l}
            </button>
          ))}
          {none && (
            <button type="button" class="key big" data-test={`${test}-none`} onClick={() => pick("")}>
              {none}
            </button>
          )}
        </div>
        <form
          onSubmit={(e) => {
            e.preventDefault();
            if (typed.trim() === "") return setFault(empty);
            pick(typed.trim(), true);
          }}
        >
          <TextField
            label="Something else"
            test={`${test}-new`}
            value={typed}
            onValue={setTyped}
            fault={fault}
            help={help}
          />
          <button type="submit" class="key strong" data-test={`${test}-keep`}>
            <Icon is="tick" />
            Use it
          </button>
        </form>
      </div>
    </Sheet>
  );
}

export function LiquidSheet({ bench }: { bench: Bench }) {
  const core = useCore();
  return (
    <Pick
      bench={bench}
      title="What is in the tray?"
      list={liquidsFor(core, bench.state)}
      chosen={bench.bath.liquid}
      test="liquid"
      empty="Say what is in the tray."
      help="As you would write it on the bottle. It goes on the studio's shelf."
      onPick={(liquid, fresh) => {
        bench.setBath({ ...bench.bath, liquid });
        // Choosing writes nothing: a drop on the glass can choose.
        if (fresh && who.peek()) void shelveLiquid(core, liquid);
      }}
    />
  );
}

export function WhereSheet({ bench }: { bench: Bench }) {
  return (
    <Pick
      bench={bench}
      title="Which tray or board?"
      list={placesFor(bench.state)}
      chosen={bench.bath.where}
      test="where"
      empty="Say which one, or go back."
      help="Where several stand side by side."
      none="There is only one"
      onPick={(where) => bench.setBath({ ...bench.bath, where })}
    />
  );
}

export function BatchSheet({ bench }: { bench: Bench }) {
  const core = useCore();
  const now = nowAt(core);
  const list = core.shelf.value.batches.filter((b) => !b.gone);
  const use = (batch: string) => {
    bench.setBath({ ...bench.bath, batch });
    bench.ask(null);
  };
  return (
    <Sheet title="Which batch?" onClose={() => bench.ask(null)}>
      <div class="sheet-body">
        <div class="choices long">
          {list.map((b) => (
            <button
              type="button"
              key={b.entry}
              class={b.name === bench.bath.batch ? "key big chosen" : "key big"}
              aria-pressed={b.name === bench.bath.batch}
              data-test="batch-choice"
              onClick={() => use(b.name)}
            >
              {b.name === bench.bath.batch && <Icon is="tick" />}
              {b.name}
              <small>
                made {when(b.made_ms, now)}
                {b.expires_ms !== null &&
                  (b.expires_ms <= now ? ", past its expiry" : `, until ${when(b.expires_ms, now)}`)}
              </small>
            </button>
          ))}
          <button type="button" class="key big" data-test="batch-none" onClick={() => use("")}>
            None
          </button>
        </div>
        {list.length === 0 && <p class="quiet">No batch stands on the shelf.</p>}
        <a class="key big" href="#/shelf/batch" data-test="batch-make">
          <Icon is="drop" />
          Make up a solution
        </a>
      </div>
    </Sheet>
  );
}
