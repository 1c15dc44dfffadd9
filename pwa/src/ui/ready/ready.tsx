// Make ready: what is looked at, planned and agreed before the object gets wet. One calm page; nothing on it
// holds anybody up.
import { useEffect, useState } from "preact/hooks";
import type { State } from "../../core/api";
import { useCore } from "../base/core";
import { isTexts } from "../base/remember";
import { useUnfinished } from "../base/unfinished";
import { useFetched } from "../log/log";
import { Icon } from "../parts/icon";
import { Page } from "../parts/page";
import { Signed } from "../parts/who";
import { nameOf } from "../treatment";
import { Checklist } from "./checklist";
import { DwellPart, dwellStands } from "./dwell";
import { PlanPart, planStands } from "./plan";
import { isDraft, type PlanDraft } from "./plan-draft";
import { Section } from "./section";
import { StopPart, stopStands } from "./stop";
import { tally, tickState } from "./ticks";
import { TrayPart } from "./tray";
import { WaterPart } from "./water";

/** `part` is opened and brought into sight: checks, plan, tray, water, dwell, stop. */
export function Ready({ job, part }: { job: string; part: string }) {
  const core = useCore();
  const state = core.dossier(job).value;
  useFetched(job, state === null);
  if (!state)
    return (
      <Page title="Make ready" back={{ to: `#/t/${job}`, say: "Sink" }}>
        <p class="quiet">Reading its log …</p>
      </Page>
    );
  return <Readying state={state} part={part} />;
}

function Readying({ state, part }: { state: State; part: string }) {
  const core = useCore();
  const watch = core.watch(state.job).value;
  const parts = useParts(state.job, part);
  const plan = useUnfinished<PlanDraft | null>(`plan.${state.job}`, () => null, isDraft);
  const setDraft = (d: PlanDraft | null) => {
    plan.set(d);
    if (d === null) plan.forget();
  };
  const drafting = { draft: plan.value, setDraft };
  const { job } = state;
  return (
    <Page title={`Make ready: ${nameOf(state)}`} back={{ to: `#/t/${job}`, say: "Sink" }}>
      <Signed />
      <Section
        id="checks"
        title="Before it gets wet"
        stands={tally(state.checklist)}
        wants={state.checklist.some((t) => tickState(t) === "choose")}
        {...parts.of("checks")}
      >
        <Checklist state={state} onStopPlan={() => parts.show("stop")} />
      </Section>
      <Section
        id="plan"
        title="The baths"
        stands={planStands(state, plan.value)}
        wants={state.plans.length > 1}
        {...parts.of("plan")}
      >
        <PlanPart state={state} {...drafting} />
      </Section>
      <Section
        id="tray"
        title="What the tray holds"
        stands="litres and kilograms from its measures"
        {...parts.of("tray")}
      >
        <TrayPart state={state} {...drafting} />
      </Section>
      <Section
        id="water"
        title="Whether the water lasts"
        stands="for the plan and two spare rinses"
        {...parts.of("water")}
      >
        <WaterPart state={state} draft={plan.value} />
      </Section>
      <Section id="dwell" title="How long each colour was tested" stands={dwellStands(watch)} {...parts.of("dwell")}>
        <DwellPart state={state} watch={watch} />
      </Section>
      <Section id="stop" title="If it has to stop" stands={stopStands(state)} {...parts.of("stop")}>
        <StopPart state={state} watch={watch} />
      </Section>
      <nav class="doors" aria-label="Go on">
        <a class="key big" href="#/shelf" data-test="to-shelf">
          <Icon is="drop" />
          The studio's shelf
        </a>
        <a class="key big" href="#/shelf/batch" data-test="to-batch">
          <Icon is="reckon" />
          Make up a solution
        </a>
      </nav>
      <div class="foot">
        <a class="key strong" href={`#/t/${job}`} data-test="to-sink">
          <Icon is="bath" />
          To the sink
        </a>
      </div>
    </Page>
  );
}

interface Parts {
  of: (id: string) => { open: boolean; onOpen: (open: boolean) => void };
  /** Opens a part and brings it into sight. */
  show: (id: string) => void;
}

/** Which parts are open: it outlives a turn to the shelf and back. */
function useParts(job: string, part: string): Parts {
  const { value: open, set } = useUnfinished<string[]>(`ready.${job}`, () => [part || "checks"], isTexts);
  const [wanted, want] = useState(part);
  const show = (id: string) => {
    if (!open.includes(id)) set([...open, id]);
    want(id);
  };
  useEffect(() => {
    if (part) show(part);
  }, [part]);
  useEffect(() => {
    if (!wanted || !open.includes(wanted)) return;
    const at = document.getElementById(`part-${wanted}`);
    at?.scrollIntoView({ block: "start" });
    at?.querySelector("summary")?.focus({ preventScroll: true });
    want("");
  }, [wanted, open]);
  return {
    of: (id) => ({
      open: open.includes(id),
      onOpen: (is) => set(is ? [...open, id] : open.filter((x) => x !== id)),
    }),
    show,
  };
}
