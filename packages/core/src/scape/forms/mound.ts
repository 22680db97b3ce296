import { plantedBed, slopeIn } from "./beds.ts";
import { type Compose, ease, frontDepth, golden, wave } from "./composition.ts";
import { band, cutsAt, type Warp } from "./outlines.ts";
import { reliefOf } from "./relief.ts";

const soil = "baked soil";
const core = "lava grit";

/**
 * One rounded hill, highest near the middle and towards the back, low at both sides; planted all over, tall plants behind
 * its crest only. The main stone stands at the golden section on its shoulder.
 */
export const mound: Compose = ({ site, dice, woodWanted }) => {
  const { length, width, depth } = site;
  const crest = dice.between(0.47, 0.52);
  const deep = dice.between(0.68, 0.76);
  const front = frontDepth(site);
  const slope = slopeIn(soil, core);
  const rise = dice.between(0.18, 0.23) * depth;
  const relief = reliefOf(
    site,
    (x, y) => {
      const v = y / width;
      const away = Math.hypot((x / length - crest) / 0.47, (v - deep) / (v < deep ? deep : 1.1));
      return front + rise * Math.cos((Math.PI / 2) * Math.min(1, away)) ** 2 + 0.1 * rise * v;
    },
    slope,
    front,
  );

  const [near, far] = [wave(dice), wave(dice)];
  const whole: Warp = (s, t) => [s, t];
  // the low planting runs round the hill: deepest at the sides
  const low = (s: number): number => 0.33 + 0.2 * ease(0.18, 0.5, Math.abs(s - crest)) + 0.025 * near(s);
  const middle = (s: number): number => 0.66 + 0.02 * far(s);
  const shift = dice.between(-0.04, 0.04);
  const fronts = band(whole, cutsAt([0.66 + shift], [0.1], 0.02, 0.98), () => 0.03, low);
  const mids = band(
    whole,
    cutsAt([golden - 0.06 + shift, 0.6 + shift], [-0.06, 0.06], 0.12, 0.88),
    (s) => low(s) + 0.02,
    middle,
  );
  const backs = band(
    whole,
    cutsAt([0.44 + shift, 0.62 + shift], [0.04, -0.04], 0.24, 0.78),
    (s) => middle(s) + 0.02,
    () => 0.97,
  );
  const sides = [
    band(
      whole,
      [
        [0.02, 0.02],
        [0.23, 0.22],
      ],
      (s) => Math.max(middle(s), low(s)) + 0.02,
      () => 0.97,
    )[0]!,
    band(
      whole,
      [
        [0.79, 0.8],
        [0.98, 0.98],
      ],
      (s) => Math.max(middle(s), low(s)) + 0.02,
      () => 0.97,
    )[0]!,
  ];
  return {
    beds: plantedBed(relief, soil, core, null),
    edges: [],
    main: { top: dice.between(0.68, 0.75), widest: 0.26, slender: dice.between(0.9, 1.2), lean: dice.between(7, 13) },
    stones: [
      { ratio: 1, at: [golden + dice.between(-0.02, 0.02), dice.between(0.52, 0.58)] },
      { ratio: 0.62, at: [0.6, 0.6] },
      { ratio: 0.44, beside: { of: 0, angle: -35, reach: 1 } },
      { ratio: 0.36, beside: { of: 0, angle: 200, reach: 1.05 } },
      { ratio: 0.32, beside: { of: 1, angle: -25, reach: 1.05 } },
      { ratio: 0.26, at: [0.74, 0.42] },
      { ratio: 0.22, beside: { of: 3, angle: 230, reach: 1.4 } },
      { ratio: 0.24, beside: { of: 1, angle: -80, reach: 1.5 } },
      { ratio: 0.2, at: [0.2, 0.38] },
      { ratio: 0.18, beside: { of: 5, angle: 10, reach: 1.4 } },
      { ratio: 0.16, beside: { of: 2, angle: -60, reach: 1.6 } },
    ],
    woods:
      woodWanted || dice.chance(0.35)
        ? [
            {
              at: [0.54, 0.64],
              width: dice.between(0.34, 0.42),
              breadth: dice.between(0.3, 0.4),
              height: dice.between(0.38, 0.46),
              lean: dice.between(4, 12),
              turn: dice.between(-20, 20),
              branches: dice.whole(3, 5),
            },
          ]
        : [],
    standing: () => true,
    areas: [
      ...backs.map((outline) => ({ role: "tall" as const, outline })),
      // what stands before the stones stays low
      ...mids.map((outline, k) => ({ role: k === 1 ? ("low" as const) : ("mid" as const), outline })),
      { role: "carpet", outline: fronts[0]! },
      { role: "low", outline: fronts[1]! },
      ...sides.map((outline) => ({ role: "low" as const, outline })),
    ],
    tied: 1,
    oneRegion: false,
  };
};
