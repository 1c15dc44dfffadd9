// Making up a solution: what to weigh out as one types, with the usual mistake beside it, and then that it is made.
import { useEffect, useRef, useState } from "preact/hooks";
import type { Batch, Result, Value } from "../../core/api";
import { SHELF } from "../../core/ids";
import { faultAt, otherFaults, record, shelveLiquid, type Wrong } from "../base/acts";
import { deviceNow, useCore } from "../base/core";
import { useOneAtATime } from "../base/once";
import { who } from "../base/remember";
import { useMinute } from "../base/ticking";
import { useUnfinished } from "../base/unfinished";
import { when } from "../base/words";
import { Alert, TextField } from "../parts/field";
import { Icon } from "../parts/icon";
import { Page } from "../parts/page";
import { announce } from "../parts/say";
import { Signed } from "../parts/who";
import { Answer, Cautions } from "../reckon/answer";
import { useReckoned } from "../reckon/use-reckoned";
import { BatchFields } from "./batch-fields";
import { batchBody, BLANK, isMaking, labelOf, lacks, madeMs, solutionAsked, type Making } from "./solution-asked";

export function MakeBatch() {
  const making = useUnfinished<Making>("making", () => BLANK, isMaking);
  const m = making.value;
  const missing = lacks(m);
  const { result, problems } = useReckoned("solution", missing.length > 0 ? null : solutionAsked(m));
  const [made, setMade] = useState("");
  const change = (c: Partial<Making>) => making.set({ ...m, ...c });
  const done = (name: string) => {
    making.set(BLANK);
    making.forget();
    setMade(name);
  };
  const shown = ["litres", "target", "active", "density", "cmc"];
  const stray = problems.filter((p) => !shown.includes(p.field)).map((p) => p.say);
  return (
    <Page title="Make up a solution" back={{ to: "#/shelf", say: "Shelf" }} wide>
      <Signed />
      {made && <Made name={made} />}
      <div class="reckon making">
        <BatchFields m={m} change={change} fault={(f) => problems.find((p) => p.field === f)?.say ?? ""} />
        <section class="answer" aria-label="What to weigh out" aria-live="polite" data-test="batch-answer">
          {result ? (
            <>
              <Cautions title="For the people at work" list={result.cautions.filter((c) => c.about === "people")} />
              <RightAndWrong result={result} />
              <Answer result={theRest(result)} />
              <IsMade m={m} change={change} result={result} onDone={done} />
            </>
          ) : (
            <p class="quiet">
              {missing.length > 0
                ? `The answer comes as soon as these are filled in: ${missing.join(", ")}.`
                : stray.join(" ") ||
                  (problems.length > 0 ? "The answer comes as soon as what is marked is put right." : "Reckoning …")}
            </p>
          )}
        </section>
      </div>
    </Page>
  );
}

const MISTAKES = ["mistaken_mass", "mistaken_volume", "mistaken_strength"];

/** The product to weigh or, where only that is known, to measure out. */
function rightOf(r: Result): Value | undefined {
  return r.values.find((v) => v.name === "product_mass") ?? r.values.find((v) => v.name === "product_volume");
}

/** What stands below what concerns people and the two figures side by side. */
function theRest(r: Result): Result {
  const right = rightOf(r);
  const values = r.values.filter((v) => v !== right && !MISTAKES.includes(v.name));
  return { ...r, values, cautions: r.cautions.filter((c) => c.about !== "people") };
}

/** The right figure and the one that people take by mistake, side by side. */
function RightAndWrong({ result }: { result: Result }) {
  const of = (name: string) => result.values.find((v) => v.name === name);
  const right = rightOf(result);
  const wrong = of("mistaken_mass") ?? of("mistaken_volume");
  const weak = of("mistaken_strength");
  if (!right) return null;
  return (
    <div class="right-wrong">
      <p class="right" data-test="batch-right">
        <Icon is="tick" />
        <span>
          <small>{right.title}</small> <b>{right.shown}</b>
        </span>
      </p>
      {wrong && (
        <p class="mistake" data-test="batch-mistake">
          <Icon is="cross" />
          <span>
            <small>Not this: the product taken for pure</small> <s>{wrong.shown}</s>
            {weak && <small>It would make a bath of {weak.shown}.</small>}
          </span>
        </p>
      )}
    </div>
  );
}

interface IsMadeProps {
  m: Making;
  change: (c: Partial<Making>) => void;
  result: Result;
  onDone: (name: string) => void;
}

/** "It is made up": what the label says, when, by whom and until when. */
function IsMade({ m, change, result, onDone }: IsMadeProps) {
  const core = useCore();
  const now = useMinute();
  const [wrong, setWrong] = useState<readonly Wrong[]>([]);
  const oneAtATime = useOneAtATime();
  const label = labelOf(m);
  const before = core.shelf.value.batches.find((b) => b.name === label && !b.gone);
  const keep = () =>
    oneAtATime(async () => {
      const made = madeMs(m, deviceNow.peek());
      if (made === null) return setWrong([{ field: "made", say: "Give the day and the time." }]);
      const found = await record(core, { job: SHELF, kind: "item", body: batchBody(m, made, result) });
      setWrong(found);
      if (found.length > 0) return;
      await shelveLiquid(core, label);
      announce(`${label}: kept on the shelf`);
      onDone(label);
    });
  const fault = (f: string) => faultAt(wrong, f);
  return (
    <form
      class="form inset"
      aria-label="It is made up"
      onSubmit={(e) => {
        e.preventDefault();
        void keep();
      }}
    >
      <h2>When it is made up</h2>
      <TextField
        label="On its label, and as a bath's liquid"
        test="batch-name"
        lines={2}
        value={m.name || label}
        onValue={(name) => change({ name: name.replace(/\s+/g, " ") })}
        help="Tests of colours are held against this name, so let the same strength have the same name."
        fault={fault("name")}
      />
      {before && <Before batch={before} now={now} />}
      <TextField
        label="Made at"
        type="datetime-local"
        test="batch-made"
        value={m.made}
        onValue={(made) => change({ made })}
        help="Leave it empty for now."
        fault={fault("made")}
      />
      <div class="two">
        <TextField
          label="Good for, days"
          mode="decimal"
          test="batch-days"
          value={m.days}
          onValue={(days) => change({ days })}
          fault={fault("expires")}
        />
        <TextField
          label="pH, if measured"
          mode="decimal"
          test="batch-ph"
          value={m.ph}
          onValue={(ph) => change({ ph })}
          fault={fault("ph")}
        />
      </div>
      <p class="quiet">Made by {who.value || "nobody yet: say at the top who you are"}.</p>
      <Alert say={otherFaults(wrong, ["name", "made", "expires", "ph"])} />
      <button type="submit" class="key wide strong" data-test="batch-keep">
        <Icon is="tick" />
        It is made up
      </button>
    </form>
  );
}

function Before({ batch, now }: { batch: Batch; now: number }) {
  return (
    <p class="quiet" role="status">
      A batch of this name was made {when(batch.made_ms, now)}. The new one takes its place on the shelf; the log keeps
      both.
    </p>
  );
}

function Made({ name }: { name: string }) {
  const at = useRef<HTMLDivElement>(null);
  useEffect(() => at.current?.scrollIntoView({ block: "center" }), [name]);
  return (
    <div class="notice done" role="status" ref={at} data-test="batch-done">
      <Icon is="tick" />
      <p>
        <b>{name}</b> stands on the shelf. Write its name, the day and your initials on the bottle.
      </p>
      <a class="key" href="#/shelf" data-test="batch-to-shelf">
        To the shelf
      </a>
    </div>
  );
}
