import { bedWithCap, slopeIn } from "./beds.ts";
import { type Compose, ease, frontDepth, golden, wave } from "./composition.ts";
import { band, cutsAt, type Warp } from "./outlines.ts";
import { reliefOf } from "./relief.ts";
import type { WoodSpot } from "./types.ts";

const sand = "quartz sand";
const soil = "baked soil";

/** Sand over the soil of a bank, m. Common practice 20 to 40 mm, no source. */
const sandCap = 0.03;

/**
 * A piece of one shore: the ground rises to the back and one side, roots hang out of it over open sand, and a few species
 * of one part of the world grow in loose groups among small worn stones.
 */
export const bank: Compose = ({ site, dice }) => {
  const { length, width, depth } = site;
  const front = frontDepth(site);
  const slope = slopeIn(sand, soil);
  const rise = dice.between(0.22, 0.28) * depth;
  const [foot, share, bay] = [dice.between(0.06, 0.2), dice.between(0.4, 0.55), wave(dice)];
  const relief = reliefOf(
    site,
    (x, y) => {
      const u = x / length;
      // the shore runs in and out a little
      return front + rise * ease(foot + 0.05 * bay(u), 1, y / width) * (1 - share * u);
    },
    slope,
    front,
  );

  const [near, far] = [wave(dice), wave(dice)];
  const whole: Warp = (s, t) => [s, t];
  const shift = dice.between(-0.04, 0.04);
  const shore = (s: number): number => 0.34 + 0.22 * s + 0.03 * near(s);
  const middle = (s: number): number => Math.min(0.88, shore(s) + 0.27 + 0.03 * far(s));
  const mids = band(whole, cutsAt([0.42 + shift], [0.1], 0.03, 0.76), (s) => shore(s) + 0.02, middle);
  const backs = band(
    whole,
    cutsAt([0.3 + shift], [0.06], 0.02, 0.66),
    (s) => middle(s) + 0.02,
    () => 0.97,
  );
  const drift = band(
    whole,
    [
      [0.04, 0.04],
      [0.3 + shift, 0.34 + shift],
    ],
    () => 0.12,
    shore,
  );
  const far0 = band(
    whole,
    [
      [0.8, 0.8],
      [0.97, 0.97],
    ],
    (s) => 0.66 - 0.3 * (s - 0.8),
    () => 0.94,
  );
  // a short tank has no room for a third root
  const third: readonly WoodSpot[] =
    length / depth < 1.6
      ? []
      : [
          {
            at: [0.74, 0.68],
            width: dice.between(0.24, 0.32),
            breadth: dice.between(0.22, 0.3),
            height: dice.between(0.22, 0.3),
            lean: dice.between(4, 10),
            turn: dice.between(-35, -10),
            branches: dice.whole(2, 3),
          },
        ];
  return {
    beds: bedWithCap(relief, sand, soil, sandCap, null),
    edges: [],
    main: { top: 0.36, widest: 0.15, slender: 0.62, lean: dice.between(2, 6) },
    stones: [
      { ratio: 1, at: [0.56, 0.46] },
      { ratio: 0.72, beside: { of: 0, angle: -25, reach: 1.05 } },
      { ratio: 0.5, beside: { of: 0, angle: -110, reach: 1.1 } },
      { ratio: 0.62, at: [0.22, 0.38] },
      { ratio: 0.42, beside: { of: 3, angle: -40, reach: 1.1 } },
      { ratio: 0.5, at: [0.8, 0.5] },
      { ratio: 0.34, beside: { of: 1, angle: -50, reach: 1.4 } },
      { ratio: 0.3, beside: { of: 5, angle: -60, reach: 1.3 } },
      { ratio: 0.28, beside: { of: 2, angle: 190, reach: 1.4 } },
      { ratio: 0.24, beside: { of: 6, angle: 0, reach: 1.5 } },
      { ratio: 0.22, beside: { of: 4, angle: 0, reach: 1.5 } },
    ],
    woods: [
      {
        at: [golden + dice.between(-0.02, 0.02), dice.between(0.54, 0.62)],
        width: dice.between(0.5, 0.6),
        breadth: dice.between(0.4, 0.5),
        height: dice.between(0.58, 0.7),
        lean: dice.between(10, 20),
        turn: dice.between(-12, 12),
        branches: dice.whole(4, 6),
      },
      {
        at: [0.16, 0.78],
        width: dice.between(0.24, 0.3),
        breadth: dice.between(0.24, 0.32),
        height: dice.between(0.5, 0.62),
        lean: dice.between(4, 14),
        turn: dice.between(-20, 20),
        branches: dice.whole(2, 4),
      },
      ...third,
    ],
    standing: () => true,
    areas: [
      ...backs.map((outline) => ({ role: "tall" as const, outline })),
      ...mids.map((outline) => ({ role: "mid" as const, outline })),
      ...drift.map((outline) => ({ role: "low" as const, outline })),
      ...far0.map((outline) => ({ role: "mid" as const, outline })),
    ],
    tied: 2,
    oneRegion: true,
  };
};
