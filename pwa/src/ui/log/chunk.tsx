import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import type { LogLine } from "../../core/api";
import { useCore } from "../base/core";
import { dayKey, longDay } from "../base/words";
import { Line, type Correct } from "./line";

/** Entries drawn or left out together. */
export const CHUNK = 50;

/** A guess in pixels at an entry's height, until it has been drawn once. */
const LINE_HEIGHT = 66;

/** How far outside of the window entries are drawn already, in pixels. */
const AHEAD = 900;

interface ChunkProps {
  job: string;
  from: number;
  size: number;
  /** Changes whenever the log has grown: a new entry may strike an old one. */
  version: number;
  latestFirst: boolean;
  onCorrect: (c: Correct) => void;
}

export function Chunk({ job, from, size, version, latestFirst, onCorrect }: ChunkProps) {
  const box = useRef<HTMLLIElement>(null);
  const near = useNear(box);
  const lines = useLines(job, from, size, version, near);
  const height = useRef(0);

  useLayoutEffect(() => {
    const b = box.current;
    if (!b) return;
    if (near && lines.length > 0) {
      b.style.minHeight = "";
      height.current = b.getBoundingClientRect().height;
    } else b.style.minHeight = `${height.current || size * LINE_HEIGHT}px`;
  });

  const shown = near ? (latestFirst ? [...lines].reverse() : lines) : [];
  return (
    <li class="chunk" ref={box}>
      <ol>
        {shown.map((l, i) => (
          <Line key={l.entry} line={l} day={dayBreak(shown[i - 1], l)} onCorrect={onCorrect} job={job} />
        ))}
      </ol>
    </li>
  );
}

/** The day of a line, where it is another than that of the line before. */
function dayBreak(before: LogLine | undefined, l: LogLine): string {
  return before && dayKey(before.at.ms) === dayKey(l.at.ms) ? "" : longDay(l.at.ms);
}

function useNear(box: { current: HTMLElement | null }): boolean {
  const [near, setNear] = useState(false);
  useEffect(() => {
    if (!box.current) return;
    const o = new IntersectionObserver((seen) => setNear(seen.some((s) => s.isIntersecting)), {
      rootMargin: `${AHEAD}px 0px`,
    });
    o.observe(box.current);
    return () => o.disconnect();
  }, []);
  return near;
}

function useLines(job: string, from: number, size: number, version: number, near: boolean): LogLine[] {
  const core = useCore();
  const [lines, setLines] = useState<LogLine[]>([]);
  useEffect(() => {
    if (!near) return;
    let gone = false;
    core.log(job, from, size).then(
      (page) => gone || setLines(page.lines),
      () => undefined,
    );
    return () => {
      gone = true;
    };
  }, [job, from, size, version, near]);
  return lines;
}
