// While the log of a treatment is not on this device yet.
import { useEffect, useState } from "preact/hooks";
import { readFirst, type First } from "../../early/first";
import { useCore } from "../base/core";
import { useTicking } from "../base/ticking";
import { Icon } from "../parts/icon";
import { Standing } from "../parts/standing";
import { ClockFace } from "./running";

export function Fetching({ job }: { job: string }) {
  const core = useCore();
  const [say, setSay] = useState("");
  const ready = core.status.value.core === "ready";
  const paired = core.status.value.dev !== "";
  useEffect(() => {
    if (!ready) return;
    core.open(job).catch((e: unknown) => {
      const why = e instanceof Error ? e.message : "";
      setSay(`Its log is not on this device and cannot be fetched now. ${why}`);
    });
  }, [job, ready]);
  // The clock that was painted ahead of the app stays until the log says better.
  const [first] = useState(() => readFirst(`#/t/${job}`));
  const summary = core.treatments.value.find((t) => t.job === job);
  return (
    <div class="page">
      <header class="top">
        <a class="key back" href="#/">
          <Icon is="back" />
          Now
        </a>
        <h1>{summary?.name ?? "Treatment"}</h1>
        <Standing />
      </header>
      <main class="body">
        {first && <KeptClock first={first} />}
        <p class="quiet" role="status" data-test="fetching">
          {!paired
            ? "What was entered is kept on this device. It is shown once the device has been paired with a studio machine."
            : say || (first ? "As it was last seen here. Reading its log …" : "Reading its log …")}
        </p>
        {!paired && (
          <a class="key strong" href="#/pair">
            <Icon is="link" />
            Pair it
          </a>
        )}
      </main>
    </div>
  );
}

function KeptClock({ first }: { first: First }) {
  const elapsed = useTicking((now) => Math.floor((now - first.begun) / 1000) * 1000, [first]).value;
  return (
    <section class="clock" aria-label={first.say}>
      <p class="what">
        <b>{first.say}</b>
      </p>
      <ClockFace step={{ target_s: first.targetS }} elapsed={elapsed} />
    </section>
  );
}
