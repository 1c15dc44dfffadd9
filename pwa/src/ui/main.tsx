// The app starts here.
import { render } from "preact";
import { afterPaint } from "../core/after-paint";
import { createCore } from "../core/core";
import "../style/main.css";
import { App } from "./app";
import { startFirst } from "./base/first";
import { startTheme } from "./base/theme";
import { startTime } from "./base/time";
import { startWake } from "./base/wake";
import { startTouches } from "./parts/touches";
import { startRinging } from "./ring/lookout";
import { startRoutes } from "./route";
import { httpMachine } from "./studio/machine";

startTheme();
startRoutes();
startTouches();
startTime();
startWake();

const root = document.getElementById("app");
// A clock that runs already is seen before the first screen takes the processor.
if (root?.querySelector(".early")) afterPaint(() => start(root));
else if (root) start(root);

function start(root: HTMLElement): void {
  root.replaceChildren();
  const core = createCore();
  startFirst(core);
  startRinging(core);
  render(<App core={core} machine={httpMachine} />, root);
}
