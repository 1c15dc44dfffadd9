// What is measured at the sink, as it is asked for. Ranges and checks are the core's.

export interface Quantity {
  q: "temperature" | "ph" | "conductivity";
  title: string;
  /** As it is recorded. */
  unit: string;
  /** As it is read. */
  sign: string;
  steps: readonly number[];
}

export const QUANTITIES: readonly Quantity[] = [
  { q: "temperature", title: "Temperature", unit: "degC", sign: "°C", steps: [-1, -0.1, 0.1, 1] },
  { q: "ph", title: "pH", unit: "pH", sign: "pH", steps: [-0.5, -0.1, 0.1, 0.5] },
  { q: "conductivity", title: "Conductivity", unit: "uS/cm", sign: "µS/cm", steps: [-10, -1, 1, 10] },
];

/** "21.5 °C", "pH 6.4" */
export function readingSays(quantity: Quantity, value: string): string {
  return quantity.q === "ph" ? `pH ${value}` : `${value} ${quantity.sign}`;
}
