// Runs before the app is read: shows the clock of the bath that ran when the app was last looked at, and says that it is
// that. Browsers write what this reads some seconds late: after a flat battery it may be an earlier bath.
import { clockText, isPast } from "../ui/base/words";
import { digitsBox } from "../ui/parts/digits-box";
import { readFirst, type First } from "./first";

const SVG = "http://www.w3.org/2000/svg";

const first = readFirst(location.hash);
const root = document.getElementById("app");
if (first && root) show(first, root);

function show(f: First, root: HTMLElement): void {
  const clock = document.createElement("section");
  const what = document.createElement("p");
  what.className = "what";
  const name = document.createElement("b");
  name.textContent = f.say;
  what.append(name);
  const face = document.createElement("div");
  face.className = "face";
  face.dataset["test"] = "clock";
  const svg = document.createElementNS(SVG, "svg");
  svg.setAttribute("class", "digits");
  svg.setAttribute("preserveAspectRatio", "xMidYMid meet");
  const text = document.createElementNS(SVG, "text");
  svg.append(text);
  face.append(svg);
  const note = document.createElement("p");
  note.className = "quiet";
  note.textContent = "As this device last showed it. The log is being read.";
  clock.append(what, face, note);
  const page = document.createElement("div");
  page.className = "early";
  page.append(clock);
  root.replaceChildren(page);

  const tick = () => {
    if (!page.isConnected) return clearInterval(timer);
    const elapsed = Date.now() + f.offset - f.begun;
    const says = clockText(elapsed, f.targetS);
    clock.className = isPast(elapsed, f.targetS) ? "clock past" : "clock";
    if (text.textContent === says) return;
    const { width, height, line } = digitsBox(says);
    svg.setAttribute("viewBox", `0 0 ${width} ${height}`);
    text.setAttribute("y", String(line));
    text.setAttribute("textLength", String(width));
    text.setAttribute("lengthAdjust", "spacingAndGlyphs");
    text.textContent = says;
  };
  const timer = setInterval(tick, 200);
  tick();
}
