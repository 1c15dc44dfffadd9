// Now: what runs in all open treatments, what is due next in front. The times are large, the rest is quiet.
import { studioNow, useCore } from "./base/core";
import { cardsOf, type Open } from "./board";
import { CardOf, nextSays } from "./card";
import { Icon } from "./parts/icon";
import { Page } from "./parts/page";
import { PlayDoor } from "./play/door";
import { Ringers } from "./ring/ringers";

export function Now() {
  return (
    <Page title="Now">
      <Ringers />
      <Cards />
      <nav class="foot" aria-label="Treatments">
        <a class="key wide" href="#/all" data-test="all">
          <Icon is="search" />
          All treatments
        </a>
        <a class="key wide strong" href="#/new" data-test="new">
          <Icon is="textile" />
          New treatment
        </a>
      </nav>
      <PlayDoor />
      <nav class="doors small" aria-label="Other pages">
        <a class="key" href="#/reckon">
          <Icon is="reckon" />
          Reckonings
        </a>
        <a class="key" href="#/shelf" data-test="shelf">
          <Icon is="drop" />
          The shelf
        </a>
        <a class="key" href="#/studio">
          <Icon is="house" />
          Studio page
        </a>
        <a class="key" href="#/phone">
          <Icon is="phone" />
          This device
        </a>
      </nav>
    </Page>
  );
}

/** Alone in following the clock. */
function Cards() {
  const open = useOpen();
  const now = studioNow(useCore());
  const cards = cardsOf(open);
  return (
    <>
      {open.length === 0 && <Nothing />}
      {cards.length > 1 && cards[0]?.due && (
        <p class="due-next" data-test="due-next">
          {nextSays(cards[0], now)}
        </p>
      )}
      <ul class="cards">
        {cards.map((c) => (
          <CardOf key={c.step?.entry ?? c.of.summary.job} card={c} now={now} />
        ))}
      </ul>
    </>
  );
}

/** Open treatments as far as they are known here. */
export function useOpen(): Open[] {
  const core = useCore();
  return core.treatments.value
    .filter((t) => t.open && !t.removed)
    .map((summary) => {
      const state = core.dossier(summary.job).value;
      const watch = core.watch(summary.job).value;
      return { summary, state, watch, running: state?.steps.filter((s) => !s.ended) ?? [] };
    });
}

function Nothing() {
  const ready = useCore().status.value.core !== "loading";
  return (
    <p class="nothing" data-test="nothing">
      {ready
        ? "Nothing is under treatment. A new one needs no more than a name."
        : "Reading what is kept on this device …"}
    </p>
  );
}
