// Our own icons: 24 units square, lines of 2. Always beside a word, so hidden from screen readers.

const PATHS = {
  again: "M4 12a7 7 0 0 1 12-5l2 2M18 4v5h-5M12 13v7M8.5 16.5h7",
  back: "M14 5l-7 7 7 7M7 12h13",
  bath: "M3 11h18v2a6 6 0 0 1-6 6H9a6 6 0 0 1-6-6zM8 7c0-2 2-2 2-4M14 7c0-2 2-2 2-4",
  cross: "M6 6l12 12M18 6L6 18",
  choose: "M4 7h9M4 17h9M17 4l3 3-3 3M17 14l3 3-3 3",
  clock: "M12 4a8 8 0 1 0 0 16 8 8 0 0 0 0-16zM12 8v4l3 2",
  down: "M12 4v15M6 13l6 6 6-6",
  drop: "M12 3c4 5 6 8 6 11a6 6 0 0 1-12 0c0-3 2-6 6-11z",
  bell: "M6 17V11a6 6 0 0 1 12 0v6l2 1H4zM10 21h4M12 5V3",
  camera: "M4 8h3l2-3h6l2 3h3v11H4zM12 10a3.5 3.5 0 1 0 0 7 3.5 3.5 0 0 0 0-7z",
  curve: "M4 4v16h16M7 7c2 7 5 9 12 10",
  dry: "M4 20h16M12 16V9M9 12l3-3 3 3M5 5c2-2 3 2 5 0s3 2 5 0 3 2 4 0",
  empty: "M5 5h14v14H5z",
  erase: "M9 5h11v14H9l-6-7zM12 9.5l5 5M17 9.5l-5 5",
  house: "M4 20V10l8-6 8 6v10zM10 20v-6h4v6",
  lift: "M3 14h18v1a5 5 0 0 1-5 5H8a5 5 0 0 1-5-5zM12 11V3M8 6.5L12 3l4 3.5",
  less: "M6 12h12",
  link: "M5 9a10 10 0 0 1 14 0M8 13a5.5 5.5 0 0 1 8 0M12 17v.5",
  list: "M9 6h11M9 12h11M9 18h11M4 6h.5M4 12h.5M4 18h.5",
  more: "M12 6v12M6 12h12",
  note: "M5 4h14v11l-5 5H5zM14 20v-5h5M9 9h6",
  past: "M12 3l9 17H3zM12 10v4M12 17v.5",
  pencil: "M4 20l1-4L16 5l3 3L8 19zM14 7l3 3",
  look: "M2.5 12c5-8 14-8 19 0-5 8-14 8-19 0zM12 9.5a2.5 2.5 0 1 0 0 5 2.5 2.5 0 0 0 0-5z",
  moon: "M19 14.5A8 8 0 0 1 9.5 5 8 8 0 1 0 19 14.5z",
  person: "M12 4a4 4 0 1 0 0 8 4 4 0 0 0 0-8zM4 21c0-5 4-6 8-6s8 1 8 6",
  phone: "M7 3h10v18H7zM11 18h2",
  reckon: "M5 3h14v18H5zM8 7h8M8 12h1M12 12h1M16 12h.5M8 16h1M12 16h1M16 16h.5",
  save: "M12 4v10M8 10l4 4 4-4M4 17v3h16v-3",
  search: "M10.5 4a6.5 6.5 0 1 0 0 13 6.5 6.5 0 0 0 0-13zM15.5 15.5L20 20",
  sponge: "M4 10h16v9H4zM8 13h.5M13 12.5h.5M16 16h.5M10 16h.5M8 6c0-2 2-1 2-3M14 6c0-2 2-1 2-3",
  stop: "M8 3h8l5 5v8l-5 5H8l-5-5V8zM8 12h8",
  strike: "M4 12h16M7 8c0-5 10-5 10-1M7 16c0 5 10 5 10 1",
  textile: "M4 5h16v14H4zM4 9h16M8 5v14M12 13h4",
  tick: "M5 13l4 5L19 6",
  turn: "M4 9a8 8 0 0 1 14-2l2 2M20 4v5h-5M20 15a8 8 0 0 1-14 2l-2-2M4 20v-5h5",
  undo: "M9 5L4 10l5 5M4 10h10a5 5 0 0 1 0 10h-3",
  up: "M12 20V5M6 11l6-6 6 6",
} as const;

export type IconName = keyof typeof PATHS;

export function Icon({ is }: { is: IconName }) {
  return (
    <svg class="icon" viewBox="0 0 24 24" width="24" height="24" aria-hidden="true" focusable="false">
      <path d={PATHS[is]} />
    </svg>
  );
}
