// The log: every entry as a sentence, nothing left out. Only what is near the window is drawn, so
// that thousands of entries scroll as easily as ten.
import { useEffect, useState } from "preact/hooks";
import { useCore } from "../base/core";
import { count } from "../base/words";
import { Icon } from "../parts/icon";
import { Page } from "../parts/page";
import { nameOf } from "../treatment";
import { AmendSheet } from "./amend";
import { Chunk, CHUNK } from "./chunk";
import type { Correct } from "./line";
import { StrikeSheet } from "./strike";

export function Log({ job }: { job: string }) {
  const core = useCore();
  const state = core.dossier(job).value;
  const [latestFirst, setLatestFirst] = useState(true);
  const [correct, setCorrect] = useState<Correct | null>(null);
  const total = state?.entries ?? 0;
  useFetched(job, state === null);

  const chunks = Array.from({ length: Math.ceil(total / CHUNK) }, (_, i) => i);
  if (latestFirst) chunks.reverse();
  return (
    <Page title={state ? `Log of ${nameOf(state)}` : "Log"} back={{ to: `#/t/${job}`, say: "Sink" }}>
      <div class="row">
        <p class="quiet" data-test="log-total">
          {count(total, "entry", "entries")}. Press one to see more of it, to amend it or to strike it.
        </p>
        <button type="button" class="key" data-test="log-order" onClick={() => setLatestFirst(!latestFirst)}>
          <Icon is="choose" />
          {latestFirst ? "Oldest first" : "Latest first"}
        </button>
      </div>
      <ol class="log" data-test="log-list">
        {chunks.map((i) => (
          <Chunk
            key={i}
            job={job}
            from={i * CHUNK}
            size={Math.min(CHUNK, total - i * CHUNK)}
            version={total}
            latestFirst={latestFirst}
            onCorrect={setCorrect}
          />
        ))}
      </ol>
      {correct?.how === "amend" && <AmendSheet job={job} line={correct.line} onClose={() => setCorrect(null)} />}
      {correct?.how === "strike" && <StrikeSheet job={job} line={correct.line} onClose={() => setCorrect(null)} />}
    </Page>
  );
}

/** Asks for a log that this device does not carry. */
export function useFetched(job: string, missing: boolean): void {
  const core = useCore();
  const ready = core.status.value.core === "ready";
  useEffect(() => {
    if (missing && ready) core.open(job).catch(() => undefined);
  }, [job, missing, ready]);
}
