// While the log of a treatment is not on this device yet.
import { useEffect, useState } from "preact/hooks";
import { useCore } from "../base/core";
import { Icon } from "../parts/icon";
import { Standing } from "../parts/standing";

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
        <p class="quiet" role="status" data-test="fetching">
          {!paired
            ? "What was entered is kept on this device. It is shown once the device has been paired with a studio machine."
            : say || "Reading its log …"}
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
