import type { Amended, LogLine } from "../../core/api";
import { timeOfDay, when } from "../base/words";
import { Icon } from "../parts/icon";
import { canAmend } from "./forms";
import { localOffset } from "./local-time";

/** How an entry is to be put right. */
export interface Correct {
  how: "amend" | "strike";
  line: LogLine;
}

interface LineProps {
  line: LogLine;
  /** A day to be named above this line, or empty. */
  day: string;
  onCorrect?: (c: Correct) => void;
  /** The treatment whose log it stands in; empty where lines of several stand together. */
  job?: string;
}

export function Line({ line, day, onCorrect, job = "" }: LineProps) {
  const standing = line.amended.filter((a) => a.stands && !a.struck);
  const old = standing.length > 0;
  return (
    <li
      class={line.struck ? "entry struck" : "entry"}
      data-test="log-entry"
      data-entry={line.entry}
      data-kind={line.kind}
    >
      {day && <h2 class="day">{day}</h2>}
      <details>
        <summary data-test="log-line">
          <time dateTime={line.at.at}>{timeOfDay(line.at.ms)}</time>
          <span class="said">
            <span class={line.struck || old ? "old" : ""}>
              {line.struck ? <s>{line.say}</s> : <bdi>{line.say}</bdi>} <b class="by">{line.by}</b>
            </span>
            {line.amended.map((a) => (
              <Version key={a.entry} of={a} offsetMs={localOffset(line)} />
            ))}
            <Remarks line={line} several={standing.length > 1} />
          </span>
        </summary>
        <Provenance line={line} />
        {onCorrect && <Corrections line={line} onCorrect={onCorrect} job={job} />}
      </details>
    </li>
  );
}

function Version({ of, offsetMs }: { of: Amended; offsetMs: number }) {
  const put = (
    <>
      {of.at && `at ${when(Date.parse(of.at) + offsetMs, of.ms)}: `}
      <bdi>{of.say}</bdi> <b class="by">{of.by}</b>
    </>
  );
  return (
    <span class={of.stands && !of.struck ? "version" : "version old"} data-test="log-amended">
      <Icon is="pencil" />
      <span>
        amended {timeOfDay(of.ms)}: {of.struck ? <s>{put}</s> : put} <i>because: {of.why}</i>
        {of.struck && " (this amendment was struck)"}
      </span>
    </span>
  );
}

function Remarks({ line, several }: { line: LogLine; several: boolean }) {
  return (
    <>
      {line.struck && (
        <span class="remark" data-test="log-struck">
          <Icon is="strike" />
          struck {timeOfDay(line.struck.ms)} by {line.struck.by}: {line.struck.why}
        </span>
      )}
      {several && (
        <span class="remark grave">
          <Icon is="choose" />
          two people amended it at once: press Amend and choose
        </span>
      )}
      {line.late && (
        <span class="remark">
          <Icon is="clock" />
          entered later, at {when(line.at.recorded_ms, line.at.ms)}
        </span>
      )}
      {line.doubt && (
        <span class="remark grave">
          <Icon is="past" />
          doubtful: {line.doubt}
        </span>
      )}
    </>
  );
}

function Provenance({ line }: { line: LogLine }) {
  return (
    <dl class="provenance">
      <div>
        <dt>Happened</dt>
        <dd>
          {line.at.at}
          {line.at.corrected && ` by a clock that was off; ${timeOfDay(line.at.ms)} put right`}
        </dd>
      </div>
      <div>
        <dt>Recorded</dt>
        <dd>
          {new Date(line.at.recorded_ms).toISOString()}, entry {line.n} of device {line.dev}
        </dd>
      </div>
      <div>
        <dt>Name</dt>
        <dd class="hash">{line.entry}</dd>
      </div>
      {line.was && (
        <div>
          <dt>Was</dt>
          <dd class="hash">{line.was}</dd>
        </div>
      )}
    </dl>
  );
}

function Corrections({ line, onCorrect, job }: Required<Pick<LineProps, "line" | "onCorrect" | "job">>) {
  if (line.struck) return null;
  return (
    <div class="row">
      {canAmend(line.kind) && (
        <button type="button" class="key" data-test="amend" onClick={() => onCorrect({ how: "amend", line })}>
          <Icon is="pencil" />
          Amend
        </button>
      )}
      <button type="button" class="key" data-test="strike" onClick={() => onCorrect({ how: "strike", line })}>
        <Icon is="strike" />
        Strike
      </button>
      {job && line.kind === "reckoned" && (
        <a class="key" href={`#/t/${job}/reckoned/${line.entry}`} data-test="reckon-again">
          <Icon is="reckon" />
          Reckon again
        </a>
      )}
    </div>
  );
}
