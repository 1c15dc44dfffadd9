// The rinses' conductivities as a drawn curve: readings, the fit with its honest range, the source water.
// Told by shape and dash before colour, so that it prints in black.
import { useId } from "preact/hooks";
import type { Point, Rinse } from "../../core/api";
import { drawCurve, kSays, type Drawn, type Frame, type Pending, type Spot } from "./curve-scale";

/** `spark` beside a sentence, `sink` under the clock, `sheet` alone on a phone, `large` for the studio page, `print` for paper. */
export type CurveSize = "spark" | "sink" | "sheet" | "large" | "print";

const FRAMES: Readonly<Record<CurveSize, Frame>> = {
  spark: { width: 132, height: 56, left: 8, right: 8, top: 8, bottom: 8 },
  sink: { width: 344, height: 112, left: 20, right: 24, top: 20, bottom: 18 },
  sheet: { width: 344, height: 220, left: 26, right: 28, top: 24, bottom: 22 },
  large: { width: 640, height: 300, left: 44, right: 44, top: 28, bottom: 34 },
  print: { width: 640, height: 260, left: 44, right: 44, top: 28, bottom: 34 },
};

interface CurveProps {
  rinse: Rinse;
  size?: CurveSize;
  /** A reading that was just kept and is not in the fold yet. */
  pending?: Pending | null;
  /** Called with a reading that was tapped. */
  onPoint?: (p: Point) => void;
}

export function Curve({ rinse, size = "sink", pending = null, onPoint }: CurveProps) {
  const hatch = useId();
  const frame = FRAMES[size];
  const drawn = drawCurve(rinse, frame, pending);
  if (!drawn) return null;
  const spark = size === "spark";
  return (
    <svg
      class={`curve c-${size}`}
      viewBox={`0 0 ${frame.width} ${frame.height}`}
      role={onPoint ? "group" : "img"}
      aria-label={curveSays(rinse)}
      data-test="curve"
    >
      <defs>
        <pattern id={hatch} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path class="hatch" d="M0 0V5" />
        </pattern>
      </defs>
      {!spark && <Axis drawn={drawn} frame={frame} />}
      {drawn.band && <path class="range" d={drawn.band} fill={`url(#${hatch})`} />}
      {drawn.source !== null && <Source y={drawn.source} rinse={rinse} frame={frame} spark={spark} />}
      {drawn.fit && <path class="fit" d={drawn.fit} />}
      {drawn.ahead && <path class="fit ahead" d={drawn.ahead} />}
      {!drawn.fit && drawn.path && <path class="read" d={drawn.path} />}
      {drawn.spots.map((s) => (
        <Dot key={s.point.entry} spot={s} labelled={!spark} onPoint={onPoint} />
      ))}
      {drawn.pending && (
        <g class="pending" data-test="curve-point" data-pending>
          <circle class="ring" cx={drawn.pending.x} cy={drawn.pending.y} r={6} />
          {!spark && pending && <Label x={drawn.pending.x} y={drawn.pending.y} say={kSays(pending.k25)} />}
        </g>
      )}
    </svg>
  );
}

function Axis({ drawn, frame }: { drawn: Drawn; frame: Frame }) {
  const base = frame.height - frame.bottom + 4;
  return (
    <g class="axis">
      <path d={`M${frame.left - 8} ${base}H${frame.width - frame.right + 8}`} />
      {drawn.places.map(({ place, x }) => (
        <g key={place}>
          <path d={`M${x} ${base}v4`} />
          <text x={x} y={frame.height - 2} text-anchor={place === 0 ? "start" : "middle"} dx={place === 0 ? -8 : 0}>
            {place === 0 ? "before" : place}
          </text>
        </g>
      ))}
    </g>
  );
}

function Source({ y, rinse, frame, spark }: { y: number; rinse: Rinse; frame: Frame; spark: boolean }) {
  return (
    <g class="source" data-test="curve-source">
      <path d={`M${frame.left - 8} ${y}H${frame.width - frame.right + 8}`} />
      {!spark && rinse.source && (
        <text x={frame.left - 6} y={y - 4}>
          source {kSays(rinse.source.k25)}
        </text>
      )}
    </g>
  );
}

interface DotProps {
  spot: Spot;
  labelled: boolean;
  onPoint: ((p: Point) => void) | undefined;
}

function Dot({ spot, labelled, onPoint }: DotProps) {
  const { point: p, x, y } = spot;
  return (
    <g
      class={p.fitted ? "dot" : "dot hollow"}
      data-test="curve-point"
      data-entry={p.entry}
      data-fitted={p.fitted}
      onClick={onPoint && (() => onPoint(p))}
    >
      {onPoint && <circle class="hit" cx={x} cy={y} r={22} />}
      <circle class="ring" cx={x} cy={y} r={5} />
      {labelled && <Label x={x} y={y} say={kSays(p.k25)} before={!p.fitted && p.place > 0} />}
    </g>
  );
}

/** Above and after its reading; before and below it where a later reading stands close by. */
function Label({ x, y, say, before }: { x: number; y: number; say: string; before?: boolean }) {
  return (
    <text class="value" x={before ? x - 7 : x + 5} y={before ? y + 20 : y - 8} text-anchor={before ? "end" : "start"}>
      {say}
    </text>
  );
}

/** The curve for who hears it. */
export function curveSays(rinse: Rinse): string {
  const read = rinse.points.map((p) => `${p.label} ${kSays(p.k25)}${p.fitted ? "" : ", not in the fit"}`).join("; ");
  const source = rinse.source ? ` Source water ${kSays(rinse.source.k25)}.` : "";
  return `Conductivity at 25 °C in microsiemens by centimetre. ${read}.${source} ${rinse.say}`;
}
