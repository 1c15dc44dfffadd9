// The questions that open over the sink.
import { useState } from "preact/hooks";
import { record, shelveLiquid } from "../base/acts";
import { useCore } from "../base/core";
import { keep, recall, isText, who } from "../base/remember";
import { timeOfDay, when } from "../base/words";
import { TextField } from "../parts/field";
import { HoldButton } from "../parts/hold-button";
import { Icon } from "../parts/icon";
import { PadSheet } from "../parts/pad-sheet";
import { Sheet } from "../parts/sheet";
import { stepName } from "../treatment";
import { liquidsFor } from "./bath";
import { More } from "./more";
import { QUANTITIES, readingSays, type Quantity } from "./quantities";
import type { Asked, Bench } from "./bench";

export function SinkSheet({ bench, asked }: { bench: Bench; asked: Exclude<Asked, "who"> }) {
  switch (asked) {
    case "note":
      return <NoteSheet bench={bench} />;
    case "more":
      return <More bench={bench} />;
    case "liquid":
      return <LiquidSheet bench={bench} />;
    case "litres":
    case "target":
      return <AmountSheet bench={bench} asked={asked} />;
    case "ago":
      return <AgoSheet bench={bench} />;
    default: {
      const quantity = QUANTITIES.find((q) => q.q === asked);
      return quantity ? <ReadingSheet bench={bench} quantity={quantity} /> : null;
    }
  }
}

function ReadingSheet({ bench, quantity }: { bench: Bench; quantity: Quantity }) {
  const core = useCore();
  const last = bench.state.last[quantity.q];
  const of = bench.shown?.entry;
  const onKeep = async (_: number, value: string) => {
    if (!who.peek()) return "Say who is at the sink first: Back, then the key at the top.";
    const body = { q: quantity.q, value, unit: quantity.unit, ...(of ? { of } : {}) };
    const wrong = await record(
      core,
      { job: bench.state.job, kind: "reading", body },
      `${readingSays(quantity, value)} kept`,
    );
    if (wrong.length === 0) bench.ask(null);
    return wrong.map((w) => w.say).join(" ");
  };
  return (
    <PadSheet
      title={quantity.title}
      aside={bench.shown ? stepName(bench.shown) : "between baths"}
      unit={quantity.sign}
      start={last?.value ?? ""}
      help={
        last
          ? `last was ${last.value}, taken ${when(last.at.ms, Date.now())} by ${last.by}`
          : "the first of this treatment"
      }
      steps={quantity.steps}
      keep="Keep this reading"
      held
      onKeep={onKeep}
      onClose={() => bench.ask(null)}
    />
  );
}

function AmountSheet({ bench, asked }: { bench: Bench; asked: "litres" | "target" }) {
  const litres = asked === "litres";
  return (
    <PadSheet
      title={litres ? "Litres in the tray" : "Target time"}
      unit={litres ? "L" : "min"}
      start={litres ? bench.bath.litres : bench.bath.minutes}
      help={litres ? "for the next bath" : "The clock counts down to it, and goes on past it."}
      steps={[-5, -1, 1, 5]}
      keep="Use it"
      held={false}
      onKeep={(_, text) => {
        bench.setBath({ ...bench.bath, ...(litres ? { litres: text } : { minutes: text }) });
        bench.ask(null);
        return "";
      }}
      onClose={() => bench.ask(null)}
    />
  );
}

function AgoSheet({ bench }: { bench: Bench }) {
  const ended = bench.shown !== null;
  return (
    <PadSheet
      title={ended ? "It ended earlier" : "It began earlier"}
      unit="minutes ago"
      start={bench.earlier === null ? "0" : String(Math.round((Date.now() - bench.earlier) / 60000))}
      help="0 stands for now. The record will show that it was entered later."
      steps={[-5, -1, 1, 5]}
      keep="Use this time"
      held={false}
      onKeep={(n) => {
        bench.setEarlier(n > 0 ? Date.now() - Math.round(n * 60000) : null);
        bench.ask(null);
        return "";
      }}
      onClose={() => bench.ask(null)}
    />
  );
}

function LiquidSheet({ bench }: { bench: Bench }) {
  const core = useCore();
  const [typed, setTyped] = useState("");
  const [fault, setFault] = useState("");
  const choose = (liquid: string) => {
    const name = liquid.trim();
    if (!name) return setFault("Say what is in the tray.");
    bench.setBath({ ...bench.bath, liquid: name });
    if (who.peek()) void shelveLiquid(core, name);
    bench.ask(null);
  };
  return (
    <Sheet title="What is in the tray?" onClose={() => bench.ask(null)}>
      <div class="sheet-body">
        <div class="choices long">
          {liquidsFor(core, bench.state).map((l) => (
            <button
              type="button"
              key={l}
              class={l === bench.bath.liquid ? "key big chosen" : "key big"}
              aria-pressed={l === bench.bath.liquid}
              data-test="liquid-choice"
              onClick={() => choose(l)}
            >
              {l === bench.bath.liquid && <Icon is="tick" />}
              {l}
            </button>
          ))}
        </div>
        <form
          onSubmit={(e) => {
            e.preventDefault();
            choose(typed);
          }}
        >
          <TextField
            label="Something else"
            test="liquid-new"
            value={typed}
            onValue={setTyped}
            fault={fault}
            help="As you would write it on the bottle. It goes on the studio's shelf."
          />
          <button type="submit" class="key strong" data-test="liquid-keep">
            <Icon is="tick" />
            Use it
          </button>
        </form>
      </div>
    </Sheet>
  );
}

function NoteSheet({ bench }: { bench: Bench }) {
  const core = useCore();
  const key = `note.${bench.state.job}`;
  const [text, setText] = useState(() => recall(key, "", isText));
  const [fault, setFault] = useState("");
  const of = bench.shown?.entry;
  const onKeep = async () => {
    if (!who.peek()) return setFault("Say who is at the sink first: Back, then the key at the top.");
    const body = { text, ...(of ? { of } : {}) };
    const wrong = await record(
      core,
      { job: bench.state.job, kind: "note", body },
      `Note kept at ${timeOfDay(Date.now())}`,
    );
    if (wrong.length > 0) return setFault(wrong.map((w) => w.say).join(" "));
    keep(key, "");
    bench.ask(null);
  };
  return (
    <Sheet title="Note" aside={bench.shown ? stepName(bench.shown) : "between baths"} onClose={() => bench.ask(null)}>
      <div class="sheet-body">
        <TextField
          label="What you see or do"
          test="note-text"
          lines={6}
          value={text}
          onValue={(v) => {
            setText(v);
            setFault("");
            keep(key, v);
          }}
          help="What you leave unfinished here stays until you come back."
          fault={fault}
        />
      </div>
      <div class="pad-keep">
        <HoldButton test="keep" label="Keep this note" icon="tick" onDone={onKeep} />
      </div>
    </Sheet>
  );
}
