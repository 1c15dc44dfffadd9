// What is measured at the sink and at the drying board, as it is asked for. Ranges and checks are the core's.

export type Q = "temperature" | "ph" | "conductivity" | "colour" | "suds" | "mass" | "air_temperature" | "humidity";

export interface Quantity {
  q: Q;
  title: string;
  /** As it is recorded. */
  unit: string;
  /** As it is read. */
  sign: string;
  /** What its key says above the last value. */
  key: string;
  /** Four step keys of its pad; none where it is chosen, not typed. */
  steps: readonly number[];
}

export const QUANTITIES: Readonly<Record<Q, Quantity>> = {
  temperature: {
    q: "temperature",
    title: "Temperature",
    unit: "degC",
    sign: "°C",
    key: "°C",
    steps: [1, 0.1, -0.1, -1],
  },
  ph: { q: "ph", title: "pH", unit: "pH", sign: "pH", key: "pH", steps: [0.5, 0.1, -0.1, -0.5] },
  conductivity: {
    q: "conductivity",
    title: "Conductivity",
    unit: "uS/cm",
    sign: "µS/cm",
    key: "µS/cm",
    steps: [10, 1, -1, -10],
  },
  colour: { q: "colour", title: "Colour of the bath", unit: "0-5", sign: "", key: "colour", steps: [] },
  suds: { q: "suds", title: "Suds", unit: "", sign: "", key: "suds", steps: [] },
  mass: { q: "mass", title: "Weight", unit: "g", sign: "g", key: "weight g", steps: [10, 1, -1, -10] },
  air_temperature: {
    q: "air_temperature",
    title: "Room temperature",
    unit: "degC",
    sign: "°C",
    key: "room °C",
    steps: [1, 0.1, -0.1, -1],
  },
  humidity: { q: "humidity", title: "Room humidity", unit: "%", sign: "% RH", key: "% RH", steps: [5, 1, -1, -5] },
};

/** Whether this version has words for a quantity. */
export function isQ(q: string): q is Q {
  return q in QUANTITIES;
}

/** At the sink, in the order of their keys. */
export const AT_SINK: readonly Q[] = ["temperature", "ph", "conductivity", "colour", "suds"];
/** At the drying board. */
export const AT_BOARD: readonly Q[] = ["air_temperature", "humidity", "mass"];

/** Words for the colour of a bath against white, 0 to 5. */
export const COLOUR_WORDS = ["as clear as the water", "a trace", "faint", "plain to see", "strong", "dark"] as const;

/** A value as its key shows it: "21.5", "1", "none". */
export function valueSays(q: Q, value: string): string {
  if (q !== "suds") return value;
  return value === "0" ? "none" : "yes";
}

/** What must be known of a reading besides its value: "late", "from memory", "estimate"; empty for none. */
export function markOf(r: { late: boolean; how: string }): string {
  if (r.how === "memory") return "from memory";
  if (r.how === "estimate") return "estimate";
  return r.late ? "late" : "";
}

/** "21.5 °C", "pH 6.4", "Colour 2, faint", "No suds" */
export function readingSays(q: Q, value: string): string {
  switch (q) {
    case "ph":
      return `pH ${value}`;
    case "colour":
      return `Colour ${value}, ${COLOUR_WORDS[Number(value)] ?? "?"}`;
    case "suds":
      return value === "0" ? "No suds" : "Suds";
    case "air_temperature":
      return `Room ${value} °C`;
    case "humidity":
      return `Room ${value} % RH`;
    default:
      return `${value} ${QUANTITIES[q].sign}`;
  }
}
