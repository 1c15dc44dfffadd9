// Independent libraries that the reckonings are held against in tests; they come without types.

declare module "psychrolib" {
  interface Psychrometrics {
    SI: number;
    SetUnitSystem(system: number): void;
    GetSatVapPres(t: number): number;
    /** Humidity ratio, wet bulb, dew point, vapour pressure, enthalpy, volume, degree of saturation. */
    CalcPsychrometricsFromRelHum(t: number, rh: number, pressure: number): number[];
  }
  const psychrolib: Psychrometrics;
  export default psychrolib;
}

declare module "culori" {
  export interface Colour {
    mode: string;
    [channel: string]: number | string;
  }
  export function converter(mode: string): (c: Colour | string) => Record<string, number>;
  export function differenceCiede2000(kl?: number, kc?: number, kh?: number): (x: Colour, y: Colour) => number;
  export function differenceCie76(): (x: Colour, y: Colour) => number;
  export function differenceCie94(kl?: number, k1?: number, k2?: number): (x: Colour, y: Colour) => number;
}

declare module "convert-units" {
  export default function convert(x: number): { from(unit: string): { to(unit: string): number } };
}
