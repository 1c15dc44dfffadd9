// What an answer holds besides figures: words, lists, and pictures to scale.
import type { Picture, Shape, Table, Verdict } from "../../core/api";
import { Lines } from "./table";

export function Verdicts({ list }: { list: readonly Verdict[] }) {
  if (list.length === 0) return null;
  return (
    <dl class="figures">
      {list.map((v) => (
        <div key={v.name} class="in-words" data-test={`verdict-${v.name}`}>
          <dt>{v.title}</dt>
          <dd>{v.say}</dd>
        </div>
      ))}
    </dl>
  );
}

export function Tables({ list }: { list: readonly Table[] }) {
  return (
    <>
      {list.map((t) => (
        <Lines key={t.title} of={t} />
      ))}
    </>
  );
}

export function Pictures({ list }: { list: readonly Picture[] }) {
  return (
    <>
      {list.map((p, i) => (
        <figure class="to-scale" key={i}>
          <figcaption>
            {p.title} <small class="quiet">{`${p.size}, to scale`}</small>
          </figcaption>
          <Drawing of={p} />
        </figure>
      ))}
    </>
  );
}

/** Letters are so high, as a share of the longer side: legible on a phone. */
const LETTERS = 1 / 24;

function Drawing({ of: p }: { of: Picture }) {
  const size = Math.max(p.width, p.height) * LETTERS;
  // A label of a point stands outside of the picture where the point is on its edge.
  const pad = size * 1.6;
  const box = `${-pad} ${-pad} ${p.width + 2 * pad} ${p.height + 2 * pad}`;
  return (
    <svg viewBox={box} role="img" aria-label={p.title} data-test="picture">
      <rect class="frame" x={0} y={0} width={p.width} height={p.height} vector-effect="non-scaling-stroke" />
      {p.shapes.map((s, i) => (
        <Line key={i} of={s} dot={size / 6} />
      ))}
      {p.shapes.map((s, i) => s.label && <Label key={i} of={s} in={p} size={size} />)}
    </svg>
  );
}

function Line({ of: s, dot }: { of: Shape; dot: number }) {
  const all = pairs(s);
  const [first] = all;
  if (first && all.every(([x, y]) => x === first[0] && y === first[1]))
    return <circle class="point" cx={first[0]} cy={first[1]} r={dot} />;
  const points = all.join(" ");
  return s.closed ? (
    <polygon class="shape" points={points} vector-effect="non-scaling-stroke" />
  ) : (
    <polyline class="shape open" points={points} vector-effect="non-scaling-stroke" />
  );
}

function Label({ of: s, in: p, size }: { of: Shape; in: Picture; size: number }) {
  const { x, y, font, turned } = labelAt(s, p, size);
  return (
    <text
      x={x}
      y={y}
      font-size={font}
      text-anchor="middle"
      dominant-baseline="central"
      transform={turned ? `rotate(-90 ${x} ${y})` : undefined}
    >
      {s.label}
    </text>
  );
}

/**
 * A label stands in the middle of its shape, and no wider than that where the shape is closed; it lies along a
 * narrow one. That of a point stands beside it, away from the picture's middle.
 */
export function labelAt(s: Shape, p: Pick<Picture, "width" | "height">, size: number) {
  const all = pairs(s);
  const xs = all.map(([x]) => x);
  const ys = all.map(([, y]) => y);
  const width = Math.max(...xs) - Math.min(...xs);
  const height = Math.max(...ys) - Math.min(...ys);
  const x = (Math.max(...xs) + Math.min(...xs)) / 2;
  const y = (Math.max(...ys) + Math.min(...ys)) / 2;
  if (width === 0 && height === 0)
    return {
      x: x + (x < p.width / 2 ? -0.7 : 0.7) * size,
      y: y + (y < p.height / 2 ? -0.7 : 0.7) * size,
      font: size,
      turned: false,
    };
  if (!s.closed) return { x, y, font: size, turned: false };
  // A letter is about 0.6 of its height wide; a line takes some room above and below.
  const fits = (along: number, across: number) => Math.min(size, along / (0.6 * s.label.length), across / 1.2);
  const turned = fits(height, width) > fits(width, height);
  const font = turned ? fits(height, width) : fits(width, height);
  return { x, y, font: Math.max(font, size / 2.5), turned };
}

function pairs(s: Shape): [number, number][] {
  const out: [number, number][] = [];
  for (let i = 0; i + 1 < s.points.length; i += 2) out.push([s.points[i] ?? 0, s.points[i + 1] ?? 0]);
  return out;
}
