// The app starts here.
import { render } from "preact";
import { createCore } from "../core/core";
import "../style/main.css";
import { App } from "./app";
import { startTime } from "./base/core";
import { startTheme } from "./base/theme";
import { startWake } from "./base/wake";
import { createFakeCore } from "./dev/fake-core";
import { fakeMachine } from "./dev/fake-studio";
import { startTouches } from "./parts/touches";
import { startRoutes } from "./route";
import { httpMachine } from "./studio/machine";

/** Put in by the build: true only in a bundle for looking at screens. */
declare const __DEV__: boolean;

startTheme();
startRoutes();
startTouches();
startTime();
startWake();

const root = document.getElementById("app");
if (root) {
  root.replaceChildren();
  const fake = __DEV__ ? new URLSearchParams(location.search).get("fake") : null;
  if (__DEV__ && fake !== null) render(<App core={createFakeCore(fake)} machine={fakeMachine()} />, root);
  else render(<App core={createCore()} machine={httpMachine} />, root);
}
