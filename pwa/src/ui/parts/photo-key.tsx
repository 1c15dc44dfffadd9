// A photograph from the camera or a file, kept with the entry that it belongs to.
import { useRef, useState } from "preact/hooks";
import { faults } from "../base/acts";
import { useCore } from "../base/core";
import { who } from "../base/remember";
import { Icon } from "./icon";
import { announce } from "./say";

interface PhotoKeyProps {
  job: string;
  /** Entry that it belongs to; empty for none. */
  of: string;
  text?: string;
  label?: string;
}

export function PhotoKey({ job, of, text, label = "Photograph" }: PhotoKeyProps) {
  const core = useCore();
  const file = useRef<HTMLInputElement>(null);
  const [say, setSay] = useState("");
  const take = async (image: File | undefined) => {
    if (!image) return;
    if (!who.peek()) return setSay("Say first who is at the sink.");
    setSay("Keeping it …");
    try {
      await core.keepPhoto({
        job,
        image,
        by: who.peek(),
        ...(of ? { of } : {}),
        ...(text ? { text } : {}),
      });
      setSay("Kept");
      announce("The photograph is kept.");
    } catch (e) {
      setSay(
        faults(e)
          .map((w) => w.say)
          .join(" "),
      );
    }
    if (file.current) file.current.value = "";
  };
  return (
    <>
      <button type="button" class="key photo" data-test="photo" onClick={() => file.current?.click()}>
        <Icon is="camera" />
        <span role="status">{say ? `${label}: ${say}` : label}</span>
      </button>
      <input
        ref={file}
        class="unseen"
        type="file"
        accept="image/*"
        capture="environment"
        tabIndex={-1}
        aria-hidden="true"
        data-test="photo-file"
        onChange={(e) => void take(e.currentTarget.files?.[0])}
      />
    </>
  );
}
