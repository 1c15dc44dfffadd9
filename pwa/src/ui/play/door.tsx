// The way into the recorded day, while the sample studio is there.
import { useEffect, useState } from "preact/hooks";
import { useCore } from "../base/core";
import { Icon } from "../parts/icon";
import { Page } from "../parts/page";
import { go } from "../route";
import { playing, startPlay } from "./play";

export function PlayDoor() {
  const samples = useCore().treatments.value.filter((t) => t.sample && !t.removed).length;
  if (samples === 0 || playing.value) return null;
  return (
    <a class="key wide" href="#/play" data-test="play-door">
      <Icon is="clock" />
      Watch a recorded wash day, in three minutes
    </a>
  );
}

/** `#/play`: starts it as soon as the core can tell what was recorded. */
export function PlayStart() {
  const core = useCore();
  const ready = core.status.value.core === "ready";
  const some = core.treatments.value.length > 0;
  const [say, setSay] = useState("");
  useEffect(() => {
    if (playing.peek()) return go("#/");
    if (!ready || !some) return;
    startPlay(core).then(
      (there) => there || setSay("There is no sample studio here, so no recorded day to play."),
      () => setSay("The recorded day cannot be read now. Try again in a moment."),
    );
  }, [ready, some]);
  return (
    <Page title="A recorded day" back={{ to: "#/", say: "Now" }}>
      <p role="status" data-test="play-start">
        {say || "Fetching the recorded day …"}
      </p>
    </Page>
  );
}
