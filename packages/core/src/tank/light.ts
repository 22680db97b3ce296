/**
 * The light that a day is run with: what was followed through the scape, else a rule of thumb (what share of a lamp's
 * photons reaches the floor of an empty glass box); either way the owner's reading, where there is one, sets its scale.
 */
import { findPlant } from "../facts/index.ts";
import type { Volumes } from "../geometry/index.ts";
import {
  channelShares,
  daylightLevel,
  type FollowedLight,
  type LampPlan,
  lampsOf,
  lightKey,
  lightsOf,
  type Plan,
  type PlanLight,
} from "../plan/index.ts";

/** Attenuation of photons by clear, slightly stained tank water, 1/m (design value; pure water about 0.1, tea-coloured above 1). */
const waterAttenuation = 0.35;

/** Part of the photons that enter the water; the rest is mirrored at the surface (Fresnel, mean over a Lambertian lamp). */
const entering = 0.97;

/**
 * Share of a Lambertian line lamp's photons that falls on a rectangle below it (view factor by quadrature).
 * @param length of the rectangle, m; @param width of the rectangle, m; @param lampLength m; @param height above it, m
 * Source: Lambert's cosine law; the lamp lies lengthwise over the middle.
 */
function lampCapture(length: number, width: number, lampLength: number, height: number): number {
  const h = Math.max(height, 1e-3);
  const sources = 5;
  const across = 24;
  const along = 24;
  let sum = 0;
  for (let s = 0; s < sources; s += 1) {
    const x0 = lampLength * ((s + 0.5) / sources - 0.5);
    for (let j = 0; j < across; j += 1) {
      // substitution z = h tan(a) resolves the bright strip under a low lamp
      const aMax = Math.atan(width / 2 / h);
      const a = aMax * ((j + 0.5) / across);
      const z = h * Math.tan(a);
      const dz = (h / Math.cos(a) ** 2) * (aMax / across);
      const r0 = Math.hypot(h, z);
      const lo = Math.atan((-length / 2 - x0) / r0);
      const hi = Math.atan((length / 2 - x0) / r0);
      for (let i = 0; i < along; i += 1) {
        const b = lo + ((hi - lo) * (i + 0.5)) / along;
        const x = r0 * Math.tan(b);
        const dx = (r0 / Math.cos(b) ** 2) * ((hi - lo) / along);
        const r2 = x * x + z * z + h * h;
        sum += (2 * dx * dz * h * h) / (Math.PI * r2 * r2);
      }
    }
  }
  return Math.min(1, sum / sources);
}

/**
 * Mean photon flux at the floor of an empty glass box, umol/m2/s.
 * Rule of thumb: PPF x captured x entering / area, weakened along a path 1.12 times the depth; the glass walls are taken
 * to mirror what hits them from inside (total internal reflection). Source: derived (traced reference scene of a bare box
 * agrees within 1 %).
 */
function floorLight(ppf: number, capture: number, area: number, depth: number, attenuation = waterAttenuation): number {
  return ((ppf * capture * entering) / area) * Math.exp(-1.12 * attenuation * depth);
}

/** Lux of white diodes for each umol/m2/s; 67 to 70 for the CIE's phosphor whites. Source: CIE 15:2018 spectra (derived) */
const luxPerPhoton = 69;

/** Likely span of a rule of thumb for an empty box in a planted one, shares of it. Design value. */
const roughSpan: readonly [number, number] = [0.65, 1.35];

/** How the light of a day is known. */
export interface LightKnown {
  /** Followed through the scape; false = a rule of thumb for an empty box. */
  readonly followed: boolean;
  /** The owner's reading sets its scale. */
  readonly measured: boolean;
  /** Factor that the reading puts on what the lamps were taken to give; 1 without one. */
  readonly factor: number;
  /** What a meter on the carpet reads with the lamps at their brightest and no daylight, umol/m2/s. */
  readonly meter: number;
  /** What daylight adds to that at its brightest, umol/m2/s. */
  readonly daylight: number;
  /** Span of the lamps' output as it is known, shares of what is taken. */
  readonly span: readonly [low: number, high: number];
}

interface OneLight {
  /** What a meter on the carpet reads with it at full; light at the top of each planting. umol/m2/s */
  readonly meter: number;
  readonly plantings: readonly number[];
  /** Electrical power at full, W. */
  readonly watts: number;
}

/** Share of the light on a pane that reaches a meter in the middle of the bed, roughly. Design value after traced tanks. */
const throughPane = 0.2;

/** Share of a lamp's photons and power that one of its channels has, as far as that is told without its spectrum. */
function channelPart({ channels }: LampPlan, channel: number | null): number {
  if (channel === null) return 1;
  const powers = channels.map(({ power }) => power?.value ?? 0);
  const all = powers.reduce((a, b) => a + b, 0);
  return powers.every((p) => p > 0) ? powers[channel]! / all : channelShares(channels)[channel]!;
}

function roughLight(plan: Plan, { lamp: index, channel }: PlanLight, v: Volumes): OneLight {
  const { daylight } = plan;
  if (index === null) return spread(plan, v, throughPane * daylightLevel(daylight!).ppfd, 0);
  const { tank } = plan;
  const lamp = lampsOf(plan)[index]!;
  const part = channelPart(lamp, channel);
  const length = tank.length.value - 2 * tank.glass.value;
  const width = tank.width.value - 2 * tank.glass.value;
  const height = lamp.aboveRim.value + tank.belowRim.value;
  const capture = lampCapture(length, width, Math.min(lamp.length.value, length), height);
  const photons =
    lamp.photons?.value ?? (lamp.lumens ? lamp.lumens.value / luxPerPhoton : lamp.power.value * lamp.efficacy.value);
  const meter = floorLight(photons * part, capture, length * width, v.meanFreeDepth);
  return spread(plan, v, meter, lamp.power.value * part);
}

/** Light at the plantings of an empty box whose bed has this much. */
function spread({ plants }: Plan, v: Volumes, meter: number, watts: number): OneLight {
  const floating = (species: string): boolean => findPlant(species)!.form === "floating";
  const shade = plants.reduce((sum, p) => sum + (floating(p.species) ? p.cover.value : 0), 0);
  const above = (height_: number): number => meter * Math.exp(1.12 * waterAttenuation * height_);
  return {
    meter,
    watts,
    plantings: plants.map((p) =>
      floating(p.species)
        ? above(v.meanFreeDepth)
        : above(Math.min(p.height.value, v.meanFreeDepth)) * Math.max(0, 1 - shade),
    ),
  };
}

/** Light of each lamp, channel and of daylight at full, the lamps scaled to the owner's reading, and how it is known. */
export function lightOf(
  plan: Plan,
  v: Volumes,
  followed: readonly FollowedLight[],
): { readonly lights: readonly (OneLight & PlanLight)[]; readonly known: LightKnown } {
  const planned = lightsOf(plan);
  const key = followed.length > 0 ? lightKey(plan) : "";
  const known = followed.find((f) => f.key === key) ?? null;
  const raw: readonly OneLight[] = known ? known.lights : planned.map((light) => roughLight(plan, light, v));
  const sum = (of: (light: PlanLight, k: number) => number): number =>
    planned.reduce((all, light, k) => (light.lamp === null ? all : all + of(light, k)), 0);
  const reading = plan.light?.ppfd;
  const expected = sum(
    ({ lamp, dimmer, part }, k) => raw[k]!.meter * part * (lamp === 0 ? plan.light!.measuredAt.value : dimmer),
  );
  const factor = reading && expected > 0 ? reading.value / expected : 1;
  const strongest = sum((_, k) => raw[k]!.meter);
  const spanned = (end: 0 | 1): number =>
    known && strongest > 0 ? sum((_, k) => raw[k]!.meter * known.lights[k]!.span[end]) / strongest : roughSpan[end];
  const lights = raw.map(({ meter, plantings, watts }, k) => {
    const light = planned[k]!;
    const scale = light.lamp === null ? 1 : factor;
    return { ...light, meter: meter * scale, plantings: plantings.map((top) => top * scale), watts };
  });
  return {
    lights,
    known: {
      followed: known !== null,
      measured: reading !== null && reading !== undefined,
      factor,
      meter: factor * sum(({ brightest }, k) => raw[k]!.meter * brightest),
      daylight: lights.reduce((all, light) => (light.lamp === null ? all + light.meter * light.brightest : all), 0),
      span: [spanned(0), spanned(1)],
    },
  };
}
