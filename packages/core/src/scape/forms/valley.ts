import { banksBeside } from "./banks.ts";
import { type Bed, plantedBed, slopeIn } from "./beds.ts";
import { type Compose, ease, frontDepth, wave } from "./composition.ts";
import { band, cutsAt } from "./outlines.ts";
import { leftOf, rightOf, sandPath } from "./path.ts";

const soil = "baked soil";
const sand = "quartz sand";
const core = "lava grit";

/**
 * Two masses of unlike size with low open ground between them, which narrows towards the back. The main stone stands at
 * the third on the greater side and its answer on the lesser.
 */
export const valley: Compose = ({ site, dice, woodWanted }) => {
  const { length, depth } = site;
  const slope = slopeIn(sand, soil, core);
  const bend = dice.between(0.05, 0.09);
  const [mouth, end] = [dice.between(0.14, 0.17), Math.max(0.03, 0.012 / length)];
  const path = sandPath(
    (v) => 0.58 + bend * ease(0, 1, v) - 0.03 * Math.sin(Math.PI * v),
    (v) => end + (mouth - end) * (1 - v) ** 1.3,
  );
  const front = frontDepth(site);
  const { floor, left, right } = banksBeside(site, path, {
    slope,
    front: 0.7 * front,
    climb: 0.1,
    step: Math.min(0.03, Math.max(0.012, 0.05 * depth)),
    left: 0.32 * depth,
    right: 0.25 * depth,
  });
  const beds: readonly Bed[] = [
    ...plantedBed(left, soil, core, path.leftBank),
    ...plantedBed(right, soil, core, path.rightBank),
    { material: sand, relief: floor, within: path.outline },
  ];

  const [near, far] = [wave(dice), wave(dice)];
  const low = (s: number): number => 0.2 + 0.16 * s + 0.025 * near(s);
  const middle = (s: number): number => 0.56 + 0.12 * s + 0.02 * far(s);
  const shift = dice.between(-0.05, 0.05);
  const groups = (side: ReturnType<typeof leftOf>, at: number) => ({
    fronts: band(side, cutsAt([], [], 0.03, 0.99), () => 0.03, low),
    mids: band(side, cutsAt([at], [0.12], 0.03, 0.98), (s) => low(s) + 0.02, middle),
    backs: band(
      side,
      cutsAt([at - 0.1], [-0.08], 0.03, 0.9),
      (s) => middle(s) + 0.02,
      () => 0.97,
    ),
  });
  const [great, small] = [groups(leftOf(path), 0.55 + shift), groups(rightOf(path), 0.5 - shift)];
  return {
    beds,
    edges: path.lines,
    main: { top: dice.between(0.7, 0.78), widest: 0.24, slender: dice.between(1, 1.3), lean: dice.between(8, 15) },
    stones: [
      { ratio: 1, at: [1 / 3 + dice.between(-0.02, 0.01), dice.between(0.56, 0.64)] },
      { ratio: 0.66, at: [0.84, 0.64] },
      { ratio: 0.5, beside: { of: 0, angle: 190, reach: 0.95 } },
      { ratio: 0.4, beside: { of: 0, angle: -60, reach: 1.1 } },
      { ratio: 0.36, beside: { of: 1, angle: -30, reach: 1.05 } },
      { ratio: 0.3, at: [0.17, 0.42] },
      { ratio: 0.26, beside: { of: 3, angle: -60, reach: 1.2 } },
      { ratio: 0.22, beside: { of: 4, angle: -70, reach: 1.3 } },
      { ratio: 0.34, beside: { of: 2, angle: 175, reach: 1.05 } },
      { ratio: 0.2, beside: { of: 5, angle: -60, reach: 1.4 } },
      { ratio: 0.24, beside: { of: 1, angle: 20, reach: 1.1 } },
    ],
    woods:
      woodWanted || dice.chance(0.5)
        ? [
            {
              at: [0.25, 0.68],
              width: dice.between(0.36, 0.44),
              breadth: dice.between(0.3, 0.4),
              height: dice.between(0.44, 0.54),
              lean: dice.between(10, 18),
              turn: dice.between(-12, 12),
              branches: dice.whole(3, 5),
            },
          ]
        : [],
    standing: ({ left: from, right: to, front: v0, back: v1 }) =>
      [v0, (v0 + v1) / 2, v1].every((v) => to <= path.left(v) || from >= path.right(v)),
    areas: [
      ...great.backs.map((outline) => ({ role: "tall" as const, outline })),
      ...small.backs.map((outline) => ({ role: "tall" as const, outline })),
      // what stands before the main stone stays low
      ...great.mids.map((outline, k) => ({ role: k === 0 ? ("mid" as const) : ("low" as const), outline })),
      ...small.mids.map((outline, k) => ({ role: k === 0 ? ("mid" as const) : ("low" as const), outline })),
      ...great.fronts.map((outline) => ({ role: "carpet" as const, outline })),
      ...small.fronts.map((outline) => ({ role: "low" as const, outline })),
    ],
    tied: 1,
    oneRegion: false,
  };
};
