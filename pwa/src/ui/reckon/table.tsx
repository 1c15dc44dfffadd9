// A table of an answer: as a table where it has the room, else each of its rows by itself, to be read without
// scrolling sideways.
import { useId, useLayoutEffect, useRef, useState } from "preact/hooks";
import type { Table } from "../../core/api";
import { shapeOf, type Widths } from "./table-shape";

interface Measured extends Widths {
  /** What was measured: another table is measured anew. */
  of: string;
}

export function Lines({ of: t }: { of: Table }) {
  const title = useId();
  const key = JSON.stringify(t);
  const box = useRef<HTMLDivElement>(null);
  const room = useRoom(box);
  const [measured, setMeasured] = useState<Measured | null>(null);
  const widths = measured?.of === key ? measured : null;
  useLayoutEffect(() => {
    const table = box.current?.querySelector("table");
    if (table && !widths) setMeasured({ of: key, ...widthsOf(table) });
  });
  const shape = widths && room > 0 ? shapeOf(widths, room) : "table";
  return (
    <div class="listed">
      <h2 id={title}>{t.title}</h2>
      <div ref={box}>
        {shape === "rows" ? (
          <ByRows of={t} title={title} />
        ) : (
          <AsTable of={t} title={title} tight={shape === "tight"} />
        )}
      </div>
    </div>
  );
}

/** How wide it would be by itself, and at least. */
function widthsOf(table: HTMLTableElement): Widths {
  const measure = (width: string) => {
    table.style.width = width;
    table.style.minWidth = "0";
    return table.offsetWidth;
  };
  const widths = { natural: measure("max-content"), least: measure("min-content") };
  table.style.width = table.style.minWidth = "";
  return widths;
}

/** How wide an element is, now and whenever that changes. */
function useRoom(of: { current: HTMLElement | null }): number {
  const [room, setRoom] = useState(0);
  useLayoutEffect(() => {
    const e = of.current;
    if (!e) return;
    const look = () => setRoom(e.clientWidth);
    look();
    const watch = new ResizeObserver(look);
    watch.observe(e);
    return () => watch.disconnect();
  }, []);
  return room;
}

interface ShownProps {
  of: Table;
  /** Id of the heading. */
  title: string;
}

function AsTable({ of: t, title, tight }: ShownProps & { tight: boolean }) {
  return (
    <div class={tight ? "lines tight" : "lines"}>
      <table data-test="table" aria-labelledby={title}>
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
                <td key={k} class={isShort(cell) ? "short" : undefined}>
                  {cell}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** A figure with its unit is not broken in two. */
const isShort = (cell: string): boolean => cell.length <= 12;

function ByRows({ of: t, title }: ShownProps) {
  return (
    <ul class="by-rows" data-test="table" aria-labelledby={title}>
      {t.rows.map((row, i) => (
        <li key={i}>
          <dl>
            {row.map(
              (cell, k) =>
                cell !== "" && (
                  <div key={k}>
                    <dt>{t.columns[k]}</dt>
                    <dd>{cell}</dd>
                  </div>
                ),
            )}
          </dl>
        </li>
      ))}
    </ul>
  );
}
