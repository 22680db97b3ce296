import { relation } from "../relation/index.ts";
import { bodyMass, count, quantity, tankVolume, temperature } from "./usual-inputs.ts";

/** Gross energy of flake food of 39 % protein, kJ/g. Source: pannevis-earle-1994 */
export const flakeEnergy = 19.66;
/** Nitrogen in protein, g/g. */
export const nitrogenInProtein = 0.16;
/** Total ammonia nitrogen given within the day per protein fed, g/g. Source: timmons-ebeling */
export const ammoniaPerProtein = 0.092;
/** Nitrate nitrogen that comes of ammonia nitrogen, growth of the bacteria counted, g/g. Source: ebeling-2006 */
export const nitratePerAmmonia = 0.976;
/** Nitrate per nitrate nitrogen, g/g. */
const nitrateMass = 62.004 / 14.007;
/** Dry solids, faeces and waste, per feed, g/g (0.20 to 0.30). Source: timmons-ebeling */
export const solidsPerFeed = 0.25;
/** Phosphorus in feed, g/g; usual 0.010 to 0.016, from memory. */
export const phosphorusInFeed = 0.012;
/**
 * Where the phosphorus of feed goes at once; what is left is kept by growing fish and given off later by adults.
 * Design values.
 */
export const phosphorusSplit = { dissolved: 0.2, solids: 0.45 } as const;

/** Warmth factor of a ration against 27 °C: doubles per 10 °C; design value, inside the species' own range. */
export function rationWarmth(t: number): number {
  return 2 ** ((t - 27) / 10);
}

/**
 * Energy a fish needs to hold its mass, at 27 °C. @param mass wet, g @returns kJ/d, within a factor of 1.7. Source:
 * lupatsch-2013
 */
export function maintenanceEnergy(mass: number): number {
  return 43.2 * (mass / 1000) ** 0.8;
}

/** Protein a fish needs to hold its mass. @param mass wet, g @returns g/d. Source: lupatsch-2013 */
export function maintenanceProtein(mass: number): number {
  return 0.43 * (mass / 1000) ** 0.7;
}

/**
 * Food that holds a fish at its mass.
 * @param mass wet, g; @param t °C; @param energy of the food, kJ/g
 * @returns g/d
 */
export function maintenanceRation(mass: number, t = 27, energy = flakeEnergy): number {
  return (maintenanceEnergy(mass) * rationWarmth(t)) / energy;
}

/** Ammonia nitrogen given within the day. @param feed g/d; @param protein 0..1 @returns g/d. Source: timmons-ebeling */
export function ammoniaFromFeed(feed: number, protein: number): number {
  return feed * protein * ammoniaPerProtein;
}

/**
 * Nitrogen that comes back in the long run, waste included.
 * @param feed g/d; @param protein 0..1; @param retained by growth, 0..0.1 adults, 0.2..0.3 growing fish
 * @returns g/d. Source: boyd
 */
export function nitrogenFromFeed(feed: number, protein: number, retained = 0): number {
  return feed * protein * nitrogenInProtein * (1 - retained);
}

/**
 * Course of excretion after a meal: a gamma pulse of order 3.
 * @param hours since the meal; @param mean delay, h (8 as measured; the peak then lies at 5.3 h)
 * @returns share given off per hour. Source: diaz-2012; the shape is a design value
 */
export function excretionPulse(hours: number, mean = 8): number {
  if (!(hours > 0)) return 0;
  const x = (3 * hours) / mean;
  return ((3 / mean) * x * x * Math.exp(-x)) / 2;
}

/** Share given off until then. @param hours since the meal; @param mean delay, h */
export function excretedShare(hours: number, mean = 8): number {
  if (!(hours > 0)) return 0;
  const x = (3 * hours) / mean;
  return 1 - Math.exp(-x) * (1 + x + (x * x) / 2);
}

/** Nitrogen and phosphorus of matter that decays, mg/g: litter dry, fish wet. Sources: hill-1979, lupatsch-2013 */
export const litterContent = { nitrogen: 26.5, phosphorus: 5.89 } as const;
export const deadFishNitrogen = 22.4;

/** What first-order decay has set free. @param mass; @param rate 1/d; @param days @returns in the unit of mass */
export function decayed(mass: number, rate: number, days: number): number {
  return mass * -Math.expm1(-rate * days);
}

const feed = quantity("feed per day", "g/d", 0, 1e6);
const protein = quantity("protein in the feed", "%", 0, 100, 45);

export const feedingRelations = [
  relation({
    id: "fish-ration",
    title: "Food for fish",
    room: "animals",
    inputs: {
      mass: bodyMass,
      count,
      temperature: { ...temperature, default: 27 },
      food_energy: quantity("gross energy of the food", "kJ/g", 5, 30, flakeEnergy),
      plenty: quantity("multiple of maintenance: 1.5 to 2 adults, 3 to 4 young", "1", 0, 5, 2),
    },
    outputs: {
      energy: { label: "energy to hold one fish's mass", unit: "kJ/d" },
      maintenance: { label: "food to hold the mass", unit: "mg/d" },
      maintenance_percent: { label: "that, of body mass per day", unit: "%" },
      ration: { label: "ration", unit: "mg/d" },
      most: { label: "never more than", unit: "mg/d" },
      maintenance_nitrogen: { label: "nitrogen given off at maintenance", unit: "mg/d" },
    },
    equation:
      "E = 43.2 (W/1000)^0.80 2^((T - 27)/10) kJ/d; food = E/energy; protein 0.43 (W/1000)^0.70 g/d, 16 % nitrogen",
    sources: ["lupatsch-2013", "pannevis-earle-1994", "sales-janssens-2003", "chosen"],
    validity: "a factor of 1.7 either way; no food outside the species' temperature range",
    caution: "Feed nothing while ammonia or nitrite is above its alarm or oxygen is below 5 mg/L.",
    compute: (i) => {
      const warmth = rationWarmth(i.temperature);
      const each = 1000 * maintenanceRation(i.mass, i.temperature, i.food_energy);
      return {
        energy: maintenanceEnergy(i.mass) * warmth,
        maintenance: each * i.count,
        maintenance_percent: each / i.mass / 10,
        ration: i.plenty * each * i.count,
        most: 2 * i.plenty * each * i.count,
        maintenance_nitrogen: 1000 * nitrogenInProtein * maintenanceProtein(i.mass) * warmth * i.count,
      };
    },
  }),
  relation({
    id: "feed-load",
    title: "What a day's feed puts into the tank",
    room: "animals",
    inputs: {
      feed,
      protein,
      retained: quantity("nitrogen kept by growth", "1", 0, 0.6, 0),
      phosphorus: quantity("phosphorus in the feed", "%", 0, 5, 100 * phosphorusInFeed),
      volume: { ...tankVolume, default: 100 },
    },
    outputs: {
      ammonia: { label: "ammonia nitrogen within the day", unit: "mg/d" },
      ammonia_rise: { label: "that, per volume", unit: "mg/L/d" },
      nitrogen: { label: "nitrogen in the long run", unit: "mg/d" },
      nitrate_rise: { label: "rise of nitrate in a week, without plants and changes", unit: "mg/L" },
      nitrate_ceiling: { label: "the same from all nitrogen fed", unit: "mg/L" },
      solids: { label: "dry solids", unit: "g/d" },
      phosphorus_fed: { label: "phosphorus fed", unit: "mg/d" },
      phosphorus_dissolved: { label: "phosphorus dissolved at once", unit: "mg/d" },
      plant_growth: { label: "dry plant growth that takes up the ammonia nitrogen", unit: "g/d" },
    },
    equation:
      "TAN = F PC 0.092; N = F PC 0.16 (1 - kept); solids 0.25 F; NO3 = 4.427 x 0.976 TAN; plants 26.5 mg N per g",
    sources: ["timmons-ebeling", "boyd", "trout-phosphorus", "hill-1979", "ebeling-2006", "chosen"],
    compute: (i) => {
      const ammonia = 1000 * ammoniaFromFeed(i.feed, i.protein / 100);
      const nitrogen = 1000 * nitrogenFromFeed(i.feed, i.protein / 100, i.retained);
      const phosphorus = 10 * i.feed * i.phosphorus;
      return {
        ammonia,
        ammonia_rise: ammonia / i.volume,
        nitrogen,
        nitrate_rise: (7 * nitrateMass * nitratePerAmmonia * ammonia) / i.volume,
        nitrate_ceiling: (7 * nitrateMass * nitrogen) / i.volume,
        solids: solidsPerFeed * i.feed,
        phosphorus_fed: phosphorus,
        phosphorus_dissolved: phosphorusSplit.dissolved * phosphorus,
        plant_growth: ammonia / litterContent.nitrogen,
      };
    },
  }),
  relation({
    id: "feed-oxygen",
    title: "Oxygen that a day's feed uses up, bounds",
    room: "animals",
    inputs: { feed },
    outputs: {
      fish_low: { label: "by growing fish, low", unit: "g/d" },
      fish_high: { label: "by growing fish, high", unit: "g/d" },
      all: { label: "if all that is fed is burnt, bacteria included", unit: "g/d" },
    },
    equation: "0.25 to 0.5 g per g of feed; 1.25 g per g in all",
    sources: ["timmons-ebeling", "boyd"],
    compute: (i) => ({ fish_low: 0.25 * i.feed, fish_high: 0.5 * i.feed, all: 1.25 * i.feed }),
  }),
  relation({
    id: "excretion-after-meal",
    title: "Excretion after a meal",
    room: "animals",
    inputs: {
      time: quantity("time since the meal", "h", 0, 240),
      mean: quantity("mean delay", "h", 0.5, 48, 8),
    },
    outputs: {
      share: { label: "share given off so far", unit: "1" },
      rate: { label: "share given off per hour now", unit: "1/h" },
    },
    equation: "gamma pulse of order 3",
    sources: ["diaz-2012", "chosen"],
    compute: (i) => ({ share: excretedShare(i.time, i.mean), rate: excretionPulse(i.time, i.mean) }),
  }),
  relation({
    id: "decay-release",
    title: "Nitrogen and phosphorus set free by decay",
    room: "animals",
    inputs: {
      mass: quantity("mass of dead matter", "g", 0, 1e6),
      nitrogen: quantity("nitrogen in it", "mg/g", 0, 200, litterContent.nitrogen),
      phosphorus: quantity("phosphorus in it", "mg/g", 0, 50, litterContent.phosphorus),
      rate: quantity("decay rate at 20 °C", "1/d", 0.001, 5, 0.0312),
      temperature: { ...temperature, default: 20 },
      days: quantity("time", "d", 0, 3650),
    },
    outputs: {
      nitrogen_free: { label: "nitrogen set free", unit: "mg" },
      phosphorus_free: { label: "phosphorus set free", unit: "mg" },
      nitrogen_total: { label: "nitrogen in all", unit: "mg" },
      half_life: { label: "half-life", unit: "d" },
    },
    equation: "M n (1 - e^(-kt)), k doubling per 10 °C",
    sources: ["hill-1979", "lupatsch-2013", "chosen"],
    validity: "uneaten food 160 mg/g per unit of protein and dead fish 22.4 mg/g decay at 0.2 to 0.5 1/d, doubtful",
    compute: (i) => {
      const rate = i.rate * 2 ** ((i.temperature - 20) / 10);
      const gone = decayed(i.mass, rate, i.days);
      return {
        nitrogen_free: gone * i.nitrogen,
        phosphorus_free: gone * i.phosphorus,
        nitrogen_total: i.mass * i.nitrogen,
        half_life: Math.LN2 / rate,
      };
    },
  }),
] as const;
