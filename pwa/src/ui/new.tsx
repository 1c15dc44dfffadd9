// A new treatment needs a name, and once on each device the initials of its person.
import { useState } from "preact/hooks";
import { beAtSink, faultAt, faults, otherFaults, type Wrong } from "./base/acts";
import { useCore } from "./base/core";
import { isText, keep, recall, who } from "./base/remember";
import { Alert, TextField } from "./parts/field";
import { Icon } from "./parts/icon";
import { tidyInitials } from "./parts/initials";
import { Page } from "./parts/page";
import { go } from "./route";

export function New() {
  const core = useCore();
  const [name, setName] = useState(() => recall("new", "", isText));
  const [initials, setInitials] = useState(who.value);
  const [askWho] = useState(who.value === "");
  const [wrong, setWrong] = useState<readonly Wrong[]>([]);
  const [busy, setBusy] = useState(false);

  const open = async () => {
    if (busy) return;
    setBusy(true);
    try {
      const by = tidyInitials(initials);
      const job = await core.newTreatment(name.trim(), by);
      keep("new", "");
      if (askWho) await beAtSink(core, by);
      go(`#/t/${job}`);
    } catch (e) {
      setWrong(faults(e));
    } finally {
      setBusy(false);
    }
  };
  const stray = otherFaults(wrong, ["name", "by"]);
  return (
    <Page title="New treatment" back={{ to: "#/", say: "Now" }}>
      <form
        class="form"
        onSubmit={(e) => {
          e.preventDefault();
          void open();
        }}
      >
        <TextField
          label="What is treated"
          test="new-name"
          value={name}
          onValue={(v) => {
            setName(v);
            keep("new", v);
          }}
          help="A name that your colleagues will know it by. Number, fibre and measures can come later."
          fault={faultAt(wrong, "name")}
        />
        {askWho && (
          <TextField
            label="Your initials"
            test="new-who"
            value={initials}
            onValue={setInitials}
            help="Asked once on this device. Every entry says who made it."
            fault={faultAt(wrong, "by")}
          />
        )}
        <Alert say={stray} />
        <button type="submit" class="key wide strong" data-test="new-go" aria-disabled={busy}>
          <Icon is="textile" />
          Open this treatment
        </button>
      </form>
    </Page>
  );
}
