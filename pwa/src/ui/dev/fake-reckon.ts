// A reckoning drawn and answered like the real ones, with invented figures.
import type { Input, Reckoning, Result } from "../../core/api";

function input(name: string, title: string, more: Partial<Input>): Input {
  return {
    name,
    title,
    kind: "quantity",
    unit: "",
    units: [],
    min: 0,
    max: 0,
    ranges: [],
    whole: false,
    of: "",
    when: "",
    is: [],
    default: "",
    optional: false,
    choices: [],
    help: "",
    ...more,
  };
}

export const FAKE_RECKONINGS: Reckoning[] = [
  {
    name: "solution",
    title: "A solution from a paste, liquid or powder",
    asks: "How much of a product goes into the bath?",
    inputs: [
      input("form", "The product is", {
        kind: "choice",
        choices: [
          { value: "paste", title: "a paste or powder, weighed" },
          { value: "liquid", title: "a liquid, measured" },
        ],
      }),
      input("litres", "Bath", {
        unit: "L",
        units: ["L", "mL", "US gal"],
        ranges: [{ unit: "L", min: 0.01, max: 5000 }],
        help: "What the tray holds.",
      }),
      input("litres_pm", "± Bath", { kind: "number", of: "litres", optional: true }),
      input("active", "Active content", { unit: "% w/w", units: ["% w/w"], default: "28", help: "From the label." }),
      input("density", "Density", { unit: "g/mL", units: ["g/mL"], when: "form", is: ["liquid"] }),
    ],
    sources: [],
    results: [],
  },
  {
    name: "tray",
    title: "A tray's litres and mass",
    asks: "How many litres does the tray take, and what will it weigh?",
    inputs: [],
    sources: [],
    results: [],
  },
  {
    name: "rinse",
    title: "What remains after rinses",
    asks: "How much is left after so many rinses?",
    inputs: [],
    sources: [],
    results: [],
  },
];

export function fakeReckon(
  inputs: Record<string, unknown>,
): Result | { problems: { field: string; value: string; unit: string; allowed: string; say: string }[] } {
  const litres = inputs["litres"] as { value: string; unit: string } | undefined;
  if (!litres)
    return {
      problems: [{ field: "litres", value: "", unit: "L", allowed: "0.01 to 5000 L", say: "Bath is missing." }],
    };
  const n = Number(litres.value.replace(",", "."));
  if (!(n > 0)) {
    const say = `Bath “${litres.value}” is no number. Write it like 12.5 or 12,5.`;
    return { problems: [{ field: "litres", value: litres.value, unit: litres.unit, allowed: "0.01 to 5000 L", say }] };
  }
  return {
    values: [
      {
        name: "product",
        title: "Product to weigh out",
        value: n * 8.36,
        unit: "g",
        low: null,
        high: null,
        shown: `${(n * 8.36).toFixed(1)} g`,
      },
      {
        name: "strength",
        title: "Active strength",
        value: 2.34,
        unit: "g/L",
        low: null,
        high: null,
        shown: "2.34 g/L",
      },
    ],
    unknown: [{ name: "multiple", title: "Multiple of the CMC", say: "The CMC is not given." }],
    working: [
      {
        say: "Active mass wanted",
        formula: "litres × strength",
        put: `${n} L × 2.34 g/L = ${(n * 2.34).toFixed(1)} g`,
        source: "An invented note",
      },
    ],
    cautions: [
      { about: "people", say: "It splashes and dries the skin: gloves and eye protection.", source: "" },
      { about: "object", say: "A strength above the tested one reopens every spot test.", source: "An invented note" },
    ],
    sources: [{ name: "An invented note", where: "for looking at screens", mark: "practice" }],
  };
}
