// What a person reads where the app holds numbers: clocks, durations, dates, counts.
// Everything here is painting; no rule of the trade is decided here.

/**
 * The time left until a target, "6:12"; past it the time over, "+1:48"; with no target the time gone, "6:12".
 * Time left is rounded up and time over rounded down, so "0:00" stands for the last second before
 * the target and "+0:00" is never shown.
 */
export function clockText(elapsedMs: number, targetS: number): string {
  const elapsed = Math.max(0, elapsedMs);
  if (targetS <= 0) return minutesSeconds(Math.floor(elapsed / 1000));
  return leftText(targetS * 1000 - elapsed);
}

/** "6:12" until a moment, "+1:48" after it; rounded as `clockText`. */
export function leftText(leftMs: number): string {
  return leftMs > -1000
    ? minutesSeconds(Math.max(0, Math.ceil(leftMs / 1000)))
    : "+" + minutesSeconds(Math.floor(-leftMs / 1000));
}

/** True once a whole second has gone past the target. */
export function isPast(elapsedMs: number, targetS: number): boolean {
  return targetS > 0 && elapsedMs >= targetS * 1000 + 1000;
}

function minutesSeconds(totalS: number): string {
  const h = Math.floor(totalS / 3600);
  const m = Math.floor((totalS % 3600) / 60);
  const s = pad2(totalS % 60);
  return h > 0 ? `${h}:${pad2(m)}:${s}` : `${m}:${s}`;
}

function pad2(n: number): string {
  return String(n).padStart(2, "0");
}

/** "32 s", "8 min", "8 min 12 s", "1 h 14 min", "2 days 3 h". Whole units, rounded down. */
export function duration(ms: number): string {
  const s = Math.max(0, Math.floor(ms / 1000));
  if (s < 60) return `${s} s`;
  if (s < 600) return s % 60 ? `${Math.floor(s / 60)} min ${s % 60} s` : `${s / 60} min`;
  return longDuration(s);
}

/** As `duration`, in minutes and above only: "0 min", "41 min", "1 h 14 min". For what changes slowly. */
export function minutes(ms: number): string {
  const s = Math.max(0, Math.floor(ms / 1000));
  return s < 3600 ? `${Math.floor(s / 60)} min` : longDuration(s);
}

function longDuration(s: number): string {
  const m = Math.floor(s / 60);
  if (m < 60) return `${m} min`;
  const h = Math.floor(m / 60);
  if (h < 48) return m % 60 ? `${h} h ${m % 60} min` : `${h} h`;
  const days = Math.floor(h / 24);
  return h % 24 ? `${days} days ${h % 24} h` : `${days} days`;
}

/** How old something is, short enough for a key: "now", "3 min", "2 h", "5 days". */
export function age(ms: number): string {
  const m = Math.floor(Math.max(0, ms) / 60000);
  if (m < 1) return "now";
  if (m < 60) return `${m} min`;
  if (m < 48 * 60) return `${Math.floor(m / 60)} h`;
  return `${Math.floor(m / (24 * 60))} days`;
}

/** Clock time at this device's place: "10:02". */
export function timeOfDay(ms: number): string {
  const d = new Date(ms);
  return `${pad2(d.getHours())}:${pad2(d.getMinutes())}`;
}

/** "10:02" today, "4 March 10:02" this year, "4 March 2026 10:02" otherwise. */
export function when(ms: number, nowMs: number): string {
  const d = new Date(ms);
  if (Number.isNaN(d.getTime())) return "beyond any calendar";
  const n = new Date(nowMs);
  if (dayKey(ms) === dayKey(nowMs)) return timeOfDay(ms);
  const day = `${d.getDate()} ${MONTHS[d.getMonth()]}`;
  return d.getFullYear() === n.getFullYear() ? `${day} ${timeOfDay(ms)}` : `${day} ${d.getFullYear()} ${timeOfDay(ms)}`;
}

/** The calendar day at this device's place, "2026-03-04". */
export function dayKey(ms: number): string {
  const d = new Date(ms);
  return `${d.getFullYear()}-${pad2(d.getMonth() + 1)}-${pad2(d.getDate())}`;
}

/** "Wednesday 4 March 2026" */
export function longDay(ms: number): string {
  const d = new Date(ms);
  return `${DAYS[d.getDay()]} ${d.getDate()} ${MONTHS[d.getMonth()]} ${d.getFullYear()}`;
}

/** RFC 3339 with this device's offset, to the second. What no calendar reaches is no time to any reader. */
export function rfc3339(ms: number): string {
  // Before there were time zones, places were some seconds off a whole minute, which RFC 3339 cannot say.
  const off = -Math.round(new Date(ms).getTimezoneOffset());
  const there = new Date(ms + off * 60_000);
  if (Number.isNaN(there.getTime())) return "beyond any calendar";
  const zone = `${off < 0 ? "-" : "+"}${pad2(Math.floor(Math.abs(off) / 60))}:${pad2(Math.abs(off) % 60)}`;
  return there.toISOString().replace(/\.\d+Z$/, zone);
}

/** "1 entry", "3 entries" */
export function count(n: number, one: string, many: string): string {
  return `${n} ${n === 1 ? one : many}`;
}

/** Titles within a sentence: "side AB, pH wanted"; names and signs stay as they are written. */
export function listed(titles: readonly string[]): string {
  return titles.map((t) => t.replace(/^\p{Lu}(?=\p{Ll})/u, (first) => first.toLowerCase())).join(", ");
}

/** "640 KB", "1.4 MB"; storage as people buy it, in thousands. */
export function bytes(n: number): string {
  if (n < 1000) return `${n} bytes`;
  if (n < 1e6) return `${Math.round(n / 1e3)} KB`;
  if (n < 1e9) return `${(n / 1e6).toFixed(1)} MB`;
  return `${(n / 1e9).toFixed(1)} GB`;
}

/** A target as people say it: 480 is "8 min", 90 is "1 min 30 s". */
export function target(s: number): string {
  return duration(s * 1000);
}

/** What a kind of step is called. An unknown one is shown as written. */
export function bathWord(what: string): string {
  return STEP_WORDS[what] ?? what;
}

const STEP_WORDS: Readonly<Record<string, string>> = {
  presoak: "Pre-soak",
  wash: "Wash",
  rinse: "Rinse",
  flowing: "Flowing rinse",
  chelating: "Chelating bath",
  ph_adjust: "pH-adjusting bath",
  local: "Local wetting",
  suction: "Suction",
  gel: "Blotter or gel",
  humidify: "Humidification",
  drying: "Drying",
};

const MONTHS = "January February March April May June July August September October November December".split(" ");
const DAYS = "Sunday Monday Tuesday Wednesday Thursday Friday Saturday".split(" ");
