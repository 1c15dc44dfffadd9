// How a number came about: its reckoning made again by the core, with formula, figures, source and cautions.
import type { Asked } from "../../core/api";
import { Answer } from "../reckon/answer";
import { useReckoned } from "../reckon/use-reckoned";
import { Icon } from "./icon";
import { Sheet } from "./sheet";

interface WorkingSheetProps {
  title: string;
  asked: Asked;
  onClose: () => void;
}

export function WorkingSheet({ title, asked, onClose }: WorkingSheetProps) {
  const { result, problems } = useReckoned(asked.name, isRecord(asked.inputs) ? asked.inputs : {});
  return (
    <Sheet title={title} onClose={onClose}>
      <div class="sheet-body worked" data-test="worked">
        {!result && problems.length === 0 && <p class="quiet">Reckoning …</p>}
        {problems.length > 0 && (
          <ul class="facts">
            {problems.map((p) => (
              <li key={p.field + p.say}>{p.say}</li>
            ))}
          </ul>
        )}
        {result && <Answer result={result} open />}
      </div>
    </Sheet>
  );
}

function isRecord(v: unknown): v is Record<string, unknown> {
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
