// Where the curve's parts lie on the paper: rinses along, conductivity at 25 °C up, logarithmic, so that an
// even rinse is a straight line and a bend is seen at once. Only scales; every value comes from the core.
import type { Band, Point, Rinse } from "../../core/api";

export interface Frame {
  width: number;
  height: number;
  left: number;
  right: number;
  top: number;
  bottom: number;
}

export interface Spot {
  point: Point;
  x: number;
  y: number;
}

/** A reading that was just tapped and is not in the log's fold yet. */
export interface Pending {
  place: number;
  k25: number;
}

export interface Drawn {
  spots: Spot[];
  pending: { x: number; y: number } | null;
  /** Between readings, in order. */
  path: string;
  /** The fit so far, and ahead of the last reading. */
  fit: string;
  ahead: string;
  /** The honest range about it; empty where nothing is predicted. */
  band: string;
  /** The source water's line. */
  source: number | null;
  /** Rinses along the bottom, 0 for what came before the first. */
  places: { place: number; x: number }[];
}

/** Lays a curve out; null where there is nothing above zero to draw. */
export function drawCurve(rinse: Rinse, frame: Frame, pending: Pending | null = null): Drawn | null {
  const points = rinse.points.filter((p) => p.k25 > 0);
  const bands = rinse.curve.filter((b) => b.k25 > 0);
  const values = [
    ...points.map((p) => p.k25),
    ...bands.flatMap((b) => [b.k25, b.low, b.high]),
    ...(pending ? [pending.k25] : []),
    ...(rinse.source ? [rinse.source.k25] : []),
  ].filter((v) => v > 0);
  if (values.length === 0) return null;
  const y = logScale(Math.min(...values), Math.max(...values), frame);
  const places = [...points.map((p) => p.place), ...bands.map((b) => b.place), ...(pending ? [pending.place] : [])];
  const first = Math.min(...places, 1);
  const left = Math.min(first, ...points.map((p) => p.place - lag(p, points)));
  const x = placeScale(left, Math.max(...places, first + 1), frame);

  const spots = points.map((point) => ({ point, x: x(point.place - lag(point, points)), y: y(point.k25) }));
  const fitted = spots.filter((s) => s.point.place > 0 && (s.point.fitted || s.point.at_end));
  const measured = Math.max(...points.map((p) => p.place), 0);
  return {
    spots,
    pending: pending && pending.k25 > 0 ? { x: x(pending.place), y: y(pending.k25) } : null,
    path: line(fitted),
    fit: line(bands.filter((b) => b.place <= measured).map((b) => ({ x: x(b.place), y: y(b.k25) }))),
    ahead: line(bands.filter((b) => b.place >= measured).map((b) => ({ x: x(b.place), y: y(b.k25) }))),
    band: area(bands, x, y),
    source: rinse.source && rinse.source.k25 > 0 ? y(rinse.source.k25) : null,
    places: wholes(first, Math.max(...places, first)).map((place) => ({ place, x: x(place) })),
  };
}

/** Several readings of one rinse stand beside each other, the last at the rinse's own place. */
function lag(p: Point, all: readonly Point[]): number {
  const later = all.filter((o) => o.place === p.place && o.at_ms > p.at_ms).length;
  return Math.min(0.5, later * 0.18);
}

function logScale(low: number, high: number, f: Frame): (v: number) => number {
  const from = Math.log(low) - 0.12;
  const to = Math.log(high) + 0.12;
  return (v) => round(f.height - f.bottom - ((Math.log(v) - from) / (to - from)) * (f.height - f.top - f.bottom));
}

function placeScale(from: number, to: number, f: Frame): (place: number) => number {
  return (place) => round(f.left + ((place - from) / (to - from)) * (f.width - f.left - f.right));
}

function line(at: readonly { x: number; y: number }[]): string {
  return at.length < 2 ? "" : "M" + at.map((p) => `${p.x} ${p.y}`).join("L");
}

function area(bands: readonly Band[], x: (p: number) => number, y: (v: number) => number): string {
  const full = bands.filter((b) => b.low > 0 && b.high > 0);
  if (full.length < 2) return "";
  const up = full.map((b) => `${x(b.place)} ${y(b.high)}`);
  const back = full.map((b) => `${x(b.place)} ${y(b.low)}`).reverse();
  return `M${[...up, ...back].join("L")}Z`;
}

function wholes(from: number, to: number): number[] {
  return Array.from({ length: Math.max(0, to - from) + 1 }, (_, i) => from + i);
}

function round(n: number): number {
  return Math.round(n * 10) / 10;
}

/** A conductivity for people: three figures at most. */
export function kSays(k: number): string {
  if (k >= 100) return String(Math.round(k));
  return String(Number(k.toPrecision(k >= 10 ? 3 : 2)));
}
