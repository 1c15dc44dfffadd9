// Taking in a file of unsent entries, and removing the sample studio.
import { useState } from "preact/hooks";
import { useCore } from "../base/core";
import { who } from "../base/remember";
import { count } from "../base/words";
import { Fault, Field } from "../parts/field";
import { Icon } from "../parts/icon";
import { refusalSays, useMachine, type Imported } from "./machine";

export function ImportFile() {
  const machine = useMachine();
  const [done, setDone] = useState<Imported | null>(null);
  const [say, setSay] = useState("");
  const take = async (file: File | undefined) => {
    if (!file) return;
    setDone(null);
    setSay("Taking it in …");
    try {
      setDone(await machine.importFile(file, who.peek()));
      setSay("");
    } catch (e) {
      setSay(refusalSays(e));
    }
  };
  return (
    <section class="part" aria-labelledby="import">
      <h2 id="import">Take in a file of unsent entries</h2>
      <Field label="The file that a device saved" help="What is here already is not taken twice.">
        {(ids) => (
          <input
            {...ids}
            type="file"
            accept=".jsonl,application/jsonl,text/plain"
            data-test="import"
            onChange={(e) => void take(e.currentTarget.files?.[0])}
          />
        )}
      </Field>
      <p role="status" data-test="import-say">
        {done ? importSays(done) : say}
      </p>
      {done && done.refused.length > 0 && (
        <ul class="fault-list">
          {done.refused.map((r) => (
            <li key={r.line} class="fault">
              <Fault say={r.say} />
            </li>
          ))}
          {done.refused_more > 0 && (
            <li class="fault">
              <Fault say={`So were ${count(done.refused_more, "more line", "more lines")}.`} />
            </li>
          )}
        </ul>
      )}
    </section>
  );
}

function importSays(i: Imported): string {
  const news = `${count(i.stored, "entry", "entries")} of ${i.name} taken in, ${count(i.treatments, "treatment", "treatments")} touched`;
  const known = i.known > 0 ? `; ${i.known} were here already.` : ".";
  const drafts =
    i.drafts > 0
      ? ` The file also holds ${count(i.drafts, "tap", "taps")} that never became an entry: keep the file, and write those down again from it.`
      : "";
  return news + known + drafts;
}

export function RemoveSample() {
  const machine = useMachine();
  const samples = useCore().treatments.value.filter((t) => t.sample && !t.removed).length;
  const [sure, setSure] = useState(false);
  const [say, setSay] = useState("");
  const remove = async () => {
    try {
      const { removed, kept } = await machine.removeSample();
      const stayed =
        kept.length > 0 ? ` ${count(kept.length, "treatment", "treatments")} stayed: somebody has worked in it.` : "";
      setSay(`${count(removed.length, "sample treatment", "sample treatments")} removed.${stayed}`);
    } catch (e) {
      setSay(refusalSays(e));
    }
    setSure(false);
  };
  if (samples === 0 && !say) return null;
  return (
    <section class="part" aria-labelledby="sample">
      <h2 id="sample">The sample studio</h2>
      <p role="status" data-test="sample-say">
        {say || `${count(samples, "treatment is", "treatments are")} invented, to try things on.`}
      </p>
      {samples > 0 && !sure && (
        <button type="button" class="key" data-test="sample-remove" onClick={() => setSure(true)}>
          <Icon is="cross" />
          Remove the sample …
        </button>
      )}
      {sure && (
        <div class="sure" role="group" aria-label="Remove the sample?">
          <p>Sample treatments go for good. One that somebody has worked in stays.</p>
          <div class="row">
            <button type="button" class="key danger" data-test="sample-remove-go" onClick={() => void remove()}>
              <Icon is="cross" />
              Remove it
            </button>
            <button type="button" class="key" onClick={() => setSure(false)}>
              <Icon is="back" />
              Leave it
            </button>
          </div>
        </div>
      )}
    </section>
  );
}
