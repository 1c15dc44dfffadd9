// The day for paper: every treatment of a day on its own sheets, through the browser's print.
import { useCore } from "../base/core";
import { useMinute } from "../base/ticking";
import { count, dayKey, longDay, rfc3339 } from "../base/words";
import { Icon } from "../parts/icon";
import { Page } from "../parts/page";
import { PaperSheet } from "./paper";
import { spanOf } from "./span";
import { useDayRead } from "./use-day";

interface DayProps {
  /** 2026-03-04 */
  day: string;
  /** One treatment alone; empty for all. */
  job: string;
}

export function DayOnPaper({ day, job }: DayProps) {
  const span = spanOf(day);
  const { of, waits, missing } = useDayRead(span, job);
  const now = useMinute();
  const at = (other: string) => (job ? `#/t/${job}/day/${other}` : `#/day/${other}`);
  const printed = rfc3339(now).replace("T", " ").slice(0, 16);
  const back = job ? { to: `#/t/${job}`, say: "Sink" } : { to: "#/studio", say: "Studio page" };
  return (
    <Page title={longDay(span.from)} back={back} wide>
      <div class="row day-bar">
        <p role="status" data-test="day-says">
          {daySays(of.length, waits)}
        </p>
        <button type="button" class="key strong" data-test="print" onClick={() => window.print()}>
          <Icon is="note" />
          Print
        </button>
        <SaveCsv day={day} />
      </div>
      <nav class="row day-bar" aria-label="Other days">
        <a class="key" href={at(dayKey(span.from - 1))} data-test="day-before">
          <Icon is="back" />
          The day before
        </a>
        {span.to <= now && (
          <a class="key" href={at(dayKey(span.to))} data-test="day-after">
            The day after
          </a>
        )}
      </nav>
      <div class="papers">
        {waits === 0 && missing > 0 && (
          <p class="paper-lacks" data-test="day-missing">
            Not the whole day: {count(missing, "log", "logs")} that may belong to it could not be fetched from the
            studio machine.
          </p>
        )}
        {of.map((o) => (
          <PaperSheet key={o.state.job} of={o} span={span} now={now} printed={printed} />
        ))}
      </div>
    </Page>
  );
}

function daySays(sheets: number, waits: number): string {
  if (waits > 0) return "Fetching the logs of that day …";
  if (sheets === 0) return "Nothing is recorded of that day on this device.";
  return sheets === 1 ? "One treatment, on A4." : `${sheets} treatments, each on its own sheets of A4.`;
}

/** The studio machine writes the file: it has what every device sent. */
function SaveCsv({ day }: { day: string }) {
  const { link, unsent } = useCore().status.value;
  if (link !== "on")
    return (
      <p class="quiet" data-test="csv-offline">
        To save the day as CSV the studio machine must be in reach.
      </p>
    );
  return (
    <>
      <a class="key" href={`/api/day/${day}/log.csv`} download data-test="print-csv">
        <Icon is="save" />
        Save as CSV
      </a>
      {unsent > 0 && (
        <p class="quiet" data-test="csv-unsent">
          {count(unsent, "entry", "entries")} of this device will be missing in the CSV until the studio machine has
          them.
        </p>
      )}
    </>
  );
}
