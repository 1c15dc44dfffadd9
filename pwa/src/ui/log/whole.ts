// A treatment's log read whole, page by page.
import type { Core, LogLine } from "../../core/api";

/** Entries asked for at a time. */
const PAGE = 500;

/** Every line, oldest first. */
export async function wholeLog(core: Core, job: string): Promise<LogLine[]> {
  const lines: LogLine[] = [];
  for (;;) {
    const page = await core.log(job, lines.length, PAGE);
    lines.push(...page.lines);
    if (lines.length >= page.total || page.lines.length === 0) return lines;
  }
}
