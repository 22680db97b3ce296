import { findPlant, plants } from "../facts/index.ts";
import { relation } from "../relation/index.ts";
import { umolPerMgCo2 } from "./carbon.ts";
import {
  calibratedMuMax,
  canopyLight,
  carbonFactor,
  duckweed,
  duckweedLight,
  grossRate,
  halfSaturationByNeed,
  mortalityRate,
  mortalityShare,
  type PatchParameters,
  patchParameters,
  respirationRate,
  respirationShare,
  temperatureFactor,
} from "./patch.ts";
import {
  biomass,
  choice,
  co2,
  extinction,
  nutrientFactor,
  photoperiod,
  ppfdTop,
  quantity,
  temperature,
} from "./usual-inputs.ts";
import { duckweedTemperature, inOrder, q10Factor } from "./warmth.ts";

/** Steady conditions in which a patch grows, day after day. */
export interface PatchConditions {
  /** Light per day, h. */
  readonly photoperiod: number;
  /** Water temperature, °C. */
  readonly temperature: number;
  /** Photon flux on top while the lamp is on, umol/m2/s. */
  readonly ppfd: number;
  /** Free carbon dioxide, umol/L. */
  readonly co2: number;
  /** Bicarbonate, umol/L. */
  readonly bicarbonate: number;
  /** Nutrient factor, 0..1. */
  readonly nutrients: number;
  /** Share of the biomass in roots, 0..1. */
  readonly rootShare: number;
  /** Capacity of leaves raised in air, 0..1; 1 for leaves grown under water. */
  readonly acclimation: number;
}

/** Rates of a patch as a mean over the day, per biomass, 1/d, and its factors. */
export interface PatchGrowth {
  readonly temperature: number;
  readonly light: number;
  readonly carbon: number;
  readonly gross: number;
  readonly respiration: number;
  readonly net: number;
}

/**
 * Growth of a patch over a day of steady conditions.
 * @param biomass g dry/m2
 * @returns rates in 1/d; net = gross - respiration - mortality. Sources: pcditch, pclake, klein-2022
 */
export function patchGrowth(p: PatchParameters, c: PatchConditions, biomass: number): PatchGrowth {
  const fT = temperatureFactor(c.temperature, p);
  const fLight = canopyLight(c.ppfd, p, biomass, fT);
  const fCarbon = carbonFactor(c.co2, c.bicarbonate, c.ppfd, p);
  const day = c.photoperiod / 24;
  const gross = day * grossRate(p, fT, fLight, fCarbon, c.nutrients, 1, c.rootShare, c.acclimation);
  const respiration = respirationRate(p, c.temperature, 1);
  return {
    temperature: fT,
    light: fLight,
    carbon: fCarbon,
    gross,
    respiration,
    net: gross - respiration - mortalityRate(p, 1),
  };
}

/**
 * Photon flux at which a thin stand neither grows nor shrinks, with bicarbonate left out.
 * @returns umol/m2/s; Infinity where no light is enough, 0 where nothing is lost
 */
export function compensationLight(p: PatchParameters, c: PatchConditions): number {
  const fT = temperatureFactor(c.temperature, p);
  const ample = grossRate(p, fT, 1, carbonFactor(c.co2, 0, 0, p), c.nutrients, 1, c.rootShare, c.acclimation);
  const loss = respirationRate(p, c.temperature, 1) + mortalityRate(p, 1);
  if (loss === 0) return 0;
  const y = loss / (ample * (c.photoperiod / 24));
  const half = p.floating ? p.kI : p.kI * fT;
  return y < 1 ? (half * y) / (1 - y) : Number.POSITIVE_INFINITY;
}

/**
 * Biomass at which a patch holds steady by shading (or crowding) itself.
 * @returns g dry/m2; 0 where even a thin stand shrinks, infinite where nothing bounds it
 */
export function steadyBiomass(p: PatchParameters, c: PatchConditions): number {
  if (!(patchGrowth(p, c, 0).net > 0)) return 0;
  let low = 0;
  let high = 100;
  while (patchGrowth(p, c, high).net > 0) {
    high *= 2;
    if (!(high < 1e9)) return Number.POSITIVE_INFINITY;
  }
  for (let n = 0; n < 100 && high - low > 1e-9 * high; n++) {
    const middle = (low + high) / 2;
    if (patchGrowth(p, c, middle).net > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * Biomass after some days of steady conditions (fourth-order steps of at most a tenth of a day).
 * @param start g dry/m2; @param days d
 * @returns g dry/m2
 */
export function biomassAfter(p: PatchParameters, c: PatchConditions, start: number, days: number): number {
  const steps = Math.max(1, Math.ceil(days * 10));
  const h = days / steps;
  const slope = (b: number) => patchGrowth(p, c, b).net * b;
  let b = start;
  for (let n = 0; n < steps; n++) {
    const k1 = slope(b);
    const k2 = slope(b + (h / 2) * k1);
    const k3 = slope(b + (h / 2) * k2);
    const k4 = slope(b + h * k3);
    b += (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
  }
  return b;
}

/** Time in which a stand doubles at a relative growth rate. @param rate 1/d @returns d */
export function doublingTime(rate: number): number {
  return Math.LN2 / rate;
}

/**
 * Growth of a floating duckweed layer over a day, in its published form: the scarcest of warmth, light, nitrogen and
 * phosphorus rules.
 * @param irradiation total irradiation, kJ/m2/d; @param nitrogen, phosphorus as element, mg/L; @param layer g dry/m2
 * @param gross greatest gross rate, 1/d, of the species: its growth rate + 0.05
 * @returns limiting factor, net rate 1/d, steady layer g/m2. Source: klein-2022
 */
export function duckweedGrowth(
  t: number,
  irradiation: number,
  nitrogen: number,
  phosphorus: number,
  layer: number,
  gross: number = duckweed.gross,
): { readonly limit: number; readonly net: number; readonly steady: number } {
  const limit = Math.min(
    duckweedTemperature(t, 8, 26.7, 40.5),
    duckweedLight(irradiation),
    nitrogen / (nitrogen + 0.034),
    phosphorus / (phosphorus + 0.0043),
  );
  const loss = duckweed.loss25 * q10Factor(t, 2, 25);
  const gain = gross * limit;
  return {
    limit,
    net: gain * (1 - layer / duckweed.crowding) - loss,
    steady: gain > loss ? duckweed.crowding * (1 - loss / gain) : 0,
  };
}

const patchInputs = {
  mu_max: quantity("greatest gross rate", "1/d", 0.001, 3),
  respiration_20: quantity("respiration at 20 °C", "1/d", 0, 0.5),
  mortality: quantity("shedding and death", "1/d", 0, 0.5),
  q10: quantity("growth of respiration per 10 °C", "1", 1, 4, 2),
  half_saturation_light: quantity("half-saturation of light at best temperature", "umol/m2/s", 0.1, 1000),
  half_saturation_co2: quantity("half-saturation of carbon dioxide", "umol/L", 0, 1000),
  extinction,
  temperature_min: quantity("lower end of photosynthesis", "°C", -20, 40, 8),
  temperature_best: quantity("best temperature", "°C", 0, 45, 25),
  temperature_max: quantity("upper end of photosynthesis", "°C", 5, 60, 37),
  photoperiod,
  temperature,
  ppfd_top: ppfdTop,
  co2,
  nutrient_factor: nutrientFactor,
  root_share: quantity("share of the biomass in roots", "1", 0, 0.9, 0),
  acclimation: quantity("capacity of leaves raised in air", "1", 0, 1, 1),
} as const;

type PatchInputs = { readonly [K in keyof typeof patchInputs]: number };

/** @throws RelationError where best temperature and ends are out of order */
function parametersFor(id: string, i: PatchInputs): PatchParameters {
  inOrder(id, i.temperature_min, i.temperature_best, i.temperature_max);
  return parametersOf(i);
}

const parametersOf = (i: PatchInputs): PatchParameters => ({
  muMax: i.mu_max,
  respiration20: i.respiration_20,
  mortality: i.mortality,
  kI: i.half_saturation_light,
  kC: i.half_saturation_co2,
  bicarbonateUser: false,
  extinction: i.extinction,
  tMin: i.temperature_min,
  tOpt: i.temperature_best,
  tMax: i.temperature_max,
  q10: i.q10,
  floating: false,
  crowding: Number.POSITIVE_INFINITY,
});

const conditionsOf = (i: PatchInputs): PatchConditions => ({
  photoperiod: i.photoperiod,
  temperature: i.temperature,
  ppfd: i.ppfd_top,
  co2: i.co2 * umolPerMgCo2,
  bicarbonate: 0,
  nutrients: i.nutrient_factor,
  rootShare: i.root_share,
  acclimation: i.acclimation,
});

const species = choice(
  "species",
  plants.map((p) => p.name),
  "Rotala rotundifolia",
);

function plantNamed(name: string) {
  const plant = findPlant(name);
  if (!plant) throw new Error(`no plant named ${name}`);
  return plant;
}

const speciesInputs = {
  species,
  photoperiod,
  temperature,
  ppfd_top: ppfdTop,
  co2,
  bicarbonate: quantity("bicarbonate", "umol/L", 0, 20000, 0),
  nutrient_factor: nutrientFactor,
  biomass: { ...biomass, default: 0 },
} as const;

const balance = "net = mu (L/24) (1 - f_root) f_T f_I f_C f_nut s - r20 Q10^((T - 20)/10) - m";

export const growthRelations = [
  relation({
    id: "patch-growth",
    title: "Growth of a planting over a day",
    room: "plants",
    inputs: { ...patchInputs, biomass },
    outputs: {
      temperature_factor: { label: "temperature factor", unit: "1" },
      light_factor: { label: "light factor", unit: "1" },
      carbon_factor: { label: "carbon factor", unit: "1" },
      gross: { label: "gross growth", unit: "1/d" },
      respiration: { label: "respiration", unit: "1/d" },
      net: { label: "net growth", unit: "1/d" },
    },
    equation: balance,
    sources: ["pcditch", "pclake", "yan-hunt-1999", "andersen-pedersen-2002", "chosen"],
    compute: (i) => {
      const g = patchGrowth(parametersFor("patch-growth", i), conditionsOf(i), i.biomass);
      return {
        temperature_factor: g.temperature,
        light_factor: g.light,
        carbon_factor: g.carbon,
        gross: g.gross,
        respiration: g.respiration,
        net: g.net,
      };
    },
  }),
  relation({
    id: "patch-course",
    title: "Biomass of a planting after some days, and where it settles",
    room: "plants",
    inputs: {
      ...patchInputs,
      start: { ...biomass, label: "dry biomass at the start" },
      days: quantity("time", "d", 0, 3650),
    },
    outputs: {
      biomass: { label: "dry biomass then", unit: "g/m2" },
      steady: { label: "dry biomass at which it holds steady", unit: "g/m2" },
    },
    equation: `dB/dt = net B; ${balance}; steady where net = 0`,
    sources: ["pcditch", "pclake", "chosen"],
    compute: (i) => {
      const p = parametersFor("patch-course", i);
      return { biomass: biomassAfter(p, conditionsOf(i), i.start, i.days), steady: steadyBiomass(p, conditionsOf(i)) };
    },
  }),
  relation({
    id: "compensation-light",
    title: "Light at which a thin planting neither grows nor shrinks",
    room: "plants",
    inputs: patchInputs,
    outputs: { ppfd: { label: "compensation photon flux", unit: "umol/m2/s" } },
    equation: "I = K_I f_T y/(1 - y), y = (r + m)/(mu (L/24) f_T f_C f_nut); no light is enough where y >= 1",
    sources: ["pcditch", "arithmetic"],
    compute: (i) => ({ ppfd: compensationLight(parametersFor("compensation-light", i), conditionsOf(i)) }),
  }),
  relation({
    id: "growth-calibration",
    title: "Growth parameters from a species' best growth rate",
    room: "plants",
    inputs: {
      growth_rate: quantity(
        "relative growth rate at 30 mg/L CO2, good light for 10 h, best temperature",
        "1/d",
        0.001,
        0.3,
      ),
      ppfd_good: quantity("good light", "umol/m2/s", 10, 1000),
      temperature_best: quantity("best temperature", "°C", 5, 35),
      co2_need: choice("need for carbon dioxide", ["none", "helps", "needed"], "helps"),
    },
    outputs: {
      mu_max: { label: "greatest gross rate", unit: "1/d" },
      respiration_20: { label: "respiration at 20 °C", unit: "1/d" },
      mortality: { label: "shedding and death", unit: "1/d" },
      half_saturation_light: { label: "half-saturation of light", unit: "umol/m2/s" },
      half_saturation_co2: { label: "half-saturation of carbon dioxide", unit: "umol/L" },
    },
    equation: "mu = 1.05 rgr/[(10/24) 0.75 C/(C + K_C) - 0.05 2^((To - 20)/10)], C = 681.68 umol/L; K_I = good light/3",
    sources: ["chosen", "pcditch", "kirk-11"],
    validity: "plants under water",
    compute: (i) => {
      const kC = halfSaturationByNeed(i.co2_need);
      const muMax = calibratedMuMax(i.growth_rate, kC, i.temperature_best);
      return {
        mu_max: muMax,
        respiration_20: respirationShare * muMax,
        mortality: mortalityShare * i.growth_rate,
        half_saturation_light: i.ppfd_good / 3,
        half_saturation_co2: kC,
      };
    },
  }),
  relation({
    id: "species-growth",
    title: "Growth of a species over a day",
    room: "plants",
    inputs: speciesInputs,
    outputs: {
      temperature_factor: { label: "temperature factor", unit: "1" },
      light_factor: { label: "light factor", unit: "1" },
      carbon_factor: { label: "carbon factor", unit: "1" },
      net: { label: "net growth", unit: "1/d" },
      compensation_ppfd: { label: "compensation photon flux of a thin stand", unit: "umol/m2/s" },
      steady_biomass: { label: "dry biomass at which it holds steady", unit: "g/m2" },
    },
    equation: balance,
    sources: ["pcditch", "pclake", "klein-2022", "chosen"],
    validity: "most growth rates are class values: take the result as a range of half to twice",
    compute: (i) => {
      const p = patchParameters(plantNamed(i.species));
      const c: PatchConditions = {
        photoperiod: i.photoperiod,
        temperature: i.temperature,
        ppfd: i.ppfd_top,
        co2: i.co2 * umolPerMgCo2,
        bicarbonate: i.bicarbonate,
        nutrients: i.nutrient_factor,
        rootShare: 0,
        acclimation: 1,
      };
      const g = patchGrowth(p, c, i.biomass);
      return {
        temperature_factor: g.temperature,
        light_factor: g.light,
        carbon_factor: g.carbon,
        net: g.net,
        compensation_ppfd: compensationLight(p, c),
        steady_biomass: steadyBiomass(p, c),
      };
    },
  }),
  relation({
    id: "duckweed-growth",
    title: "Growth of a floating duckweed layer",
    room: "plants",
    inputs: {
      temperature,
      irradiation: quantity("total irradiation of the day", "kJ/m2/d", 0, 40000),
      nitrogen: quantity("nitrogen in the water", "mg/L", 0, 100),
      phosphorus: quantity("phosphorus in the water", "mg/L", 0, 50),
      layer: quantity("dry biomass of the layer", "g/m2", 0, 177),
      gross: quantity("greatest gross rate: growth rate of the species + 0.05", "1/d", 0.05, 1, duckweed.gross),
    },
    outputs: {
      limit: { label: "scarcest factor", unit: "1" },
      net: { label: "net growth", unit: "1/d" },
      steady: { label: "dry biomass at which it holds steady", unit: "g/m2" },
    },
    equation:
      "net = 0.47 min(f_T, f_I, f_N, f_P)(1 - B/177) - 0.05 2^((T - 25)/10); f_I = min(1, 5e-5 E + 0.25), f_N = N/(N + 0.034), f_P = P/(P + 0.0043)",
    sources: ["klein-2022"],
    compute: (i) => duckweedGrowth(i.temperature, i.irradiation, i.nitrogen, i.phosphorus, i.layer, i.gross),
  }),
  relation({
    id: "growth-times",
    title: "Doubling time and time to grow between two stands at a steady rate",
    room: "plants",
    inputs: {
      growth_rate: quantity("relative growth rate", "1/d", 1e-5, 3),
      start: quantity("dry biomass at the start", "g/m2", 1e-6, 2000, 1),
      end: quantity("dry biomass wanted", "g/m2", 1e-6, 2000, 2),
    },
    outputs: { doubling: { label: "doubling time", unit: "d" }, time: { label: "time from start to end", unit: "d" } },
    equation: "ln 2/r; ln(B2/B1)/r",
    sources: ["arithmetic"],
    compute: (i) => ({ doubling: doublingTime(i.growth_rate), time: Math.log(i.end / i.start) / i.growth_rate }),
  }),
  relation({
    id: "daily-percent-growth",
    title: "Relative growth rate from percent per day",
    room: "plants",
    inputs: { percent: quantity("growth per day, compounded", "%", 0.001, 300) },
    outputs: {
      growth_rate: { label: "relative growth rate", unit: "1/d" },
      doubling: { label: "doubling time", unit: "d" },
    },
    equation: "r = ln(1 + p/100)",
    sources: ["arithmetic"],
    compute: (i) => {
      const rate = Math.log1p(i.percent / 100);
      return { growth_rate: rate, doubling: doublingTime(rate) };
    },
  }),
] as const;
