import assert from "node:assert/strict";
import { test } from "node:test";
import { list as listOf } from "../../core/library-ops";
import { newLibrary } from "../../testing/kit";
import { find } from "./find";

const list = listOf(await newLibrary());
const names = (typed: string) => find(list, typed).map((r) => r.name);

test("nothing typed lists all, in their order", () => {
  assert.deepEqual(
    names("  "),
    list.map((r) => r.name),
  );
});

const asked: [string, string][] = [
  ["how long does it take to dry", "drying"],
  ["litres in my tray", "tray"],
  ["soap", "solution"],
  ["conductivity", "conductivity"],
  ["dew point", "air"],
  ["cost", "estimate"],
  ["hours", "hours"],
  ["how many rinses", "rinse"],
  ["hydrate", "hydrate"],
  ["is it too heavy to carry", "lift"],
  ["how long can I exhibit this", "rota"],
  ["lux", "light_dose"],
  ["fading", "fade"],
  ["mildew", "mould"],
  ["shrinkage", "size_change"],
  ["is it square", "outline"],
  ["calibrate the pH meter", "ph_calibration"],
  ["limescale", "hardness"],
  ["warm water", "mix_hot_cold"],
  ["bleeding onto the blotter", "grey_stain"],
  ["saturated salt for 55 %", "salt"],
  ["agar", "gel"],
  ["GSM", "mass_per_area"],
  ["tube for rolling", "roll"],
  ["quote for the owner", "estimate"],
  ["dilute stock", "dilution"],
  ["screen colour hex", "colour_convert"],
  ["which way of rinsing saves water", "split"],
  ["wool humidity moisture", "equilibrium"],
  ["micelle", "cmc_salt"],
  ["UV", "ultraviolet"],
  ["EDTA", "chelator"],
  ["deionised water quality", "water_grade"],
  ["wallpaper paste", "paste"],
  ["silica gel box", "chamber"],
];
for (const [typed, want] of asked) {
  test(`“${typed}” finds ${want} among the first three`, () => {
    assert.ok(names(typed).slice(0, 3).includes(want), names(typed).slice(0, 6).join(", "));
  });
}

test("what nothing fits finds nothing", () => {
  assert.deepEqual(names("zebra"), []);
});
