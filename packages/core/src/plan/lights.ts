/** The lights of a plan that are dimmed and timed apart: each lamp, or each of its channels, and the daylight. */
import type { ChannelPlan, DaylightPlan, LampPlan, Plan } from "./plan.ts";
import { hoursProgramme, litHours, movedTo, type Programme, type ProgrammePoint, peakOf } from "./programme.ts";
import { programmeHours, timed } from "./rules.ts";

/** One light with a dimmer and a day of its own. */
export interface PlanLight {
  /** 0 = the tank's first lamp; null = daylight. */
  readonly lamp: number | null;
  /** Position in the lamp's channels; null = the lamp has none. */
  readonly channel: number | null;
  /** Setting of the lamp's dimmer, 0 to 1; 1 for daylight. */
  readonly dimmer: number;
  /** Setting of all its dimmers together, share of full. */
  readonly strength: number;
  /** Its day, before the dimmers. */
  readonly programme: Programme;
  /** Share of full at the brightest of its day, with the lamp's dimmer at full. */
  readonly part: number;
  /** The same as the dimmer stands. */
  readonly brightest: number;
}

function planLight(
  at: Pick<PlanLight, "lamp" | "channel">,
  dimmer: number,
  own: number,
  programme: Programme,
): PlanLight {
  const part = own * peakOf(programme);
  return { ...at, dimmer, strength: dimmer * own, programme, part, brightest: dimmer * part };
}

/** All lamps of a plan, the tank's first one first. */
export const lampsOf = ({ light, lamps }: Pick<Plan, "light" | "lamps">): readonly LampPlan[] => [
  ...(light ? [light] : []),
  ...lamps,
];

/**
 * Whether typed hours can move a lamp: one with hours and ramps, or a programme that is dark for a while about midnight.
 */
export const movable = (lamp: LampPlan): boolean => {
  const hours = programmeHours(lamp);
  return timed(lamp) ? hours !== null && lamp.on.value + hours.off - hours.on <= 24 : true;
};

/** The daylight of a plan, unless its side is covered. */
export const openDaylight = ({ daylight, tank }: Pick<Plan, "daylight" | "tank">): DaylightPlan | null =>
  daylight?.side.value === "back" && tank.background.value !== "none" ? null : daylight;

/** All lights of a plan: lamp by lamp, channel by channel, then the daylight. */
export function lightsOf(plan: Pick<Plan, "light" | "lamps" | "daylight" | "tank">): readonly PlanLight[] {
  const lamps = lampsOf(plan);
  const own = lamps.flatMap((lamp, k): PlanLight[] => {
    const dimmer = lamp.strength.value;
    if (lamp.channels.length === 0) return [planLight({ lamp: k, channel: null }, dimmer, 1, lampProgramme(plan, k))];
    return lamp.channels.map((channel, c) =>
      planLight({ lamp: k, channel: c }, dimmer, channel.strength.value, channelProgramme(plan, k, channel)),
    );
  });
  const daylight = openDaylight(plan);
  return daylight ? [...own, planLight({ lamp: null, channel: null }, 1, 1, daylightProgramme(daylight))] : own;
}

const isTyped = ({ text }: { readonly text?: string }): boolean => text !== undefined;

/** How hours typed beside a programme move it; null = they do not. */
function move(lamp: LampPlan): { readonly by: number; readonly factor: number; readonly from: number } | null {
  if (!isTyped(lamp.on) && !isTyped(lamp.off)) return null;
  const hours = programmeHours(lamp);
  if (!hours) return null;
  const factor = isTyped(lamp.off) ? (lamp.off.value - lamp.on.value) / (hours.off - hours.on) : 1;
  return { by: lamp.on.value - hours.on, factor, from: hours.on };
}

/**
 * The day of a lamp as a whole, before its dimmer: its programme, moved and stretched to hours typed beside it; else its
 * hours and ramps; a further lamp without any goes with the first.
 */
export function lampProgramme(plan: Pick<Plan, "light" | "lamps">, index: number): Programme {
  const lamp = lampsOf(plan)[index]!;
  const { on, off, ramp, programme } = lamp;
  if (programme) return move(lamp) ? movedTo(programme, on.value, isTyped(off) ? off.value : undefined) : programme;
  if (index > 0 && ![on, off, ramp].some(isTyped)) return lampProgramme(plan, 0);
  return hoursProgramme(on.value, off.value, ramp.value);
}

/** The day of a channel: its own programme, moved and stretched with the lamp's; else the lamp's. */
function channelProgramme(plan: Pick<Plan, "light" | "lamps">, index: number, { programme }: ChannelPlan): Programme {
  if (!programme) return lampProgramme(plan, index);
  const moved = move(lampsOf(plan)[index]!);
  const hours = litHours(programme);
  if (!moved || !hours) return programme;
  // from the lamp's beginning to its own, the short way round the clock
  const since = ((((hours.on - moved.from + 12) % 24) + 24) % 24) - 12;
  const on = moved.from + moved.by + since * moved.factor;
  return movedTo(programme, on, on + (hours.off - hours.on) * moved.factor);
}

/** Straight pieces that a day's course of the sun is drawn with. Design value: its light is 0.2 % less for them. */
const pieces = 24;

/** Share of the brightest that daylight has at a time: half a sine between sunrise and sunset, as from an even sky. */
function sunShare({ rise, set }: DaylightPlan, hour: number): number {
  const t = (hour - rise.value) / (set.value - rise.value);
  return t > 0 && t < 1 ? Math.sin(Math.PI * t) : 0;
}

/** The day of diffuse light from a window, share of its brightest. Half a sine is a design value: clouds are left out. */
function daylightProgramme(daylight: DaylightPlan): Programme {
  const { rise, set } = daylight;
  return Array.from({ length: pieces + 1 }, (_, i): ProgrammePoint => {
    const hour = rise.value + ((set.value - rise.value) * i) / pieces;
    return [hour, i === 0 || i === pieces ? 0 : sunShare(daylight, hour)];
  });
}

/** Shares of a lamp's photons that its channels are told to have; what is not told is shared evenly. */
export function channelShares(channels: readonly ChannelPlan[]): readonly number[] {
  const given = channels.reduce((sum, { share }) => sum + (share?.value ?? 0), 0);
  const open = channels.filter(({ share }) => !share).length;
  const whole = open > 0 ? Math.max(1, given) : given;
  return channels.map(({ share }) => (share ? share.value : Math.max(0, 1 - given) / open) / whole);
}

/** Lux of daylight for each umol/m2/s. Source: CIE 15, illuminant D65 (derived) */
const daylightLuxPerPhoton = 55.5;

/**
 * Diffuse light of a window on a side of the tank, lx: design values within what is common practice, no source (a room
 * for reading has 300 to 500 lx at its middle by day).
 */
const windowLux = { "at the window": 2000, "near the window": 600, "deep in the room": 150 } as const;

export interface DaylightLevel {
  /** At its brightest, on that side facing out, umol/m2/s. */
  readonly ppfd: number;
  /** Span in which it lies, shares of that. */
  readonly span: readonly [low: number, high: number];
  readonly from: "photons" | "lux" | "nearness";
}

/** How bright daylight gets on its side of the tank; a reading is scaled to the brightest hour. */
export function daylightLevel(daylight: DaylightPlan): DaylightLevel {
  const { ppfd, lux, at, place } = daylight;
  if (ppfd) return { ppfd: ppfd.value / sunShare(daylight, at.value), span: [0.8, 1.25], from: "photons" };
  if (lux) {
    const measured = lux.value / daylightLuxPerPhoton;
    return { ppfd: measured / sunShare(daylight, at.value), span: [0.75, 1.33], from: "lux" };
  }
  return { ppfd: windowLux[place.value] / daylightLuxPerPhoton, span: [0.4, 2.5], from: "nearness" };
}
