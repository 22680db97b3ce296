import { boxSizes } from "../../geometry/index.ts";
import { figuresOf, lampFlux, whiteSpectrum } from "../../light/index.ts";
import { boxOf, type LampPlan, type Plan } from "../../plan/index.ts";
import { convert } from "../../units/index.ts";

/** What a tank offers to a layout: room, light, warmth, gas. */
export interface Site {
  /** Inside, m. */
  readonly length: number;
  readonly width: number;
  /** Floor to water line, m. */
  readonly depth: number;
  /** Photon flux near the bed, umol/m2/s; a rough figure for choosing plants by, not a forecast. */
  readonly light: number;
  /** Least and greatest usual warmth of the water, °C. */
  readonly warmth: readonly [low: number, high: number];
  /** Whether CO2 is added. */
  readonly gas: boolean;
  /** General hardness, dGH. */
  readonly hardness: number;
}

/** Smallest inside length, width and depth of water that a form is laid in, m. Design values. */
const leastFloor = 0.09;
const leastDepth = 0.09;

/** Light of a tank without a lamp, umol/m2/s: a bright room, no sun. Design value. */
const roomLight = 20;

/** Share of a lamp's photons that falls on a tank's water, its spread and splash counted off. Design value. */
const onWater = 0.6;

/** Attenuation in clear, slightly stained water, 1/m. Design value. */
const attenuation = 0.4;

/** @throws RangeError for a tank too small for a form: what is allowed. */
export function siteOf(plan: Plan): Site {
  const { length, width, waterDepth: depth } = boxSizes(boxOf(plan));
  const mm = (metres: number): string => `${Math.round(metres * 1000)} mm`;
  if (!(length >= leastFloor && width >= leastFloor && depth >= leastDepth)) {
    throw new RangeError(
      `tank: ${mm(length)} x ${mm(width)} inside with ${mm(depth)} of water; a form needs at least ${mm(leastFloor)} x ${mm(leastFloor)} and ${mm(leastDepth)} of water`,
    );
  }
  const { heater, room, co2, water } = plan;
  return {
    length,
    width,
    depth,
    light: lightOf(plan, length * width, depth),
    warmth: heater ? [heater.set.value, heater.set.value] : [room.night.value, room.day.value],
    gas: co2 !== null,
    hardness: convert(water.gh.value, "mmol/L", "dGH"),
  };
}

function lightOf({ light, lamps }: Plan, floor: number, depth: number): number {
  if (!light) return roomLight;
  if (light.ppfd) return light.ppfd.value;
  const photons = [light, ...lamps].reduce((sum, lamp) => sum + photonsOf(lamp), 0);
  return Math.max(roomLight, ((photons * onWater) / floor) * Math.exp(-attenuation * depth));
}

/** umol/s at its present strength. */
function photonsOf({ photons, lumens, power, efficacy, spectrum, strength }: LampPlan): number {
  const flux = lampFlux({
    ...(photons && { photons: photons.value }),
    ...(lumens && {
      lumens: lumens.value,
      luxPerPhoton: figuresOf(whiteSpectrum(Number.parseInt(spectrum.value, 10))).luxPerPhoton,
    }),
    watts: power.value,
    efficacy: efficacy.value,
  });
  return flux.photons * strength.value;
}
