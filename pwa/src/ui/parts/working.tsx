// How a number came about: its reckoning made again by the core, with formula, figures, source and cautions.
import { useEffect, useState } from "preact/hooks";
import type { Asked, Problem, Result } from "../../core/api";
import { useCore } from "../base/core";
import { Answer } from "../reckon/answer";
import { Icon } from "./icon";
import { Sheet } from "./sheet";

interface WorkingSheetProps {
  title: string;
  asked: Asked;
  onClose: () => void;
}

export function WorkingSheet({ title, asked, onClose }: WorkingSheetProps) {
  const answer = useReckoned(asked);
  return (
    <Sheet title={title} onClose={onClose}>
      <div class="sheet-body worked" data-test="worked">
        {answer === null && <p class="quiet">Reckoning …</p>}
        {answer !== null && "problems" in answer && (
          <ul class="facts">
            {answer.problems.map((p) => (
              <li key={p.field + p.say}>{p.say}</li>
            ))}
          </ul>
        )}
        {answer !== null && !("problems" in answer) && <Answer result={answer} open />}
      </div>
    </Sheet>
  );
}

function useReckoned(asked: Asked): Result | { problems: Problem[] } | null {
  const core = useCore();
  const [answer, setAnswer] = useState<Result | { problems: Problem[] } | null>(null);
  const inputs = JSON.stringify(asked.inputs);
  useEffect(() => {
    let wanted = true;
    const none = (say: string) => ({ problems: [{ field: "", value: "", unit: "", allowed: "", say }] });
    core.reckon(asked.name, isObject(asked.inputs) ? asked.inputs : {}).then(
      (r) => wanted && setAnswer(r),
      () => wanted && setAnswer(none("It cannot be reckoned now: the core does not answer. Try it again.")),
    );
    return () => {
      wanted = false;
    };
  }, [asked.name, inputs]);
  return answer;
}

function isObject(v: unknown): v is object {
  return typeof v === "object" && v !== null;
}

/** The key that opens it, beside the number. */
export function WorkingKey({ onAsk, test }: { onAsk: () => void; test: string }) {
  return (
    <button type="button" class="key" data-test={test} onClick={onAsk}>
      <Icon is="reckon" />
      How it was reckoned
    </button>
  );
}
