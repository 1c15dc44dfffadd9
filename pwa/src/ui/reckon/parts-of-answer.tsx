// What an answer holds besides figures: words, lists, and pictures to scale.
import type { Picture, Shape, Table, Verdict } from "../../core/api";

export function Verdicts({ list }: { list: readonly Verdict[] }) {
  if (list.length === 0) return null;
  return (
    <dl class="figures verdicts">
      {list.map((v) => (
        <div key={v.name} data-test={`verdict-${v.name}`}>
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
        <div class="lines" key={t.title} tabIndex={0} role="group" aria-label={t.title}>
          <table data-test="table">
            <caption>{t.title}</caption>
            <thead>
              <tr>
                {t.columns.map((c) => (
                  <th scope="col" key={c}>
                    {c}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {t.rows.map((row, i) => (
                <tr key={i}>
                  {row.map((cell, k) => (
                    <td key={k}>{cell}</td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
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
            {p.title} <small class="quiet">{`${round(p.width)} × ${round(p.height)} mm, to scale`}</small>
          </figcaption>
          <Drawing of={p} />
        </figure>
      ))}
    </>
  );
}

const round = (x: number) => Math.round(x).toLocaleString("en").replace(/,/g, "\u00a0");

/** Letters are so high, as a share of the longer side: legible on a phone. */
const LETTERS = 1 / 26;

function Drawing({ of: p }: { of: Picture }) {
  const size = Math.max(p.width, p.height) * LETTERS;
  const pad = size;
  const box = `${-pad} ${-pad} ${p.width + 2 * pad} ${p.height + 2 * pad}`;
  return (
    <svg viewBox={box} role="img" aria-label={p.title} data-test="picture">
      <rect class="frame" x={0} y={0} width={p.width} height={p.height} vector-effect="non-scaling-stroke" />
      {p.shapes.map((s, i) => (
        <Line key={i} of={s} />
      ))}
      {p.shapes.map((s, i) => s.label && <Label key={i} of={s} size={size} />)}
    </svg>
  );
}

function Line({ of: s }: { of: Shape }) {
  const points = pairs(s).join(" ");
  return s.closed ? (
    <polygon class="shape" points={points} vector-effect="non-scaling-stroke" />
  ) : (
    <polyline class="shape open" points={points} vector-effect="non-scaling-stroke" />
  );
}

/** A label stands in the middle of its shape, and no wider than that where the shape is closed. */
function Label({ of: s, size }: { of: Shape; size: number }) {
  const all = pairs(s);
  const xs = all.map(([x]) => x);
  const ys = all.map(([, y]) => y);
  const width = Math.max(...xs) - Math.min(...xs);
  const fits = s.closed ? Math.min(size, (1.7 * width) / Math.max(1, s.label.length)) : size;
  return (
    <text
      x={(Math.max(...xs) + Math.min(...xs)) / 2}
      y={(Math.max(...ys) + Math.min(...ys)) / 2}
      font-size={Math.max(fits, size / 2.5)}
      text-anchor="middle"
      dominant-baseline="central"
    >
      {s.label}
    </text>
  );
}

function pairs(s: Shape): [number, number][] {
  const out: [number, number][] = [];
  for (let i = 0; i + 1 < s.points.length; i += 2) out.push([s.points[i] ?? 0, s.points[i + 1] ?? 0]);
  return out;
}
