// The kinds of wetting, and drying: what each is called and what is asked of it. What they mean for the
// clocks is the core's.

export const BATHS = ["presoak", "wash", "rinse"] as const;
export const OTHERS = ["flowing", "chelating", "ph_adjust", "local", "suction", "gel", "humidify"] as const;

export type What = (typeof BATHS)[number] | (typeof OTHERS)[number] | "drying";

export function isWhat(v: unknown): v is What {
  return v === "drying" || (BATHS as readonly unknown[]).includes(v) || (OTHERS as readonly unknown[]).includes(v);
}

/** `needed`, `optional`, or `none` where it is not asked at all. */
export type Ask = "needed" | "optional" | "none";

interface Kind {
  /** What it is, for who chooses among several. */
  help: string;
  /** What the liquid is called for it. */
  liquid: string;
  litres: Ask;
  /** In the middle of a sentence: "begin flowing rinse". */
  act: string;
}

const TRAY = { liquid: "Liquid", litres: "needed" } as const;
const LITTLE = { liquid: "Liquid or medium", litres: "optional" } as const;

export const KINDS: Readonly<Record<What, Kind>> = {
  presoak: { help: "in a tray, before the first wash", act: "pre-soak", ...TRAY },
  wash: { help: "in a tray, with detergent", act: "wash", ...TRAY },
  rinse: { help: "in a tray", act: "rinse", ...TRAY },
  flowing: { help: "fresh water runs through", act: "flowing rinse", ...TRAY },
  chelating: { help: "to bind metals", act: "chelating bath", ...TRAY },
  ph_adjust: { help: "to bring the pH back", act: "pH-adjusting bath", ...TRAY },
  local: { help: "one place only", act: "local wetting", ...LITTLE },
  suction: { help: "on the suction table or disc", act: "suction", ...LITTLE },
  gel: { help: "laid on, damp", act: "blotter or gel", ...LITTLE },
  humidify: { help: "vapour or damp cover", act: "humidification", ...LITTLE },
  drying: { help: "with checks until it is dry", liquid: "", litres: "none", act: "drying" },
};

/** What a kind of step is called in the middle of a sentence; one that this version does not know, as it is written. */
export function kindAct(what: string): string {
  return isWhat(what) ? KINDS[what].act : what;
}

/** Kinds that a step can be corrected to: those that are recorded in the same way. */
export function kin(what: string): readonly string[] {
  return [BATHS, OTHERS].find((list) => list.some((w) => w === what)) ?? [what];
}
