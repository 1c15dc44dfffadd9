import assert from "node:assert/strict";
import { test } from "node:test";
import { list as listOf } from "../../core/library-ops";
import { newLibrary } from "../../testing/kit";
import { ALSO } from "./alike";
import { find } from "./find";

const list = listOf(await newLibrary());
const names = (typed: string) => find(list, typed).list.map((r) => r.name);

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
  // Words of the trade that stand in no title.
  ["molarity", "strengths"],
  ["demineralised", "water_grade"],
  ["fungus", "mould"],
  ["couching", "stitch_plan"],
  ["gray scale", "grey_change"],
  ["timesheet", "hours"],
  ["tub", "tray"],
  ["lux hours", "light_dose"],
  ["isinglass", "paste"],
  ["fan", "drying"],
  // Another form of the word, another order, figures among them.
  ["when will it be dry", "drying"],
  ["tray litres my in", "tray"],
  ["how long did it take", "hours"],
  ["how much detergent for 60 l at 1 %", "solution"],
  ["30 degrees bath", "mix_hot_cold"],
  ["water use", "water_plan"],
  // Units as they are written.
  ["µS/cm", "conductivity"],
  ["g/m²", "mass_per_area"],
  ["ppm", "strengths"],
  // Questions that nobody here had in mind when the words were put together.
  ["how do I make 5 litres of 2 percent agar", "gel"],
  ["why does my meter drift", "ph_calibration"],
  ["cover the object with water", "depth"],
  ["back pain", "lift"],
  ["save water when rinsing", "split"],
  ["surfactant left after rinsing", "rinse"],
  ["wet for two days", "mould"],
  ["display case humidity", "chamber"],
  ["annual light exposure", "light_dose"],
  ["how many weeks can I show it", "rota"],
  ["wall fixings", "frame"],
  ["price for the client", "estimate"],
  // Slips of wet fingers.
  ["detergant", "solution"],
  ["rince", "rinse"],
  ["dilushion", "dilution"],
  ["humdity", "air"],
  ["temprature", "mix_hot_cold"],
  ["conducitvity", "conductivity"],
  ["calibraton", "ph_calibration"],
  ["Wäscheprobe rinsing", "rinse"],
];
for (const [typed, want] of asked) {
  test(`“${typed}” finds ${want} among the first three`, () => {
    assert.ok(names(typed).slice(0, 3).includes(want), names(typed).slice(0, 6).join(", "));
  });
}

test("what nothing fits finds nothing", () => {
  assert.deepEqual(find(list, "zebra"), { list: [], readAs: [], unknown: ["zebra"] });
});

test("a slip is told, and so is a word that nothing is found by", () => {
  const { readAs, unknown } = find(list, "surfactent for the zebra");
  assert.deepEqual(readAs, [["surfactent", ["surfactant"]]]);
  assert.deepEqual(unknown, ["zebra"]);
});

test("a pasted page is looked up by its first words", () => {
  assert.ok(names("rinse ".repeat(9000)).includes("rinse"));
  assert.deepEqual(names("x".repeat(90_000)), []);
});

test("words beside the titles are of reckonings that there are", () => {
  const there = new Set(list.map((r) => r.name));
  assert.deepEqual(
    Object.keys(ALSO).filter((name) => !there.has(name)),
    [],
  );
});
