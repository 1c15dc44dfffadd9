// Which screen stands where the address points.
import { useMemo } from "preact/hooks";
import type { Core } from "../core/api";
import { All } from "./all";
import { About } from "./about/about";
import { CoreContext } from "./base/core";
import { DayOnPaper } from "./day/day";
import { Hand } from "./hand/hand";
import { Log } from "./log/log";
import { New } from "./new";
import { Now } from "./now";
import { Page } from "./parts/page";
import { Announcer } from "./parts/say";
import { openSheets, OverAll } from "./parts/sheet";
import { PairScreen } from "./pair";
import { Phone } from "./phone";
import { PlayBar } from "./play/bar";
import { PlayStart } from "./play/door";
import { playing } from "./play/play";
import { playedMachine } from "./play/played-machine";
import { Ready } from "./ready/ready";
import { KeptAgain } from "./reckon/kept";
import { Reckon } from "./reckon/reckon";
import { Reckonings } from "./reckon/reckonings";
import { RingBar, RingWho } from "./ring/bar";
import { route, type Route } from "./route";
import { MakeBatch } from "./shelf/batch";
import { Shelf } from "./shelf/shelf";
import { Sink } from "./sink/sink";
import { MachineContext, type Machine } from "./studio/machine";
import { Studio } from "./studio/studio";

export function App({ core, machine }: { core: Core; machine: Machine }) {
  const played = useMemo(() => playedMachine(machine), [machine]);
  return (
    <CoreContext.Provider value={playing.value?.core ?? core}>
      <MachineContext.Provider value={playing.value ? played : machine}>
        <OverAll.Provider value={RingBar}>
          {openSheets.value.length === 0 && <RingBar />}
          <PlayBar />
          <Screen key={playing.value ? "played" : "real"} at={route.value} />
          <RingWho />
          <Announcer />
        </OverAll.Provider>
      </MachineContext.Provider>
    </CoreContext.Provider>
  );
}

function Screen({ at }: { at: Route }) {
  switch (at.at) {
    case "now":
      return <Now />;
    case "all":
      return <All />;
    case "new":
      return <New />;
    case "sink":
      return <Sink job={at.job} />;
    case "log":
      return <Log key={at.job} job={at.job} />;
    case "about":
      return <About key={at.job} job={at.job} />;
    case "hand":
      return <Hand key={at.job} job={at.job} />;
    case "day":
      return <DayOnPaper key={`${at.day} ${at.job}`} day={at.day} job={at.job} />;
    case "ready":
      return <Ready key={at.job} job={at.job} part={at.part} />;
    case "shelf":
      return <Shelf part={at.part} />;
    case "batch":
      return <MakeBatch />;
    case "reckonings":
      return <Reckonings key={at.job} job={at.job} />;
    case "reckon":
      return <Reckon key={`${at.job} ${at.name}`} name={at.name} job={at.job} />;
    case "reckoned":
      return <KeptAgain key={at.entry} job={at.job} entry={at.entry} />;
    case "studio":
      return <Studio />;
    case "pair":
      return <PairScreen key={at.code} code={at.code} />;
    case "phone":
      return <Phone />;
    case "play":
      return <PlayStart />;
    case "nowhere":
      return <Nowhere />;
  }
}

function Nowhere() {
  return (
    <Page title="No such page" back={{ to: "#/", say: "Now" }}>
      <p>This address leads to no page of this version.</p>
    </Page>
  );
}
