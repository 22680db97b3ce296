import { relation } from "../relation/index.ts";
import { choice, quantity } from "./usual-inputs.ts";

/** Storage and uptake of one nutrient: shares of dry mass, greatest uptake g/g/d, affinity L/mg/d. */
export interface Quota {
  readonly min: number;
  readonly max: number;
  readonly uptake: number;
  readonly affinity: number;
}

/**
 * Stores and uptake of submerged plants. N and P: pcditch, pclake; K and Fe are design values. The affinity of N and P
 * for stems and
 * rosettes is better taken as 0.06 (a third of the model's 0.2, as measured in one species: wang-uptake).
 */
export const quotas = {
  nitrogen: { min: 0.01, max: 0.035, uptake: 0.1, affinity: 0.2 },
  phosphorus: { min: 0.0008, max: 0.0035, uptake: 0.01, affinity: 0.2 },
  potassium: { min: 0.006, max: 0.04, uptake: 0.1, affinity: 0.05 },
  iron: { min: 0.00004, max: 0.001, uptake: 0.0005, affinity: 0.05 },
} as const satisfies Record<string, Quota>;

/** Stores and uptake of duckweed. Source: pcditch */
export const duckweedQuotas = {
  nitrogen: { min: 0.04, max: 0.1, uptake: 0.05, affinity: 0.02 },
  phosphorus: { min: 0.004, max: 0.026, uptake: 0.005, affinity: 0.02 },
} as const satisfies Record<string, Quota>;

/** Affinity for N and P of stems and rosettes, L/mg/d; design value after wang-uptake. */
export const coarseAffinity = 0.06;

/** Half-saturations of magnesium and calcium in the water, mg/L; design values. */
export const halfSaturationMagnesium = 0.5;
export const halfSaturationCalcium = 2;

/**
 * Growth factor of a stored nutrient (Droop, normalised so that a full store gives 1).
 * @param store share of dry mass; @param min, @param max ends of the store
 * @returns 0..1. Source: pcditch
 */
export function storeFactor(store: number, min: number, max: number): number {
  if (!(store > min)) return 0;
  return Math.min(1, ((1 - min / store) * max) / (max - min));
}

/**
 * Greatest uptake at a filling store: falls to nothing as the store fills.
 * @param warmth temperature factor
 * @returns g/g/d. Source: pcditch
 */
export function uptakeCapacity(store: number, q: Quota, warmth = 1): number {
  return Math.max(0, (q.uptake * warmth * (q.max - store)) / (q.max - q.min));
}

/**
 * Uptake of a nutrient at constant affinity.
 * @param concentration mg/L; @param store share of dry mass
 * @returns g/g/d. Source: pcditch
 */
export function uptakeRate(concentration: number, store: number, q: Quota, warmth = 1): number {
  const capacity = uptakeCapacity(store, q, warmth);
  if (!(capacity > 0) || !(concentration > 0)) return 0;
  return (capacity * concentration) / (capacity / q.affinity + concentration);
}

/**
 * Ammonium's share of nitrogen uptake.
 * @param ammonium, nitrate as nitrogen, mg/L; @param half half-saturation, mg/L
 * @returns 0..1; 0 where neither is there. Source: pcditch
 */
export function ammoniumShare(ammonium: number, nitrate: number, half: number): number {
  if (!(ammonium > 0)) return 0;
  return (
    (ammonium * nitrate) / ((half + ammonium) * (half + nitrate)) +
    (ammonium * half) / ((ammonium + nitrate) * (half + nitrate))
  );
}

/**
 * Share of a nutrient that roots take.
 * @param ratio concentration in pore water over open water, >= 0
 * @returns 0..0.998. Source: carignan-1982
 */
export function rootShare(ratio: number): number {
  return ratio > 0 ? 0.998 / (1 + 2.66 * ratio ** -0.83) : 0;
}

/** Share that roots take by way of feeding: none for column feeders, at most half for `both`; design value. */
export function rootShareOf(feeding: "root" | "column" | "both", ratio: number): number {
  if (feeding === "column") return 0;
  return feeding === "both" ? Math.min(0.5, rootShare(ratio)) : rootShare(ratio);
}

/**
 * Share of its store a plant gives off with the dry mass it respires: a scarce nutrient is kept back.
 * @param store, max share of dry mass; @param respiration g dry/(m2 d)
 * @returns g/(m2 d). Source: pcditch
 */
export function excretion(store: number, max: number, respiration: number): number {
  return ((2 * store) / (max + store)) * store * respiration;
}

/**
 * Store that holds steady when a plant grows at rate x factor and takes up from a constant concentration.
 * @param concentration mg/L; @param rate growth at a full store, 1/d
 * @returns share of dry mass, between the ends of the store
 */
export function steadyStore(concentration: number, rate: number, q: Quota): number {
  let low = q.min;
  let high = q.max;
  for (let n = 0; n < 200 && high - low > 1e-15; n++) {
    const middle = (low + high) / 2;
    const gain = uptakeRate(concentration, middle, q) - rate * storeFactor(middle, q.min, q.max) * middle;
    if (gain > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

const element = choice("nutrient", ["nitrogen", "phosphorus", "potassium", "iron"], "nitrogen");
const store = quantity("store in the tissue, share of dry mass", "1", 0, 0.2);
const concentration = quantity("concentration in the water, as element", "mg/L", 0, 100);
const affinity = quantity("affinity, litres cleared per milligram of dry mass and day", "L/mg/d", 0.001, 2, 0.2);

export const nutrientRelations = [
  relation({
    id: "store-factor",
    title: "Growth factor of a stored nutrient",
    room: "plants",
    inputs: { nutrient: element, store },
    outputs: { factor: { label: "growth factor", unit: "1" } },
    equation: "f = clamp[(1 - Qmin/Q) Qmax/(Qmax - Qmin), 0, 1]",
    sources: ["pcditch", "pclake", "chosen"],
    validity: "nitrogen and phosphorus read; potassium and iron are design values",
    compute: (i) => ({ factor: storeFactor(i.store, quotas[i.nutrient].min, quotas[i.nutrient].max) }),
  }),
  relation({
    id: "nutrient-uptake",
    title: "Uptake of a nutrient from the water",
    room: "plants",
    inputs: {
      nutrient: element,
      concentration,
      store,
      affinity,
      temperature_factor: quantity("temperature factor", "1", 0, 1, 1),
    },
    outputs: {
      capacity: { label: "greatest uptake at this store", unit: "g/g/d" },
      half_saturation: { label: "concentration at half of that", unit: "mg/L" },
      uptake: { label: "uptake", unit: "g/g/d" },
    },
    equation: "V' = Vmax f_T (Qmax - Q)/(Qmax - Qmin); V = V' C/(V'/a + C)",
    sources: ["pcditch", "pclake", "wang-uptake"],
    compute: (i) => {
      const quota: Quota = { ...quotas[i.nutrient], affinity: i.affinity };
      const capacity = uptakeCapacity(i.store, quota, i.temperature_factor);
      return {
        capacity,
        half_saturation: capacity / i.affinity,
        uptake: uptakeRate(i.concentration, i.store, quota, i.temperature_factor),
      };
    },
  }),
  relation({
    id: "steady-store",
    title: "Store of a nutrient that holds steady at a concentration",
    room: "plants",
    inputs: {
      nutrient: element,
      concentration,
      growth_rate: quantity("growth rate at a full store", "1/d", 0.001, 1, 0.06),
      affinity,
    },
    outputs: {
      store: { label: "store, share of dry mass", unit: "1" },
      factor: { label: "growth factor", unit: "1" },
    },
    equation: "V(C, Q) = mu f(Q) Q",
    sources: ["pcditch", "arithmetic"],
    compute: (i) => {
      const quota: Quota = { ...quotas[i.nutrient], affinity: i.affinity };
      const steady = steadyStore(i.concentration, i.growth_rate, quota);
      return { store: steady, factor: storeFactor(steady, quota.min, quota.max) };
    },
  }),
  relation({
    id: "ammonium-share",
    title: "Ammonium's share of nitrogen uptake",
    room: "plants",
    inputs: {
      ammonium: quantity("ammonium, as nitrogen", "mg/L", 0, 100),
      nitrate: quantity("nitrate, as nitrogen", "mg/L", 0, 500),
      half_saturation: quantity("half-saturation, as nitrogen", "mg/L", 1e-4, 10, 0.3),
    },
    outputs: { share: { label: "share taken as ammonium", unit: "1" } },
    equation: "p = A N/[(h + A)(h + N)] + A h/[(A + N)(h + N)]",
    sources: ["pcditch", "pclake"],
    validity: "prefers ammonium strongly only where the half-saturation is small against both",
    compute: (i) => ({ share: ammoniumShare(i.ammonium, i.nitrate, i.half_saturation) }),
  }),
  relation({
    id: "root-share",
    title: "Share of a nutrient taken up by roots",
    room: "plants",
    inputs: {
      ratio: quantity("concentration in pore water over open water", "1", 0, 1e6),
      feeding: choice("way of feeding", ["root", "both", "column"], "root"),
    },
    outputs: { share: { label: "share taken by roots", unit: "1" } },
    equation: "f = 0.998/(1 + 2.66 (S/W)^-0.83); none for column feeders, at most 0.5 for both",
    sources: ["carignan-1982", "chosen"],
    compute: (i) => ({ share: rootShareOf(i.feeding, i.ratio) }),
  }),
  relation({
    id: "water-mineral-factor",
    title: "Growth factors of magnesium and calcium in the water",
    room: "plants",
    inputs: {
      magnesium: quantity("magnesium", "mg/L", 0, 500),
      calcium: quantity("calcium", "mg/L", 0, 500),
    },
    outputs: {
      magnesium_factor: { label: "magnesium factor", unit: "1" },
      calcium_factor: { label: "calcium factor", unit: "1" },
    },
    equation: "C/(C + K), K 0.5 mg/L magnesium, 2 mg/L calcium",
    sources: ["chosen"],
    compute: (i) => ({
      magnesium_factor: i.magnesium / (i.magnesium + halfSaturationMagnesium),
      calcium_factor: i.calcium / (i.calcium + halfSaturationCalcium),
    }),
  }),
] as const;
