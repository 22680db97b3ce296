import { plantedBed, slopeIn } from "./beds.ts";
import { type Compose, ease, frontDepth, wave } from "./composition.ts";
import { band, cutsAt, type Warp } from "./outlines.ts";
import { reliefOf } from "./relief.ts";

const soil = "baked soil";
const core = "lava grit";

/**
 * High on one side and falling to the other: ground, stones and planting all follow one diagonal. The main stone stands
 * at the third on the high side; wood leans from the mass over the open side.
 */
export const triangle: Compose = ({ site, dice, woodWanted }) => {
  const { length, width, depth } = site;
  const front = frontDepth(site);
  const slope = slopeIn(soil, core);
  const rise = dice.between(0.22, 0.28) * depth;
  const fall = dice.between(1.1, 1.4);
  const relief = reliefOf(
    site,
    (x, y) => front + rise * (1 - x / length) ** fall * (0.18 + 0.82 * ease(0.05, 0.95, y / width)),
    slope,
    front,
  );

  const [near, far] = [wave(dice), wave(dice)];
  const whole: Warp = (s, t) => [s, t];
  // the open ground widens towards the low side
  const open = (s: number): number => 0.22 + 0.5 * s ** 1.25 + 0.02 * near(s);
  const middle = (s: number): number => Math.min(0.93, open(s) + 0.3 - 0.12 * s + 0.02 * far(s));
  const shift = dice.between(-0.03, 0.03);
  const fronts = band(whole, cutsAt([0.3 + shift], [0.1], 0.02, 0.98), () => 0.03, open);
  const mids = band(
    whole,
    cutsAt([0.26 + shift, 0.56 + shift], [0.08, 0.08], 0.02, 0.9),
    (s) => open(s) + 0.02,
    middle,
  );
  const backs = band(
    whole,
    cutsAt([0.2 + shift, 0.4 + shift], [0.04, 0.05], 0.02, 0.62),
    (s) => middle(s) + 0.02,
    () => 0.97,
  );
  const tail = band(
    whole,
    [
      [0.64, 0.64],
      [0.98, 0.98],
    ],
    (s) => Math.min(0.93, middle(s) + 0.02),
    () => 0.98,
  );
  const wooded = woodWanted || dice.chance(0.7);
  return {
    beds: plantedBed(relief, soil, core, null),
    edges: [],
    main: { top: dice.between(0.72, 0.8), widest: 0.26, slender: dice.between(1, 1.35), lean: dice.between(8, 16) },
    stones: [
      { ratio: 1, at: [1 / 3 + dice.between(-0.02, 0.02), dice.between(0.54, 0.62)] },
      { ratio: 0.6, beside: { of: 0, angle: -8, reach: 0.98 } },
      { ratio: 0.5, beside: { of: 0, angle: 195, reach: 0.95 } },
      { ratio: 0.34, beside: { of: 1, angle: -28, reach: 1.05 } },
      { ratio: 0.28, at: [0.72, 0.4] },
      { ratio: 0.3, beside: { of: 0, angle: -75, reach: 1.3 } },
      { ratio: 0.36, at: [0.13, 0.42] },
      { ratio: 0.22, beside: { of: 3, angle: -40, reach: 1.4 } },
      { ratio: 0.18, beside: { of: 4, angle: 20, reach: 1.4 } },
      { ratio: 0.24, beside: { of: 6, angle: -50, reach: 1.3 } },
      { ratio: 0.15, at: [0.84, 0.3] },
    ],
    woods: wooded
      ? [
          {
            at: [0.42, 0.66],
            width: dice.between(0.44, 0.54),
            breadth: dice.between(0.34, 0.44),
            height: dice.between(0.48, 0.58),
            lean: dice.between(10, 18),
            turn: dice.between(-14, 14),
            branches: dice.whole(3, 5),
          },
        ]
      : [],
    standing: () => true,
    areas: [
      ...backs.map((outline) => ({ role: "tall" as const, outline })),
      ...mids.map((outline, k) => ({ role: k === 0 ? ("mid" as const) : ("low" as const), outline })),
      { role: "low", outline: fronts[0]! },
      { role: "carpet", outline: fronts[1]! },
      ...tail.map((outline) => ({ role: "low" as const, outline })),
    ],
    tied: wooded ? 2 : 1,
    oneRegion: false,
  };
};
