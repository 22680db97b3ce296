import { animalRespiration, massFromLength } from "../animals/index.ts";
import type { WaterTotals } from "../chemistry/index.ts";
import { findAnimal, findPlant } from "../facts/index.ts";
import { airStone, pressureAtAltitude, scaleTransfer, surfaceClasses } from "../gas/index.ts";
import type { Volumes } from "../geometry/index.ts";
import { createHeatBalance, type HeatBalance, type HeatTank, waterDensity } from "../heat/index.ts";
import { type FollowedLight, type Plan, tankVolumes } from "../plan/index.ts";
import { type PatchParameters, patchParameters } from "../plants/index.ts";
import { type DayLamp, dayOf } from "./lamps.ts";
import { type LightKnown, lightOf } from "./light.ts";

const co2MolarMass = 44.0095;
const oxygenMolarMass = 31.998;
const carbonMolarMass = 12.011;

/** Share of a lamp's electrical power that ends as heat in the water under an open lamp (common practice 20-40 %, no source). */
const lampHeatShare = 0.3;
/** Share of an outside pump's power that warms the water (common practice 50-100 %, no source). */
const pumpHeatShare = 0.75;
/** Air that passes between a lid's head space and the room, m3/h per m2 of surface (design value; a lid with feeding flaps). */
const lidAirPerArea = 0.15;
/** Oxygen used by bed, films and filter at 20 °C, g/(m2 d) of floor (published span 0.5-2, doubtful). */
const bedOxygen = 0.7;
/** Share of the food's carbon that becomes waste: faeces and leavings, 25 % and 5 % of the food (aquaculture handbook). */
const wasteShare = 0.3;
/** Carbon in dry food, by mass (design value). */
const foodCarbon = 0.45;
/** Total ammonia nitrogen per mass of food and its protein share, and oxygen to oxidise it (aquaculture handbook). */
const tanPerProtein = 0.092;
const oxygenPerTan = 4.18;
/** Heat capacities, J/(kg K): sand and stone, glass (from memory). */
const mineralHeat = 800;
const glassHeat = 840;

interface Patch {
  readonly species: string;
  readonly parameters: PatchParameters;
  /** Dry biomass of the patch, g and g/m2. */
  readonly grams: number;
  readonly biomass: number;
  /** Light at the canopy's top with each lamp, channel and daylight at full, umol/m2/s. */
  readonly light: readonly number[];
}

/** The numbers a tank is run with: derived from a plan once, in SI; the model sees nothing else. */
export interface Setup {
  readonly volumes: Volumes;
  /** kg and m3 of water when topped up. */
  readonly waterMass: number;
  readonly volume: number;
  /** kg/m3 */
  readonly density: number;
  /** Open surface, m2; mean depth of water over the bed, m. */
  readonly area: number;
  readonly depth: number;
  /** J/(kg K) of water; J/K of bed, stone and glass. */
  readonly heatCapacity: number;
  readonly bedHeatCapacity: number;
  /** atm */
  readonly pressure: number;
  readonly totals: WaterTotals;
  readonly start: { readonly alkalinity: number; readonly dic: number; readonly temperature: number };
  readonly room: { readonly day: number; readonly night: number; readonly humidity: number; readonly co2: number };
  /** Transfer velocity at Schmidt number 600, cm/h. */
  readonly k600: number;
  /** Head space air change, m3/s; 0 = open. */
  readonly lidAir: number;
  readonly lamps: readonly DayLamp[];
  readonly pumpHeat: number;
  readonly light: LightKnown;
  readonly patches: readonly Patch[];
  readonly gas: {
    /** mol/s while the valve is open. */
    readonly rate: number;
    readonly dissolved: number;
    readonly opens: number;
    readonly closes: number;
    /** A valve that never closes: stuck, or a probe out of the water. */
    readonly always: boolean;
  } | null;
  readonly air: { readonly on: number; readonly off: number; readonly kCo2: number; readonly kOxygen: number } | null;
  readonly heater: { readonly power: number; readonly set: number; readonly stuck: boolean } | null;
  readonly heatTank: HeatTank;
  readonly heatBalance: HeatBalance;
  /** Multiplier on all heat losses, for doubt. */
  readonly lossFactor: number;
  readonly stock: { oxygenUse(t: number): number } | null;
  /** Multiplier on the animals' breathing, for doubt. */
  readonly stockFactor: number;
  /** mol/s at 20 °C. */
  readonly bedRespiration: number;
  readonly nitrification: number;
  readonly feeding: { readonly at: number; readonly carbon: number };
}

/** Surface class between the given ones, on a ratio scale: cm/h. */
export function k600OfRipple(ripple: number): number {
  const r = Math.max(0, Math.min(4, ripple));
  const i = Math.min(3, Math.floor(r));
  return surfaceClasses[i]!.k600 ** (1 - (r - i)) * surfaceClasses[i + 1]!.k600 ** (r - i);
}

/** First-order CO2 loss through an open surface, 1/h, from the transfer velocity. */
export function exchangeOf(setup: Pick<Setup, "k600" | "area" | "volume">, temperature: number): number {
  return (scaleTransfer(setup.k600, "co2", temperature) / 100) * (setup.area / setup.volume);
}

/** Temperature the water will be near: the set point, else the room's mean. */
function nearTemperature(plan: Plan): number {
  const mean = (plan.room.day.value + plan.room.night.value) / 2;
  return plan.heater ? Math.max(plan.heater.set.value, mean) : mean + 1;
}

function stockOf(plan: Plan): Setup["stock"] {
  const groups = plan.animals
    .filter((a) => a.count.value > 0)
    .map((a) => {
      const fact = findAnimal(a.species)!;
      return { fact, count: a.count.value, mass: massFromLength(fact.bodyClass, a.length.value) };
    });
  if (groups.length === 0) return null;
  return {
    oxygenUse(t) {
      let mgPerHour = 0;
      for (const g of groups) mgPerHour += g.count * animalRespiration(g.fact.kind, g.mass, t);
      return mgPerHour / (1000 * oxygenMolarMass * 3600);
    },
  };
}

/**
 * Derives the model's numbers from a plan. The plan is known to be sound: it has been resolved.
 * @param followed lights that were followed; the one of this plan is taken, without it a rule of thumb stands in
 */
export function setupOf(plan: Plan, followed: readonly FollowedLight[] = []): Setup {
  const v = tankVolumes(plan);
  const temperature = nearTemperature(plan);
  const density = waterDensity(temperature);
  const pressure = pressureAtAltitude(plan.room.altitude.value);
  const area = v.planArea;
  const volume = v.net;
  const kg = (entry: { value: number }): number => entry.value / density;
  const { water, tank, co2, heater, room } = plan;

  const heatTank: HeatTank = {
    length: tank.length.value,
    width: tank.width.value,
    height: tank.height.value,
    glass: tank.glass.value,
    base: tank.base.value,
    waterDepth: v.waterDepth,
    cover: tank.cover.value,
    pressure: pressure * 101325,
  };

  const lit = lightOf(plan, v, followed);
  const patches = plan.plants.map((p, i): Patch => {
    const fact = findPlant(p.species)!;
    return {
      species: p.species,
      parameters: patchParameters(fact),
      biomass: p.biomass.value,
      grams: p.biomass.value * p.cover.value * v.planArea,
      light: lit.lights.map((light) => light.plantings[i]!),
    };
  });

  const exchange = plan.surface.exchange;
  const k600 = exchange
    ? (exchange.value * 100 * (volume / area)) / scaleTransfer(1, "co2", temperature)
    : k600OfRipple(plan.surface.ripple.value);

  const alkalinity = kg(water.kh);
  const foodG = plan.feeding.food.value;
  return {
    volumes: v,
    waterMass: volume * density,
    volume,
    density,
    area,
    depth: v.meanFreeDepth,
    heatCapacity: 4182,
    bedHeatCapacity: (v.masses.substrate + v.masses.solids) * mineralHeat + v.masses.glass * glassHeat,
    pressure,
    totals: {
      ca: kg(water.calcium),
      mg: kg(water.magnesium),
      na: kg(water.sodium),
      k: kg(water.potassium),
      cl: kg(water.chloride),
      so4: kg(water.sulfate),
      no3: kg(water.nitrate),
      po4: kg(water.phosphate),
      nh4: 0,
      b: 0,
    },
    start: { alkalinity, dic: alkalinity + (co2 ? 12 : 2) / co2MolarMass / 1000, temperature },
    room: { day: room.day.value, night: room.night.value, humidity: room.humidity.value, co2: room.co2.value },
    k600,
    lidAir: tank.cover.value === "lid" ? (lidAirPerArea * area) / 3600 : 0,
    lamps: lit.lights.map(({ lamp, part, brightest, programme, strength, meter, watts }) => ({
      lamp,
      part,
      brightest,
      day: dayOf(programme, strength),
      meter,
      heat: watts * lampHeatShare,
    })),
    pumpHeat: plan.filter ? plan.filter.power.value * (plan.filter.kind.value === "internal" ? 1 : pumpHeatShare) : 0,
    light: lit.known,
    patches,
    gas: co2 && {
      rate: (co2.bubbles.value * co2.bubble.value) / 1000 / co2MolarMass,
      dissolved: co2.dissolved.value,
      opens: co2.opens.value,
      closes: co2.closes.value,
      always: false,
    },
    air:
      plan.air &&
      (() => {
        const k = airStone({
          flowLh: plan.air.flow.value,
          volumeL: volume * 1000,
          diameterMm: 3,
          depthM: Math.max(0.02, v.meanFreeDepth),
          t: temperature,
        });
        return { on: plan.air.on.value, off: plan.air.off.value, kCo2: k.kCo2, kOxygen: k.kO2 };
      })(),
    heater: heater && { power: heater.power.value, set: heater.set.value, stuck: false },
    heatTank,
    heatBalance: createHeatBalance(heatTank),
    lossFactor: 1,
    stock: stockOf(plan),
    stockFactor: 1,
    bedRespiration: (bedOxygen * v.planArea) / oxygenMolarMass / 86400,
    nitrification: (foodG * plan.feeding.protein.value * tanPerProtein * oxygenPerTan) / oxygenMolarMass / 86400,
    feeding: { at: plan.feeding.at.value, carbon: (foodG * foodCarbon * wasteShare) / carbonMolarMass },
  };
}
