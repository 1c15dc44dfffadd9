// The library, as the phone runs it, held against independent libraries over wide grids: moist air, colour, units.
// These libraries are in nothing that is shipped.
import assert from "node:assert/strict";
import { test } from "node:test";
import Color from "colorjs.io";
import convert from "convert-units";
import { converter, differenceCie76, differenceCie94, differenceCiede2000 } from "culori";
import psychrolib from "psychrolib";
import * as ops from "../core/library-ops";
import { newLibrary } from "./kit";

const library = await newLibrary();

function figures(name: string, inputs: object): Record<string, number> {
  const a = ops.run(library, name, inputs);
  assert.ok("values" in a, `${name} ${JSON.stringify(inputs)}: ${JSON.stringify(a)}`);
  return Object.fromEntries(a.values.map((v) => [v.name, v.value]));
}

function near(what: string, got: number | undefined, want: number, off: number): void {
  assert.ok(got !== undefined && Math.abs(got - want) <= off, `${what}: ${got}, elsewhere ${want}`);
}

// ASHRAE's equations of 2017 in another hand. Tolerances: the equations are the same; what differs is how closely wet
// bulb and dew point are searched for there, to 0.001 °C.
test("moist air agrees over temperature, humidity and pressure", () => {
  psychrolib.SetUnitSystem(psychrolib.SI);
  for (let t = 0.5; t <= 60; t += 3.5) {
    for (const rh of [2, 5, 10, 20, 35, 50, 65, 75, 85, 95, 99]) {
      for (const hPa of [700, 900, 1013.25, 1080]) {
        const [w = 0, wet = 0, dew = 0, pv = 0, h = 0, v = 0] = psychrolib.CalcPsychrometricsFromRelHum(
          t,
          rh / 100,
          hPa * 100,
        );
        const at = `${t} °C, ${rh} %, ${hPa} hPa`;
        const got = figures("air", { temperature: t, humidity: rh, pressure: hPa });
        near(`vapour pressure at ${at}`, got["vapour_pressure"], pv, 1e-6 * pv + 1e-6);
        near(`humidity ratio at ${at}`, got["humidity_ratio"], w * 1000, 1e-5 * w * 1000 + 1e-6);
        near(`enthalpy at ${at}`, got["enthalpy"], h / 1000, 1e-5 * Math.abs(h / 1000) + 1e-3);
        near(`volume at ${at}`, got["specific_volume"], v, 1e-5 * v);
        // Below 0 °C the two go apart on purpose: there they reckon over ice, we over water.
        if (dew > 0.01) near(`dew point at ${at}`, got["dew_point"], dew, 0.005);
        if (wet > 0.01) near(`wet bulb at ${at}`, got["wet_bulb"], wet, 0.005);
      }
    }
  }
});

/** Colours all over, in a fixed order: no two steps share a factor. */
function* labs(count: number): Generator<[number, number, number]> {
  for (let i = 0; i < count; i++) yield [(i * 37) % 101, ((i * 71) % 241) - 120, ((i * 113) % 239) - 119];
}

test("colour differences agree with two other libraries", () => {
  const d00 = differenceCiede2000(1, 1, 1);
  const d00textile = differenceCiede2000(2, 1, 1);
  const d94 = differenceCie94(1, 0.045, 0.015);
  const all = [...labs(240)];
  for (let i = 0; i < all.length; i++) {
    const x = all[i] ?? [0, 0, 0];
    // Far apart by turns, and near: that is where the formulas differ most.
    const far = all[(i * 7 + 3) % all.length] ?? [0, 0, 0];
    const y: [number, number, number] =
      i % 2 === 0 ? far : [Math.min(100, x[0] + 0.7), Math.min(120, x[1] - 1.3), Math.min(120, x[2] + 0.9)];
    const lab = ([l, a, b]: [number, number, number]) => ({ mode: "lab65", l, a, b });
    const inputs = {
      before_l: x[0],
      before_a: x[1],
      before_b: x[2],
      after_l: y[0],
      after_a: y[1],
      after_b: y[2],
    };
    const at = `${x} and ${y}`;
    const got = figures("colour_difference", inputs);
    near(`76 of ${at}`, got["de76"], differenceCie76()(lab(x), lab(y)), 1e-9);
    near(`94 of ${at}`, got["de94"], d94(lab(x), lab(y)), 1e-9);
    near(`2000 of ${at}`, got["de00"], d00(lab(x), lab(y)), 1e-9);
    near(
      `2000 for textiles of ${at}`,
      figures("colour_difference", { ...inputs, weights: "textiles" })["de00"],
      d00textile(lab(x), lab(y)),
      1e-9,
    );
    const other = new Color("lab", x).deltaE2000(new Color("lab", y));
    near(`2000 of ${at} by the other`, got["de00"], other, 1e-9);
  }
});

test("sRGB goes to Lab under D65 and D50 as elsewhere", () => {
  const d65 = converter("lab65");
  const d50 = converter("lab");
  for (let n = 0; n < 0x1000000; n += 137_731) {
    const hex = `#${n.toString(16).padStart(6, "0")}`;
    const got = figures("colour_convert", { hex });
    const a = d65(hex);
    const b = d50(hex);
    // Elsewhere the white is rounded, to 0.9505 and 1.089: hence 0.01 and not less.
    for (const [name, want] of [
      ["l_d65", a["l"]],
      ["a_d65", a["a"]],
      ["b_d65", a["b"]],
      ["l_d50", b["l"]],
      ["a_d50", b["a"]],
      ["b_d50", b["b"]],
    ] as const) {
      near(`${name} of ${hex}`, got[name], want ?? 0, 0.01);
    }
    const xyz = new Color(hex).to("xyz-d65").coords;
    for (const [i, name] of ["x", "y", "z"].entries()) near(`${name} of ${hex}`, got[name], xyz[i] ?? 0, 2e-5);
  }
});

// Each row: a reckoning that takes a quantity in any unit and gives it back in its own.
test("units agree", () => {
  const volume = (value: number, unit: string) =>
    figures("tray", { length: "100 cm", width: "100 cm", depth: { value, unit } })["litres"];
  for (const [unit, theirs] of [
    ["cm", "cm"],
    ["mm", "mm"],
    ["in", "in"],
  ] as const) {
    near(`3 ${unit}`, volume(3, unit), convert(3).from(theirs).to("mm"), 1e-5); // there a foot has seven figures
  }
  const mass = (value: number, unit: string) =>
    figures("mass_per_area", { mass: { value, unit }, area: { value: 1, unit: "m²" } })["per_area"];
  for (const [unit, theirs] of [
    ["g", "g"],
    ["kg", "kg"],
    ["oz", "oz"],
    ["lb", "lb"],
  ] as const) {
    near(`7 ${unit}`, mass(7, unit), convert(7).from(theirs).to("g"), 1e-6 * convert(7).from(theirs).to("g")); // there an ounce has six figures
  }
  const area = (value: number, unit: string) => figures("mass_per_area", { mass: 1, area: { value, unit } })["area"];
  for (const [unit, theirs] of [
    ["cm²", "cm2"],
    ["m²", "m2"],
    ["in²", "in2"],
    ["ft²", "ft2"],
  ] as const) {
    near(`5 ${unit}`, area(5, unit), convert(5).from(theirs).to("m2"), 1e-6);
  }
  const litres = (value: number, unit: string) =>
    figures("water_plan", { rinses: 1, rinse_litres: { value, unit }, spare: 0 })["planned"];
  for (const [unit, theirs] of [
    ["mL", "ml"],
    ["US gal", "gal"],
    ["US fl oz", "fl-oz"],
  ] as const) {
    near(`90 ${unit}`, litres(90, unit), convert(90).from(theirs).to("l"), 1e-4 * 90);
  }
  const celsius = figures("air", { temperature: "77 °F", humidity: 100 })["dew_point"];
  near("77 °F", celsius, convert(77).from("F").to("C"), 1e-9);
  const dose = figures("light_dose", { lux: "10 fc", day: 1, days: 1 })["in_a_day"];
  near("10 fc", dose, convert(10).from("ft-cd").to("lx"), 1e-3);
});
