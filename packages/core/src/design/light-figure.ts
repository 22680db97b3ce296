import { type LampPlan, lampsOf, openDaylight } from "../plan/index.ts";
import { fullHoursOf } from "../tank/index.ts";
import type { DayContext } from "./context.ts";
import { shown } from "./shown.ts";
import type { Figure } from "./types.ts";
import { clock, plain } from "./words.ts";
import { computed, input, withShares } from "./working-parts.ts";

const unit = "umol/m2/s";

const named = (lamps: readonly LampPlan[], k: number): string =>
  lamps.length === 1 ? `${lamps[k]!.kind.value} lamp` : `${lamps[k]!.kind.value} lamp ${k + 1}`;

const hoursWords = ({ on, off }: LampPlan): string => `${clock(on.value)} to ${clock(off.value)}`;

/** What a meter on the carpet reads at the brightest of the day, lamp by lamp and with daylight; null without a lamp. */
export function lightFigure({ plan, setup }: DayContext): Figure | null {
  const { light } = plan;
  if (!light) return null;
  const { measured, followed, factor, meter, daylight } = setup.light;
  const [low, high] = setup.light.span;
  const daily = setup.lamps.reduce((sum, lamp) => sum + lamp.meter * fullHoursOf(lamp.day) * 3600e-6, 0);
  const lamps = lampsOf(plan);
  const whole = meter + daylight;
  const parts = lamps.map((lamp, k) => ({
    light: setup.lamps.reduce((sum, own) => (own.lamp === k ? sum + own.meter * own.brightest : sum), 0),
    label: `${named(lamps, k)}, ${hoursWords(lamp)}`,
  }));
  const open = openDaylight(plan);
  const sky = open
    ? [
        {
          light: daylight,
          label: `daylight, ${clock(open.rise.value)} to ${clock(open.set.value)}`,
        },
      ]
    : [];
  const all = [...parts, ...sky];
  const terms =
    all.length === 1
      ? []
      : withShares(
          [
            { sign: "", value: shown(whole, unit, 0), label: "on the carpet" },
            ...all.map((part, k) => ({
              sign: k === 0 ? ("=" as const) : ("+" as const),
              value: shown(part.light, unit, 0),
              label: part.label,
            })),
          ],
          [whole, ...all.map((part) => part.light)],
        );
  return {
    id: "light-at-bed",
    label: "PPFD at the bed",
    value: whole,
    unit,
    shown: shown(whole, unit, 0),
    note: measured ? "measured" : followed ? "followed through the scape" : "rough, within half or double",
    known: light.ppfd ? light.ppfd.known : "computed",
    ...(light.ppfd ? { path: "light.ppfd" } : {}),
    working: {
      title: "Light at the bed",
      span: `${plain(daily, 1)} mol/m² a day, on the carpet or, where there is none, on the bed`,
      terms,
      inputs: [
        ...(light.ppfd
          ? [
              input("meter at the bed", light.ppfd, shown(light.ppfd.value, unit, 0), "light.ppfd"),
              input(
                "strength when measured",
                light.measuredAt,
                shown(light.measuredAt.value * 100, "%", 0),
                "light.measured_at",
              ),
            ]
          : []),
        input("lamp", light.power, shown(light.power.value, "W", 0), "light.power"),
        input("photons per joule", light.efficacy, shown(light.efficacy.value, "umol/J", 1), "light.efficacy"),
        input("strength", light.strength, shown(light.strength.value * 100, "%", 0), "light.strength"),
        ...(followed && measured
          ? [
              computed(
                "lamps against what is known of them",
                shown(factor * 100, "%", 0),
                "more or less: output, beam, or where the meter lay",
              ),
            ]
          : []),
      ],
      ...(measured
        ? {}
        : {
            doubt: `The lamps' output is known to ${plain(low * 100, 0)} to ${plain(high * 100, 0)} % of what is taken; a meter reading narrows it.`,
          }),
      equation: followed
        ? `The light of each lamp is followed through surface, water, panes, stones, wood and leaves to the carpet and to each planting; strengths weigh it.${measured ? " The reading sets its scale." : ""}`
        : measured
          ? "As measured; with the dimmer moved it follows in proportion."
          : "Photons x share that meets the water / floor, weakened on the way down; glass walls mirror, plants and stones cast no shadow here.",
      sources: [
        ...(measured ? ["your reading"] : []),
        followed
          ? "Snell, Fresnel, Beer-Lambert; direct light by mirror images, the rest by photon paths, held against traced reference scenes (derived)"
          : "Lambert's law, traced reference scene of an empty box (derived)",
      ],
    },
  };
}
