import { relation } from "../relation/index.ts";
import { carbonicPk1, carbonicPk2 } from "./carbonic.ts";
import { MOLAR_MASS, ZERO_CELSIUS } from "./constants.ts";
import { co2DiffusivityZeebe } from "./diffusivity.ts";
import { CM_PER_H, chemicalEnhancement, hydrationRate } from "./enhancement.ts";
import { quantity, waterTemperature } from "./usual-inputs.ts";

/** Diffusivities of the ions at 25 °C, m2/s. From memory; they move with temperature as CO2 does here. */
const ION = { bicarbonate: 1.185e-9, carbonate: 0.955e-9, hydrogen: 9.311e-9, hydroxide: 5.273e-9 };
const STEPS = 300;

/**
 * Ion product of water at no ionic strength.
 * @param t temperature, °C, 0 to 45
 * @returns mol2/L2. Source: millero-1995
 */
function ionProduct(t: number): number {
  const k = t + ZERO_CELSIUS;
  return Math.exp(148.9802 - 13847.26 / k - 23.6521 * Math.log(k));
}

/** Root of a function that falls with ln h, by Newton steps on ln h. */
function solveLnH(start: number, fall: (h: number) => number, slope: (h: number) => number): number {
  let x = start;
  for (let i = 0; i < 60; i++) {
    const h = Math.exp(x);
    const step = Math.max(-2, Math.min(2, -fall(h) / slope(h)));
    x += step;
    if (Math.abs(step) < 1e-12) break;
  }
  return x;
}

export interface FilmInput {
  /** CO2 in the body of the water and at the surface, mg/L. */
  readonly bulkMgL: number;
  readonly surfaceMgL: number;
  /** Alkalinity, meq/L. */
  readonly alkalinity: number;
  /** Transfer velocity without reaction, cm/h. */
  readonly transfer: number;
  /** Water temperature, °C. */
  readonly t: number;
  /** Holds pH at its bulk value and gives all carbon one diffusivity, which turns the model into the closed form. */
  readonly heldPh?: boolean;
}

/**
 * Chemical enhancement of CO2 transfer with pH free to move through the film: CO2, bicarbonate, carbonate, hydrogen and
 * hydroxide diffuse and react through a stagnant film, no ion crosses the surface, charges are not felt.
 * @returns factor on the transfer velocity, bulk pH and pH at the surface, pure numbers
 * @throws RangeError where the water is in equilibrium with the surface. Sources: closure-design, johnson-1982
 */
export function filmEnhancement(input: FilmInput): {
  readonly factor: number;
  readonly bulkPh: number;
  readonly surfacePh: number;
} {
  const { t, alkalinity, transfer, heldPh = false } = input;
  const k1 = 10 ** -carbonicPk1(t);
  const k2 = 10 ** -carbonicPk2(t);
  const kw = ionProduct(t);
  const d = co2DiffusivityZeebe(t);
  const warmth = d / co2DiffusivityZeebe(25);
  const dB = heldPh ? d : ION.bicarbonate * warmth;
  const dC = heldPh ? d : ION.carbonate * warmth;
  const dH = ION.hydrogen * warmth;
  const dO = ION.hydroxide * warmth;
  const bulk = input.bulkMgL / (MOLAR_MASS.co2 * 1000);
  const surface = input.surfaceMgL / (MOLAR_MASS.co2 * 1000);
  const alk = alkalinity / 1000;
  if (bulk === surface) throw new RangeError("no CO2 crosses a surface that is in equilibrium with the water");

  const lnBulkH = solveLnH(
    Math.log((k1 * bulk) / alk),
    (h) => (k1 * bulk) / h + (2 * k1 * k2 * bulk) / (h * h) + kw / h - h - alk,
    (h) => -(k1 * bulk) / h - (4 * k1 * k2 * bulk) / (h * h) - kw / h - h,
  );
  const bulkH = Math.exp(lnBulkH);
  const bicarbonate = (k1 * bulk) / bulkH;
  const carbonate = (k2 * bicarbonate) / bulkH;
  /** Alkalinity and ionic carbon, each ion weighted with its diffusivity: the first is the same through the film. */
  const weightedAlk = dB * bicarbonate + 2 * dC * carbonate + (dO * kw) / bulkH - dH * bulkH;
  const weightedIons = dB * bicarbonate + dC * carbonate;

  const hOfIons = (ions: number, start: number): number => {
    const bicarbonateAt = (h: number) => ions / (dB + (dC * k2) / h);
    return solveLnH(
      start,
      (h) => bicarbonateAt(h) * (dB + (2 * dC * k2) / h) + (dO * kw) / h - dH * h - weightedAlk,
      (h) => {
        const b = bicarbonateAt(h);
        const x = (dC * k2) / h;
        return (-b * dB * x) / (dB + x) - (dO * kw) / h - dH * h;
      },
    );
  };

  const thickness = d / (transfer / CM_PER_H);
  const dz = thickness / STEPS;
  const bulkRate = hydrationRate(-Math.log10(bulkH), t);
  let lnH = lnBulkH;
  const curvature = (co2: number, ions: number): number => {
    if (!heldPh) lnH = hOfIons(ions, lnH);
    const h = Math.exp(lnH);
    const inBalance = (h * ions) / (dB + (dC * k2) / h) / k1;
    const rate = heldPh ? bulkRate : hydrationRate(-lnH / Math.LN10, t);
    return (rate * (co2 - inBalance)) / d;
  };

  const plain = (d * (bulk - surface)) / thickness;
  let surfaceLnH = lnBulkH;
  /** CO2 at the inner edge of the film when a flow leaves at the surface; the right flow meets the bulk. */
  const shoot = (flow: number): number => {
    const carbon = (z: number) => d * bulk + weightedIons - flow * (thickness - z);
    let co2 = surface;
    let slope = flow / d;
    lnH = lnBulkH;
    if (carbon(0) - d * co2 <= 0) return Number.POSITIVE_INFINITY;
    if (!heldPh) lnH = hOfIons(carbon(0) - d * co2, lnH);
    surfaceLnH = lnH;
    for (let i = 0; i < STEPS; i++) {
      const z = i * dz;
      const middle = carbon(z + dz / 2);
      const a1 = curvature(co2, carbon(z) - d * co2);
      const c2 = co2 + (slope * dz) / 2;
      const a2 = curvature(c2, middle - d * c2);
      const c3 = co2 + (slope * dz) / 2 + (a1 * dz * dz) / 4;
      const a3 = curvature(c3, middle - d * c3);
      const c4 = co2 + slope * dz + (a2 * dz * dz) / 2;
      const a4 = curvature(c4, carbon(z + dz) - d * c4);
      co2 += slope * dz + (dz * dz * (a1 + a2 + a3)) / 6;
      slope += (dz * (a1 + 2 * a2 + 2 * a3 + a4)) / 6;
      // A wrong flow runs away exponentially: leave as soon as the direction is plain.
      if (!(d * co2 < 0.999 * carbon(z + dz))) return Number.POSITIVE_INFINITY;
      if (co2 < -surface - bulk) return Number.NEGATIVE_INFINITY;
    }
    return co2 - bulk;
  };

  const bulkPh = -lnBulkH / Math.LN10;
  // The held-pH factor bounds the free one from above, no reaction from below.
  let low = 0.999;
  let high = 1.05 * chemicalEnhancement(bulkPh, transfer, t);
  const sign = Math.sign(plain);
  for (let i = 0; i < 46; i++) {
    const middle = 0.5 * (low + high);
    if (shoot(plain * middle) * sign > 0) high = middle;
    else low = middle;
  }
  return { factor: 0.5 * (low + high), bulkPh, surfacePh: -surfaceLnH / Math.LN10 };
}

export const filmRelations = [
  relation({
    id: "co2-film-enhancement",
    title: "Chemical enhancement of CO2 transfer in fresh water",
    room: "gas",
    inputs: {
      co2: quantity("CO2 in the water", "mg/L", 0.7, 100),
      surface_co2: quantity("CO2 at the surface, in equilibrium with the air", "mg/L", 0, 10, 0.6),
      alkalinity: quantity("alkalinity", "meq/L", 0.05, 10),
      transfer: quantity("transfer velocity without reaction", "cm/h", 0.5, 50),
      temperature: waterTemperature,
    },
    outputs: {
      factor: { label: "factor on the transfer velocity", unit: "1" },
      ph: { label: "pH in the body of the water", unit: "1" },
      surface_ph: { label: "pH at the surface", unit: "1" },
    },
    equation:
      "film of thickness D/k_L: diffusion and reaction of CO2, HCO3, CO3, H and OH, no ion through the surface, solved by shooting",
    sources: ["closure-design", "johnson-1982", "plummer-busenberg-1982", "zeebe-2011"],
    validity:
      "Shows why 1 is right for an injected tank; the flow must leave the water (CO2 above that of the surface).",
    compute: ({ co2, surface_co2, alkalinity, transfer, temperature }) => {
      const film = filmEnhancement({
        bulkMgL: co2,
        surfaceMgL: surface_co2,
        alkalinity,
        transfer,
        t: temperature,
      });
      return { factor: film.factor, ph: film.bulkPh, surface_ph: film.surfacePh };
    },
  }),
] as const;
