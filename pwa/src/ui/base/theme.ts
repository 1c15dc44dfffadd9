import { effect } from "@preact/signals";
import { theme } from "./remember";

/** Keeps the page's look in step with the person's choice, or with the device's. */
export function startTheme(): void {
  effect(() => {
    const root = document.documentElement;
    if (theme.value === "device") delete root.dataset["theme"];
    else root.dataset["theme"] = theme.value;
  });
}
