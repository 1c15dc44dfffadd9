// Tested dwells as they are typed and as they are said.
import type { Dwell, State } from "../../core/api";
import { targetSeconds } from "../sink/bath";
import { dwellSays } from "../sink/limit";

/** A tested dwell as typed. */
export interface DwellTyped {
  /** Empty: every colour. */
  colour: string;
  /** Empty: any liquid. */
  liquid: string;
  minutes: string;
  temp: string;
  phFrom: string;
  phTo: string;
  faces: "both" | "one" | "";
  name: string;
}

export function blankDwell(colour: string, liquid: string, name: string): DwellTyped {
  return { colour, liquid, minutes: "", temp: "", phFrom: "", phTo: "", faces: "", name };
}

/** The entry's body; what nobody filled is left out and stays not said. */
export function dwellBody(d: DwellTyped): Record<string, unknown> {
  const body: Record<string, unknown> = { colour: d.colour, liquid: d.liquid.trim(), s: targetSeconds(d.minutes) };
  if (d.temp.trim()) body["temp_c"] = d.temp.trim();
  if (d.phFrom.trim()) body["ph_from"] = d.phFrom.trim();
  if (d.phTo.trim()) body["ph_to"] = d.phTo.trim();
  if (d.faces) body["faces"] = d.faces;
  body["name"] = d.name.trim();
  return body;
}

/** "45 min in tap water, at 22 °C, pH 6 to 7.5, both faces" */
export function dwellLine(d: Dwell): string {
  const ph =
    d.ph_from && d.ph_to
      ? `pH ${d.ph_from} to ${d.ph_to}`
      : d.ph_from
        ? `pH ${d.ph_from} and above`
        : d.ph_to
          ? `up to pH ${d.ph_to}`
          : "";
  const faces = { both: "both faces", one: "one face only" }[d.faces] ?? "";
  return [
    `${dwellSays(d.s)} in ${d.liquid || "any liquid"}`,
    d.temp_c ? `at ${d.temp_c} °C` : "temperature not said",
    ph || "pH not said",
    faces || "faces not said",
  ].join(", ");
}

export function colourSays(colour: string): string {
  return colour || "Every colour";
}

/** Colours that a test can be entered for; one that a test names and the object no longer lists keeps its place. */
export function coloursOf(state: State): string[] {
  const dyed = state.colours.filter((c) => !/^undyed/i.test(c));
  return [...new Set([...dyed, ...state.dwells.map((d) => d.colour)])].filter(Boolean);
}

export function isDwellTyped(v: unknown): v is DwellTyped {
  if (typeof v !== "object" || v === null) return false;
  const d = v as Record<string, unknown>;
  const texts = ["colour", "liquid", "minutes", "temp", "phFrom", "phTo", "name"];
  return texts.every((k) => typeof d[k] === "string") && ["both", "one", ""].includes(String(d["faces"]));
}
