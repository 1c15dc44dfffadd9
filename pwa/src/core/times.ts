/** A time of this device as RFC 3339 with its offset from UTC and milliseconds. */
export function timeText(ms: number): string {
  const d = new Date(ms);
  const offset = -d.getTimezoneOffset();
  const shown = new Date(ms + offset * 60_000).toISOString().slice(0, -1);
  const two = (n: number) => String(n).padStart(2, "0");
  const size = Math.abs(offset);
  return `${shown}${offset < 0 ? "-" : "+"}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}
