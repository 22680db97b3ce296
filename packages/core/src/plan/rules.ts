/** Defaults that follow from the rest of the plan, each a rule of the fields table. */
import { findAnimal, findMaterial, findPlant, type GrowthForm, type PlantZone } from "../facts/index.ts";
import { devices, bubbleMass as gasInBubble, USUAL_BUBBLE } from "../gas/index.ts";
import { outlineArea, outlineCentroid } from "../geometry/index.ts";
import type { Derived, Rule } from "./field.ts";
import { hasDepth } from "./layers.ts";
import { pieceDensity, pieceForm } from "./pieces.ts";
import type { Entry, FloorPoint, GasDevice, LampKind, LampPlan, Plan, StoneShape } from "./plan.ts";
import { litHours } from "./programme.ts";

/** Rounds to a number of leading digits, since an assumption deserves no more. */
function rounded(value: number, digits = 2): number {
  return Number.isFinite(value) ? Number(value.toPrecision(digits)) : value;
}

/** The entry where it was typed; a default is worked out later than the rules that ask. */
function typed(entry: Entry | null | undefined): Entry | undefined {
  return entry?.text === undefined ? undefined : entry;
}

/** Up to the given outside height and length, m: usual thickness, m. Common practice, no source. */
const usualGlass: readonly (readonly [height: number, length: number, glass: number])[] = [
  [0.32, 0.45, 0.004],
  [0.36, 0.6, 0.005],
  [0.4, 0.65, 0.006],
  [0.45, 0.95, 0.008],
  [0.5, 1.25, 0.01],
  [0.55, 1.55, 0.012],
  [0.65, 2.05, 0.015],
  [0.8, 2.55, 0.019],
];

export const glass: Rule = ({ tank }) => {
  const fits = usualGlass.find(([height, length]) => tank.height.value <= height && tank.length.value <= length);
  // Beyond the table, a fortieth of the height: thick panes or acrylic, to be replaced by the maker's figure.
  const value = fits ? fits[2] : Math.min(0.15, rounded(Math.max(0.019, tank.height.value / 40)));
  // The smallest tanks leave less room than the thinnest pane of the table.
  const room = Math.min(tank.length.value, tank.width.value) / 8;
  return { value: value > room ? rounded(Math.max(0.002, room), 1) : value };
};

export const base: Rule = ({ tank }) => ({ value: tank.glass.value });

export const belowRim: Rule = ({ tank }) => ({ value: Math.min(0.02, rounded(tank.height.value / 10)) });

/** Water line above the bottom pane, m. */
export function waterDepth({ tank }: Pick<Plan, "tank">): number {
  return tank.height.value - tank.base.value - tank.belowRim.value;
}

/** Water between the panes up to the water line, nothing in it, L. */
function openVolume(plan: Pick<Plan, "tank">): number {
  const { length, width, glass } = plan.tank;
  return (length.value - 2 * glass.value) * (width.value - 2 * glass.value) * waterDepth(plan) * 1000;
}

/** A layer whose depth nobody gave: 5 cm in all, or a fifth of the water where the tank is low. */
export const layerDepth: Rule = (plan, index) => {
  if (hasDepth(plan.substrate[index] ?? {})) return null;
  const count = Math.max(1, plan.substrate.length);
  const all = Math.min(0.05, rounded(waterDepth(plan) / 5));
  const material = plan.substrate[index]?.material ?? "gravel";
  const fact = findMaterial(material);
  const pores = fact?.kind === "substrate" ? `, pores ${Math.round(fact.porosity.value * 100)} %` : "";
  const share = count > 1 ? ` shared by ${count} layers` : "";
  const depth = Number.isFinite(all) ? `${rounded(all * 100)} cm` : "5 cm";
  return { value: all / count, reason: `assumed ${depth} of substrate${share}${pores}: usual for rooted plants` };
};

/** Share of its box that a piece of unknown size is taken to fill: a rough block, or a branch with its forks. */
const filled = { stone: 0.45, wood: 0.08 } as const;
const usualSize = { stone: { width: 0.12, height: 0.1 }, wood: { width: 0.3, height: 0.2 } } as const;

export const pieceMaterial: Rule = (plan, index) => {
  const wood = plan.hardscape[index]?.kind === "wood";
  return { value: wood ? "root wood" : "slate" };
};

export const pieceWidth: Rule = (plan, index) => {
  const piece = plan.hardscape[index]!;
  const mass = typed(piece.mass);
  const height = typed(piece.height)?.value;
  if (!mass) return { value: usualSize[piece.kind].width };
  const volume = mass.value / pieceDensity(piece) / filled[piece.kind];
  const width = height ? Math.max(volume / height ** 2, Math.sqrt(volume / height)) : Math.cbrt(volume);
  return { value: withinSize(width), reason: "worked out from the mass" };
};

export const pieceHeight: Rule = (plan, index) => {
  const piece = plan.hardscape[index]!;
  const mass = typed(piece.mass);
  if (!mass) return { value: usualSize[piece.kind].height };
  const volume = mass.value / pieceDensity(piece) / filled[piece.kind];
  const width = piece.width.value;
  const height = Math.max(volume / width ** 2, Math.sqrt(volume / width));
  return { value: withinSize(height), reason: "worked out from the mass" };
};

function withinSize(size: number): number {
  return rounded(Math.min(6, Math.max(0.005, size)));
}

/** How a rock usually breaks, or is worn. */
const habits: readonly (readonly [RegExp, StoneShape])[] = [
  [/slate|shale|sandstone|gneiss/, "layered"],
  [/lava|pumice/, "irregular"],
  [/granite|marble/, "rounded"],
];

export const pieceBreadth: Rule = (plan, index) => {
  const { width, height } = plan.hardscape[index]!;
  return { value: withinSize(Math.min(width.value, height.value)) };
};

export const pieceShape: Rule = (plan, index) => {
  const { material } = plan.hardscape[index]!;
  return { value: habits.find(([rock]) => rock.test(material))?.[1] ?? "faceted" };
};

export const pieceSeed: Rule = (_, index) => ({ value: index + 1 });

/** Set in by a tenth of its height, at most a centimetre. Common practice, no source. */
export const pieceRaise: Rule = (plan, index) => {
  const { height, kind } = plan.hardscape[index]!;
  return { value: kind === "wood" ? 0 : -Math.min(0.01, rounded(height.value / 10)) };
};

export const pieceMass: Rule = (plan, index) => {
  const piece = plan.hardscape[index]!;
  const sound = [piece.width, piece.height, piece.breadth, piece.seed, piece.branches].every((e) => e.value >= 0);
  if (!sound || findMaterial(piece.material)?.kind !== piece.kind) return { value: Number.NaN };
  return { value: Math.min(2000, Math.max(0.001, pieceForm(piece).volume * pieceDensity(piece))) };
};

// Water ---------------------------------------------------------------------------------------------------------------

/** Calcium's usual share of the general hardness, by amount. */
const calciumShare = 0.75;

export const gh: Rule = ({ water }) => {
  const calcium = typed(water.calcium)?.value;
  const magnesium = typed(water.magnesium)?.value;
  if (calcium !== undefined && magnesium !== undefined) {
    return { value: Math.min(10, calcium + magnesium), reason: "the calcium and magnesium given, together" };
  }
  if (calcium !== undefined) {
    return { value: Math.min(10, calcium / calciumShare), reason: "from the calcium given, taken as three quarters" };
  }
  if (magnesium !== undefined) {
    const value = Math.min(10, magnesium / (1 - calciumShare));
    return { value, reason: "from the magnesium given, taken as one quarter" };
  }
  return { value: "6 dGH" };
};

export const calcium: Rule = ({ water }) => {
  const magnesium = typed(water.magnesium)?.value;
  return magnesium === undefined
    ? { value: calciumShare * water.gh.value }
    : { value: Math.max(0, water.gh.value - magnesium), reason: "the hardness less the magnesium given" };
};

export const magnesium: Rule = ({ water }) => {
  const calcium = typed(water.calcium)?.value;
  return calcium === undefined
    ? { value: (1 - calciumShare) * water.gh.value }
    : { value: Math.max(0, water.gh.value - calcium), reason: "the hardness less the calcium given" };
};

/**
 * Charge that sodium (positive) or chloride (negative) must close, meq/L: alkalinity is the sum of the strong cations
 * less the strong anions, phosphate counting once.
 * Source: Wolf-Gladrow et al. 2007, Mar. Chem. 106:287, explicit conservative form of alkalinity (from memory).
 */
export function openCharge({ water }: Pick<Plan, "water">): number {
  const { kh, calcium, magnesium, potassium, nitrate, phosphate, sulfate } = water;
  const anions = kh.value + nitrate.value + phosphate.value + 2 * sulfate.value;
  return anions - 2 * (calcium.value + magnesium.value) - potassium.value;
}

export const sodium: Rule = (plan) => {
  const chloride = typed(plan.water.chloride)?.value ?? 0;
  return { value: Math.max(0, openCharge(plan) + chloride) };
};

export const chloride: Rule = (plan) => ({ value: Math.max(0, plan.water.sodium.value - openCharge(plan)) });

// Light and gas -------------------------------------------------------------------------------------------------------

/** Photons per joule by kind of lamp: diodes, sealed for tanks, and fluorescent tubes with reflector. */
const efficacies: Readonly<Record<LampKind, number>> = { bar: 1.6, panel: 1.6, pendant: 1.6, tube: 0.9 };
/** Full beam angle, degrees: matt surfaces spread over 120, pendants carry a lens. Common practice, no source. */
const beams: Readonly<Record<LampKind, number>> = { bar: 120, panel: 120, pendant: 60, tube: 120 };

export const lampPower: Rule = ({ tank }) => {
  const watts = 100 * tank.length.value * tank.width.value;
  return { value: Math.min(5000, Math.max(0.5, rounded(watts))) };
};

/** Which lamp of a plan a row of the table speaks of. */
export type LampOf = (plan: Plan, index: number) => LampPlan;

export const firstLamp: LampOf = ({ light }) => light!;
export const furtherLamp: LampOf = ({ lamps }, index) => lamps[index]!;

/** Defaults that follow from the kind of a lamp. */
export function lampRules(lamp: LampOf) {
  const kindOf = (plan: Plan, index: number): LampKind => lamp(plan, index).kind.value;
  const efficacy: Rule = (plan, index) => {
    const kind = kindOf(plan, index);
    const reason =
      kind === "tube"
        ? "fluorescent tubes in a reflector give about 0.9 umol/J; from memory"
        : "sealed diode lamps for tanks give 1.2 to 2.3 umol/J; common practice, no source";
    return { value: efficacies[kind] ?? Number.NaN, reason };
  };
  const beam: Rule = (plan, index) => ({ value: beams[kindOf(plan, index)] ?? Number.NaN });
  const length: Rule = (plan, index) => {
    const pendant = kindOf(plan, index) === "pendant";
    const value = (pendant ? 0.3 : 0.8) * plan.tank.length.value;
    return pendant ? { value, reason: "a pendant is short: 30 % of the tank's length" } : { value };
  };
  const width: Rule = (plan, index) => {
    const { tank } = plan;
    const own = lamp(plan, index).length.value;
    const usual: Readonly<Record<LampKind, number>> = {
      bar: Math.min(0.06, tank.width.value / 3),
      panel: 0.5 * tank.width.value,
      tube: 0.026,
      pendant: own,
    };
    return { value: Math.min(3, usual[kindOf(plan, index)] ?? Number.NaN) };
  };
  return { efficacy, beam, length, width };
}

/** Hours that a lamp's programme, or those of its channels where each has one, come to; null where it is never dark. */
export function programmeHours({ programme, channels }: LampPlan): ReturnType<typeof litHours> {
  if (programme) return litHours(programme);
  const each = channels.map((channel) => channel.programme);
  return each.length > 0 && each.every((p) => p !== null) ? litHours(...each) : null;
}

/** A reading without a setting beside it was taken as the lamp stands now. */
export const measuredAt: Rule = ({ light }) => ({ value: Math.max(0.01, light!.strength.value) });

/** Whether a programme, its own or those of all its channels, says when a lamp shines. */
export const timed = ({ programme, channels }: LampPlan): boolean =>
  programme !== null || (channels.length > 0 && channels.every((channel) => channel.programme !== null));

/** Hours of a lamp: its programme's; else those of the first lamp, or of a timer as it usually stands. */
export function hoursRules(lamp: LampOf, further: boolean) {
  const reason = "from its programme";
  const first = (plan: Plan, key: "on" | "off" | "ramp"): Derived => ({ value: plan.light?.[key].value ?? Number.NaN });
  const on: Rule = (plan, index) => {
    const own = lamp(plan, index);
    if (timed(own)) return { value: programmeHours(own)?.on ?? 0, reason };
    return further ? first(plan, "on") : { value: "10:00" };
  };
  const off: Rule = (plan, index) => {
    const own = lamp(plan, index);
    if (timed(own)) {
      const hours = programmeHours(own);
      return { value: hours ? Math.min(24, own.on.value + hours.off - hours.on) : 24, reason };
    }
    return further ? first(plan, "off") : lightsOff(plan);
  };
  const ramp: Rule = (plan, index) => {
    if (timed(lamp(plan, index))) return { value: 0, reason: "its programme says how it rises and falls" };
    return further ? first(plan, "ramp") : { value: "0 min" };
  };
  return { on, off, ramp };
}

const lightsOff = ({ light }: Plan): Derived => ({ value: Math.min(24, light!.on.value + 8) });

/** Half the day's length after sunrise. */
export const daylightNoon: Rule = ({ daylight }) => ({ value: (daylight!.rise.value + daylight!.set.value) / 2 });

/** One bubble a second for each 100 L. Common practice, no source. */
export const bubbles: Rule = (plan) => ({ value: Math.min(60, rounded(openVolume(plan) / 100)) });

/** Usual pressure in the counter, which sits before the device, bar absolute. Common practice, no source. */
const counterPressure: Readonly<Record<GasDevice, number>> = {
  "fine plate": 2,
  "in-line": 2,
  "coarse plate": 1.5,
  reactor: 1.2,
  "open line": 1.1,
};

export const bubbleMass: Rule = ({ co2 }) => {
  const pressure = counterPressure[co2!.device.value];
  return {
    value: rounded(gasInBubble(USUAL_BUBBLE.value, pressure, 22)),
    reason: `a bubble of ${USUAL_BUBBLE.value} mL in a counter at ${pressure} bar, usual for this device; may be off by a factor of 3, so weigh the cylinder`,
  };
};

export const dissolved: Rule = ({ co2 }) => {
  const device = devices.find((d) => d.id === co2!.device.value)!;
  return { value: device.dissolved, reason: device.reason };
};

export const opens: Rule = ({ light }) =>
  light
    ? { value: Math.max(0, light.on.value - 1.5) }
    : { value: 8.5, reason: "no lamp to go by; half past eight is usual" };

export const closes: Rule = ({ light, co2 }) => {
  if (!light) {
    const value = co2!.opens.value < 17 ? 17 : 24;
    return { value, reason: "no lamp to go by" };
  }
  const hourBefore = light.off.value - 1;
  if (hourBefore > co2!.opens.value) return { value: hourBefore };
  const value = light.off.value > co2!.opens.value ? light.off.value : 24;
  return { value, reason: "the valve opens less than an hour before lights-off" };
};

// Water movement, air, heat -------------------------------------------------------------------------------------------

export const rated: Rule = (plan) => ({ value: Math.min(100_000, Math.max(10, rounded(6 * openVolume(plan)))) });

export const flow: Rule = ({ filter }) => ({ value: 0.6 * filter!.rated.value });

export const filterPower: Rule = ({ filter }) => ({
  value: Math.min(2000, Math.max(1, rounded(0.012 * filter!.rated.value))),
});

export const airOn: Rule = ({ light }) =>
  light && light.off.value < 24 ? { value: light.off.value } : { value: 0, reason: "no dark hours to go by" };

export const airOff: Rule = ({ light, air }) => {
  const value = light && light.off.value < 24 ? light.on.value : 24;
  if (value !== air!.on.value) return { value };
  return { value: value === 24 ? 12 : 24, reason: "the air starts when the lamp does" };
};

const heaterSizes = [25, 50, 75, 100, 150, 200, 300] as const;

export const heaterPower: Rule = (plan) => {
  const litres = openVolume(plan);
  const size = heaterSizes.find((watts) => watts >= litres);
  return { value: size ?? Math.min(10_000, Math.ceil(litres / 100) * 100) };
};

export const roomNight: Rule = ({ room }) =>
  room.day.value < 20 ? { value: room.day.value, reason: "the room is below 20 °C even by day" } : { value: 20 };

// Living things -------------------------------------------------------------------------------------------------------

export const plantHeight: Rule = (plan, index) => {
  const fact = findPlant(plan.plants[index]?.species ?? "");
  if (!fact) return { value: Number.NaN };
  if (fact.form === "floating") return { value: fact.heightMax, reason: "a floating plant lies at the surface" };
  const usual = (fact.heightMin + fact.heightMax) / 2;
  const room = waterDepth(plan);
  return usual > room
    ? { value: Math.max(0, rounded(room)), reason: "its usual height is more than the water, so up to the surface" }
    : { value: usual };
};

/** The middle of a drawn area that has one. */
function middleOf(plan: Plan, index: number): FloorPoint | null {
  const { outline } = plan.plants[index]!;
  return outline && outlineArea(outline) > 0 ? outlineCentroid(outline) : null;
}

const within01 = (value: number): number => Math.min(1, Math.max(0, value));

export const plantAt: Rule = (plan, index) => {
  const middle = middleOf(plan, index);
  return middle
    ? { value: within01(middle[0]), reason: "the middle of the area drawn" }
    : { value: (index + 0.5) / Math.max(1, plan.plants.length) };
};

/** Where plants of a zone usually stand, front to back. Common practice, no source. */
const zoneDepths: Readonly<Record<PlantZone, number>> = {
  foreground: 0.2,
  midground: 0.5,
  background: 0.85,
  epiphyte: 0.6,
  floating: 0.5,
};

export const plantDepth: Rule = (plan, index) => {
  const middle = middleOf(plan, index);
  if (middle) return { value: within01(middle[1]), reason: "the middle of the area drawn" };
  const fact = findPlant(plan.plants[index]!.species);
  return { value: fact ? zoneDepths[fact.zone] : Number.NaN };
};

export const plantCover: Rule = (plan, index) => {
  const { outline } = plan.plants[index]!;
  if (!outline) return { value: "10 %" };
  return { value: within01(outlineArea(outline)), reason: "the area drawn, as a share of the floor" };
};

/** Dry mass at which a growth form's leaves close, g/m2 of patch; design values. */
const closing: Readonly<Record<GrowthForm, number>> = {
  stem: 150,
  rosette: 150,
  bulb: 150,
  runner: 150,
  rhizome: 150,
  carpet: 100,
  moss: 100,
  floating: 100,
};

export const biomass: Rule = ({ plants }, index): Derived => {
  const form = findPlant(plants[index]?.species ?? "")?.form;
  return { value: form ? closing[form] / 2 : Number.NaN };
};

export const animalLength: Rule = ({ animals }, index) => ({
  value: findAnimal(animals[index]?.species ?? "")?.adultLength ?? Number.NaN,
});

/** Mass of a fish of usual build, g, per cube of its length in cm. Common practice, no source. */
const buildFactor = 0.012;

export const food: Rule = ({ animals }) => {
  if (animals.length === 0) return { value: 0, reason: "no animals, so no food" };
  let grams = 0;
  for (const { count, length } of animals) grams += count.value * buildFactor * (100 * length.value) ** 3;
  return { value: Math.min(500, rounded(0.015 * grams)) };
};

export const feedingTime: Rule = ({ light }) => {
  if (!light) return { value: 18, reason: "no lamp to go by; six in the evening is usual" };
  const before = light.off.value - 0.5;
  return before > light.on.value ? { value: before } : { value: light.on.value };
};

/** How a planting was raised: what has no leaves for the air is raised under water. */
export const raised: Rule = (plan, index) => {
  const fact = findPlant(plan.plants[index]?.species ?? "");
  const wet =
    fact &&
    (fact.form === "floating" ||
      fact.form === "moss" ||
      fact.family === "Hydrocharitaceae" ||
      fact.family === "Ceratophyllaceae");
  return wet
    ? { value: "submerged", reason: "a plant that is raised under water; common practice, no source" }
    : { value: "emersed" };
};
