import { findPlant } from "../../facts/index.ts";
import { changeAt, keepReading } from "../../plan/index.ts";
import type { DayContext } from "../context.ts";
import type { Finding, Remedy } from "../types.ts";
import { listed, plain } from "../words.ts";

/** The first lamp turned up until each of these plantings gets its least, where its dimmer still has that much. */
function turnedUp(
  ctx: DayContext,
  weak: readonly { readonly least: number; readonly light: readonly number[] }[],
): Remedy[] {
  const { raw, setup } = ctx;
  const needed = weak.map(({ least, light }) => {
    let [first, rest] = [0, 0];
    setup.lamps.forEach(({ lamp, part, brightest }, k) => {
      if (lamp === 0) first += light[k]! * part;
      else rest += light[k]! * brightest;
    });
    return first > 0 ? (least - rest) / first : Number.POSITIVE_INFINITY;
  });
  const percent = Math.ceil(100 * Math.max(...needed) - 1e-9);
  if (!(percent <= 100)) return [];
  const change = changeAt(raw, ["light", "strength"], `${percent} %`, `lamp at ${percent} %`);
  return [
    {
      id: "lamp-up",
      text: `Set the lamp to ${percent} %`,
      changes: keepReading(raw, [change]),
      effect: "each of them then gets its least; more light asks for more CO2 and food, or algae take it",
      safe: true,
    },
  ];
}

/** Species that get too little light where they stand. */
export function lightShort(ctx: DayContext): Finding | null {
  const { plan, setup } = ctx;
  if (!plan.light) return null;
  const { measured, followed } = setup.light;
  const weak = setup.patches
    .map(({ species, light }) => {
      const fact = findPlant(species)!;
      const now = light.reduce((sum, own, k) => sum + own * setup.lamps[k]!.brightest, 0);
      return { name: fact.name, least: fact.ppfdMin, light, now };
    })
    .filter(({ least, now }) => now < least);
  if (weak.length === 0) return null;
  const told = weak.map(({ name, least, now }) => `${name} (${Math.round(now)} of ${least})`);
  const rest = followed
    ? " What the lamps give is taken from what is known of them: borrow a meter, and enter what it shows on the carpet."
    : " The light is only estimated here: borrow a meter, and enter what it shows on the carpet.";
  return {
    id: "light-short",
    severity: measured || followed ? "caution" : "note",
    title: `Too little light for ${listed(told)} µmol/m²s`,
    figure: "light-at-bed",
    reason: `Below that they hold on at best.${measured ? "" : rest}`,
    next: turnedUp(ctx, weak),
  };
}

/** A reading this many times above or below what was followed is more than lamp, beam and place of a meter explain. Design value. */
const farOff = 2;

/** A light reading and a lamp that do not go together. */
export function readingFarOff({ plan, setup }: DayContext): Finding | null {
  const { measured, followed, factor, meter } = setup.light;
  if (!measured || !followed || !(meter > 0) || (factor < farOff && factor > 1 / farOff)) return null;
  const expected = plan.light!.ppfd!.value / factor;
  return {
    id: "light-reading-off",
    severity: "note",
    title: `The meter read ${plain(plan.light!.ppfd!.value, 0)} µmol/m²s where the lamp as entered should give ${plain(expected, 0)}`,
    figure: "light-at-bed",
    reason:
      "The reading is believed. Still, look again at the dimmer's setting when it was read, the lamp's power and photons per joule, its height and beam, and whether the meter lay on the carpet under open water.",
    next: [],
  };
}
