// A QR code that the studio machine drew. It is parsed and taken over shape by shape, so that
// nothing but shapes can come with it.
import { useMemo } from "preact/hooks";

interface Drawn {
  viewBox: string;
  shapes: { d?: string; x?: string; y?: string; width?: string; height?: string; fill?: string }[];
}

export function Qr({ svg, label }: { svg: string; label: string }) {
  const drawn = useMemo(() => read(svg), [svg]);
  if (!drawn) return null;
  return (
    <svg class="qr" viewBox={drawn.viewBox} role="img" aria-label={label}>
      {drawn.shapes.map((s, i) => (s.d ? <path key={i} d={s.d} fill={s.fill} /> : <rect key={i} {...s} />))}
    </svg>
  );
}

function read(svg: string): Drawn | null {
  const doc = new DOMParser().parseFromString(svg, "image/svg+xml");
  const root = doc.documentElement;
  const viewBox = root.getAttribute("viewBox");
  if (root.nodeName !== "svg" || !viewBox) return null;
  const shapes = [...root.querySelectorAll("path, rect")].map((el) => {
    const at = (name: string) => el.getAttribute(name) ?? undefined;
    return clean({ d: at("d"), x: at("x"), y: at("y"), width: at("width"), height: at("height"), fill: at("fill") });
  });
  return { viewBox, shapes };
}

function clean(s: Record<string, string | undefined>): Drawn["shapes"][number] {
  return Object.fromEntries(Object.entries(s).filter(([, v]) => v !== undefined));
}
