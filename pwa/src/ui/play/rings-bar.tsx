// What rings in a recorded day, below its bar: sounded on this device and silenced here alone. Nothing of it is recorded.
import { effect, untracked } from "@preact/signals";
import { useEffect, useState } from "preact/hooks";
import type { Core } from "../../core/api";
import { who } from "../base/remember";
import { timeOfDay } from "../base/words";
import { Icon } from "../parts/icon";
import { AGAIN_MS, figureOf, gravest } from "../ring/figures";
import { ringCore, ringing } from "../ring/lookout";
import { NOTHING, plan, type Ring } from "../ring/plan";
import { hush, sound, speak } from "../ring/sound";
import { settled, type Play } from "./play";
import { isFresh, soundNow, type Times } from "./rings";

export function PlayedRings({ of }: { of: Play }) {
  const [rings, setRings] = useState<readonly Ring[]>([]);
  const [silent, setSilent] = useState(false);
  useEffect(() => ringPlayed(of, setRings, setSilent), [of]);
  if (rings.length === 0) return null;
  return (
    <section class="rings shown played-rings" aria-label="Ringing in the recorded day" data-test="play-rings">
      <div role="status">
        {rings.map((r) => (
          <p class="ring-line" key={r.key} data-test="play-ring" data-cue={r.cue.id}>
            <Icon is="bell" />
            <span>
              <b>{r.cue.say}</b>{" "}
              <small>
                {r.name}, since {timeOfDay(r.cue.at_ms)} of the recorded day
              </small>
            </span>
          </p>
        ))}
        {silent && <p class="ring-sound">Shown without sound: here a bath runs in earnest.</p>}
      </div>
      <button type="button" class="key strong" data-test="play-heard" onClick={() => have(of, rings)}>
        <Icon is="tick" />I have it
      </button>
    </section>
  );
}

/** Follows the played day until the returned function is called. */
function ringPlayed(of: Play, show: (r: readonly Ring[]) => void, silence: (s: boolean) => void): () => void {
  let memory = NOTHING;
  let times: Times = new Map();
  let soundedAt = -Infinity;
  const end = effect(() => {
    const now = settled.value;
    const earnest = ringing.value.length > 0 || realRuns(ringCore());
    const watched = of.core.treatments.value.map(({ job, name }) => ({
      job,
      name,
      cues: of.core.watch(job).value?.cues ?? null,
    }));
    const p = plan(watched, now, memory);
    memory = p.memory;
    untracked(() => {
      show(p.ring);
      silence(earnest);
      if (earnest) return;
      const at = performance.now();
      const fresh = isFresh(p.ring, times);
      if (p.ring.length === 0) times = new Map();
      else if (fresh || at - soundedAt >= AGAIN_MS) {
        const s = soundNow(p.ring, times);
        times = s.times;
        soundedAt = at;
        if (s.sound.length > 0) sound(gravest(s.sound.map((r) => r.cue)));
        if (fresh) speak(s.sound.map((r) => r.cue.speak).join(". "));
      }
      const [soft] = p.soft;
      if (soft && p.ring.length === 0) sound(figureOf(soft.cue));
    });
  });
  return () => {
    end();
    // What rings in earnest is not talked over, and not silenced either.
    if (ringing.peek().length === 0) hush();
  };
}

/** A treatment that is no sample has a step that runs: then a played ring could be taken for it. */
function realRuns(core: Core): boolean {
  return core.treatments.value.some(
    (t) => t.open && !t.removed && !t.sample && core.dossier(t.job).value?.steps.some((s) => !s.ended),
  );
}

function have(of: Play, rings: readonly Ring[]): void {
  const by = who.peek();
  for (const r of rings) void of.core.write({ job: r.job, kind: "heard", body: { cue: r.cue.id }, by });
  if (ringing.peek().length === 0) hush();
}
