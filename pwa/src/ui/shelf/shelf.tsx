// What the studio works with: its people, liquids, batches, waters and instruments. Each device carries it.
import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { Batch, Shelf as ShelfState } from "../../core/api";
import { useCore } from "../base/core";
import { isText } from "../base/remember";
import { useMinute } from "../base/ticking";
import { useUnfinished } from "../base/unfinished";
import { Icon } from "../parts/icon";
import { Page } from "../parts/page";
import { Signed } from "../parts/who";
import { ItemForm } from "./item-form";
import {
  BATCH,
  batchRest,
  batchTexts,
  blankTexts,
  INSTRUMENT,
  instrumentTexts,
  WATER,
  waterTexts,
  type ItemField,
  type Texts,
} from "./items";
import { batchSays, batchStands, instrumentSays, waterSays } from "./says";
import { TakeOff } from "./take-off";

/** `part` is brought into sight: batches, waters, instruments, liquids, people. */
export function Shelf({ part }: { part: string }) {
  const core = useCore();
  const now = useMinute();
  const shelf = core.shelf.value;
  const [off, takeOff] = useState<{ what: string; name: string } | null>(null);
  useEffect(() => {
    if (part) document.getElementById(`shelf-${part}`)?.scrollIntoView({ block: "start" });
  }, [part]);
  const onOff = (what: string) => (name: string) => takeOff({ what, name });
  return (
    <Page title="The studio's shelf" back={{ to: "#/", say: "Now" }}>
      <Signed />
      <Batches shelf={shelf} now={now} onOff={onOff("batch")} />
      <Kind
        id="waters"
        title="Waters"
        what="water"
        add="Add a water"
        none="No water stands here yet. The plan needs one to say whether it lasts."
        nameLabel="What you call it"
        nameHelp="As a bath's liquid, such as “deionised water”."
        fields={WATER}
        items={shelf.waters.map((w) => ({ name: w.name, say: waterSays(w, now), first: waterTexts(w) }))}
        correct="Measure, correct"
        onOff={onOff("water")}
      />
      <Kind
        id="instruments"
        title="Instruments"
        what="instrument"
        add="Add an instrument"
        none="No instrument stands here yet."
        nameLabel="What you call it"
        nameHelp="As it stands on its label, such as “pH meter, bench 2”."
        fields={INSTRUMENT}
        items={shelf.instruments.map((i) => ({ name: i.name, say: instrumentSays(i, now), first: instrumentTexts(i) }))}
        correct="Calibrate, correct"
        onOff={onOff("instrument")}
      />
      <Kind
        id="liquids"
        title="Liquids"
        what="liquid"
        add="Add a liquid"
        none="No liquid stands here yet. Those that you type at the sink come here by themselves."
        nameLabel="Liquid"
        nameHelp="With its strength, as on the bottle."
        fields={[]}
        items={shelf.liquids.map((name) => ({ name, say: "", first: {} }))}
        onOff={onOff("liquid")}
      />
      <Kind
        id="people"
        title="People, by their initials"
        what="initials"
        add="Add somebody"
        none="Nobody has been named yet."
        nameLabel="Initials"
        nameHelp="At most 12 characters. They are offered at every device."
        fields={[]}
        items={shelf.initials.map((name) => ({ name, say: "", first: {} }))}
        onOff={onOff("initials")}
      />
      {off && <TakeOff key={off.what + off.name} {...off} onClose={() => takeOff(null)} />}
    </Page>
  );
}

interface ShelfItem {
  name: string;
  /** What is known of it, in a line. */
  say: string;
  first: Texts;
}

interface KindProps {
  id: string;
  title: string;
  what: string;
  add: string;
  none: string;
  nameLabel: string;
  nameHelp: string;
  fields: readonly ItemField[];
  items: readonly ShelfItem[];
  correct?: string;
  onOff: (name: string) => void;
}

function Kind(k: KindProps) {
  // The name of the item whose form is open; empty for a new one, null for none.
  const open = useUnfinished<string | null>(`shelf.${k.what}`, () => null, isText);
  const close = () => {
    open.set(null);
    open.forget();
  };
  const form = (name: string, first: Texts) => (
    <ItemForm
      key={name}
      what={k.what}
      name={name}
      nameLabel={k.nameLabel}
      nameHelp={k.nameHelp}
      fields={k.fields}
      first={first}
      onClose={close}
    />
  );
  return (
    <section class="part shelf-kind" id={`shelf-${k.id}`} aria-labelledby={`shelf-${k.id}-title`}>
      <h2 id={`shelf-${k.id}-title`}>{k.title}</h2>
      {k.items.length === 0 && <p class="quiet">{k.none}</p>}
      <ul class="shelf-list">
        {k.items.map((i) => (
          <li key={i.name} data-test={`${k.what}-item`} data-name={i.name}>
            <ItemLine name={i.name} say={i.say}>
              {k.correct && open.value !== i.name && (
                <button type="button" class="key" data-test={`${k.what}-correct`} onClick={() => open.set(i.name)}>
                  <Icon is="pencil" />
                  {k.correct}
                  <span class="unseen">: {i.name}</span>
                </button>
              )}
              <OffKey what={k.what} name={i.name} onOff={k.onOff} />
            </ItemLine>
            {open.value === i.name && form(i.name, i.first)}
          </li>
        ))}
      </ul>
      {open.value === "" ? (
        form("", blankTexts(k.fields))
      ) : (
        <button type="button" class="key" data-test={`${k.what}-add`} onClick={() => open.set("")}>
          <Icon is="more" />
          {k.add}
        </button>
      )}
    </section>
  );
}

function ItemLine({ name, say, children }: { name: string; say: ComponentChildren; children: ComponentChildren }) {
  return (
    <div class="row">
      <p>
        <b>{name}</b> {say && <small class="quiet">{say}</small>}
      </p>
      {children}
    </div>
  );
}

function OffKey({ what, name, onOff }: { what: string; name: string; onOff: (name: string) => void }) {
  return (
    <button type="button" class="key" data-test={`${what}-off`} onClick={() => onOff(name)}>
      <Icon is="strike" />
      Take off
      <span class="unseen">: {name}</span>
    </button>
  );
}

interface BatchesProps {
  shelf: ShelfState;
  now: number;
  onOff: (name: string) => void;
}

function Batches({ shelf, now, onOff }: BatchesProps) {
  const standing = shelf.batches.filter((b) => !b.gone);
  const gone = shelf.batches.filter((b) => b.gone);
  const lines = (list: readonly Batch[]) => (
    <ul class="shelf-list">
      {list.map((b) => (
        <BatchLine key={b.name} batch={b} now={now} onOff={onOff} />
      ))}
    </ul>
  );
  return (
    <section class="part shelf-kind" id="shelf-batches" aria-labelledby="shelf-batches-title">
      <h2 id="shelf-batches-title">Solutions made up</h2>
      {standing.length === 0 ? <p class="quiet">No solution stands ready.</p> : lines(standing)}
      <a class="key strong" href="#/shelf/batch" data-test="batch-make">
        <Icon is="drop" />
        Make up a solution
      </a>
      {gone.length > 0 && (
        <details class="fold">
          <summary data-test="batches-gone">Used up or poured away: {gone.length}</summary>
          {lines(gone)}
        </details>
      )}
    </section>
  );
}

function BatchLine({ batch: b, now, onOff }: { batch: Batch; now: number; onOff: (name: string) => void }) {
  const open = useUnfinished<string | null>(`shelf.batch.open.${b.name}`, () => null, isText);
  const stands = batchStands(b, now);
  return (
    <li data-test="batch-item" data-name={b.name} data-is={stands.is}>
      <ItemLine name={b.name} say={batchSays(b, now)}>
        <p class={stands.is === "expired" ? "fault" : "quiet"}>
          <Icon is={stands.is === "expired" ? "past" : stands.is === "gone" ? "cross" : "clock"} />
          <span>{stands.say}</span>
        </p>
        {open.value === null && (
          <button type="button" class="key" data-test="batch-correct" onClick={() => open.set("open")}>
            <Icon is="pencil" />
            Correct, or gone
            <span class="unseen">: {b.name}</span>
          </button>
        )}
        <OffKey what="batch" name={b.name} onOff={onOff} />
      </ItemLine>
      {open.value !== null && (
        <ItemForm
          what="batch"
          name={b.name}
          nameLabel=""
          nameHelp=""
          fields={BATCH}
          first={batchTexts(b)}
          rest={batchRest(b)}
          onClose={() => {
            open.set(null);
            open.forget();
          }}
        />
      )}
    </li>
  );
}
