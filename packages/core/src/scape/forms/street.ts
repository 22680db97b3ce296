import { banksBeside } from "./banks.ts";
import { type Bed, plantedBed, slopeIn } from "./beds.ts";
import { type Compose, ease, frontDepth, wave } from "./composition.ts";
import { band, type Cut, cutsAt } from "./outlines.ts";
import { leftOf, rightOf, sandPath } from "./path.ts";

const soil = "baked soil";
const sand = "quartz sand";
const core = "lava grit";

/**
 * A path that winds and narrows to the back between terraced groups; beside it a street, one row of one low plant that
 * recedes with it. The main stone stands where the path ends, at the further third.
 */
export const street: Compose = ({ site, dice, woodWanted }) => {
  const { length, depth } = site;
  const slope = slopeIn(sand, soil, core);
  const [start, swing] = [dice.between(0.36, 0.42), dice.between(0.02, 0.05) * Math.min(1, length / 0.4)];
  const [mouth, end] = [Math.max(0.075, 0.016 / length), Math.max(0.02, 0.009 / length)];
  const path = sandPath(
    // a short tank's path is wider for its length: its end makes room for the main stone
    (v) => start + (0.55 - end - start) * ease(0.05, 1, v) - swing * Math.sin(2 * Math.PI * v),
    (v) => end + (mouth - end) * (1 - v) ** 1.4,
  );
  const { floor, left, right } = banksBeside(site, path, {
    slope,
    front: 0.7 * frontDepth(site),
    climb: 0.1,
    step: Math.min(0.03, Math.max(0.012, 0.06 * depth)),
    left: 0.3 * depth,
    right: 0.33 * depth,
  });
  const beds: readonly Bed[] = [
    ...plantedBed(left, soil, core, path.leftBank),
    ...plantedBed(right, soil, core, path.rightBank),
    { material: sand, relief: floor, within: path.outline },
  ];

  const [near, far] = [wave(dice), wave(dice)];
  const row = 0.16;
  const low = (s: number): number => 0.26 + 0.03 * near(s);
  const middle = (s: number): number => 0.6 + 0.03 * far(s);
  const lean = dice.between(0.08, 0.14);
  const inner = 1 - row;
  const groups = (side: ReturnType<typeof leftOf>, at: number, edge: number) => ({
    fronts: band(side, cutsAt([at], [lean], 0.03, edge), () => 0.03, low),
    mids: band(side, cutsAt([at - 0.08], [lean], 0.03, edge), (s) => low(s) + 0.02, middle),
    backs: band(
      side,
      cutsAt([at], [-lean], 0.03, edge),
      (s) => middle(s) + 0.02,
      () => 0.97,
    ),
  });
  const broad = rightOf(path);
  const wide = groups(broad, dice.between(0.42, 0.5), inner);
  const slim = groups(leftOf(path), dice.between(0.46, 0.54), 0.98);
  const ends: readonly Cut[] = [
    [inner + 0.01, inner + 0.01],
    [0.995, 0.995],
  ];
  const rows = band(
    broad,
    ends,
    () => 0.06,
    () => 0.84,
  );
  return {
    beds,
    edges: path.lines,
    main: { top: dice.between(0.62, 0.7), widest: 0.17, slender: dice.between(1.1, 1.4), lean: dice.between(-12, -6) },
    stones: [
      { ratio: 1, at: [2 / 3 + dice.between(-0.01, 0.02), dice.between(0.7, 0.76)] },
      { ratio: 0.6, beside: { of: 0, angle: -20, reach: 1 } },
      { ratio: 0.55, at: [0.26, 0.66] },
      { ratio: 0.4, at: [path.left(0.34) - 0.06, 0.34] },
      { ratio: 0.34, at: [path.right(0.5) + 0.05, 0.5] },
      { ratio: 0.3, at: [path.left(0.56) - 0.05, 0.58] },
      { ratio: 0.34, at: [path.right(0.2) + 0.06, 0.2] },
      { ratio: 0.28, at: [path.left(0.16) - 0.07, 0.16] },
      { ratio: 0.24, at: [path.left(0.78) - 0.04, 0.8] },
      { ratio: 0.3, beside: { of: 2, angle: 200, reach: 1.1 } },
      { ratio: 0.2, at: [path.right(0.35) + 0.05, 0.36] },
    ],
    woods: woodWanted
      ? [
          {
            at: [0.72, 0.72],
            width: dice.between(0.3, 0.36),
            breadth: dice.between(0.26, 0.34),
            height: dice.between(0.4, 0.48),
            lean: dice.between(-16, -8),
            turn: dice.between(-10, 10),
            branches: dice.whole(3, 5),
          },
        ]
      : [],
    standing: ({ left: from, right: to, front: v0, back: v1 }) =>
      [v0, (v0 + v1) / 2, v1].every((v) => to <= path.left(v) || from >= path.right(v)),
    areas: [
      ...rows.map((outline) => ({ role: "street" as const, outline })),
      ...[wide, slim].flatMap(({ backs }) => backs.map((outline) => ({ role: "tall" as const, outline }))),
      // before the main stone, which stands by the path, the planting stays low
      ...wide.mids.map((outline, k) => ({ role: k === 0 ? ("mid" as const) : ("low" as const), outline })),
      ...slim.mids.map((outline) => ({ role: "mid" as const, outline })),
      ...[wide, slim].flatMap(({ fronts }) => fronts.map((outline) => ({ role: "low" as const, outline }))),
    ],
    tied: 1,
    oneRegion: false,
  };
};
