import { outlineContains, type Point2, pointToSegment } from "../../geometry/index.ts";
import { plantedBed, slopeIn } from "./beds.ts";
import { type Compose, frontDepth, golden } from "./composition.ts";
import { rounded, type Warp, wholeOutline } from "./outlines.ts";
import { reliefBy, reliefOf } from "./relief.ts";

const soil = "baked soil";
const sand = "quartz sand";
const core = "lava grit";

/**
 * A planted mound that stands free in open sand, held by a ring of stones; low at both sides. Its main stone stands at the
 * golden section, wood reaches from it over the open side.
 */
export const island: Compose = ({ site, dice, woodWanted }) => {
  const { length, width, depth } = site;
  const middle: Point2 = [golden + dice.between(0.05, 0.09), dice.between(0.53, 0.57)];
  const [a, b] = [dice.between(0.34, 0.36), dice.between(0.38, 0.4)];
  const [p, q] = [dice.between(0, 6.28), dice.between(0, 6.28)];
  const reach = (angle: number): number => 0.95 + 0.04 * Math.sin(2 * angle + p) + 0.04 * Math.sin(3 * angle + q);
  const rim = (angle: number): Point2 => [
    middle[0] + a * reach(angle) * Math.cos(angle),
    middle[1] + b * reach(angle) * Math.sin(angle),
  ];
  const ring = wholeOutline(Array.from({ length: 20 }, (_, k) => rim((2 * Math.PI * k) / 20)))!;
  const inMetres = ring.map(([u, v]): Point2 => [u * length, v * width]);
  const toRim = (x: number, y: number): number => {
    const away = Math.min(...inMetres.map((to, k) => pointToSegment([x, y], inMetres.at(k - 1)!, to)));
    return outlineContains(inMetres, [x, y]) ? away : 0;
  };

  const slope = slopeIn(sand, soil, core);
  const front = Math.min(0.04, 0.8 * frontDepth(site));
  const sandAt = (y: number): number => front + Math.min(0.04, 0.08 * depth, 0.12 * y);
  const floor = reliefOf(site, (_, y) => sandAt(y), slope, 0.012);
  const step = Math.min(0.05, Math.max(0.018, 0.08 * depth));
  const most = 0.36 * depth;
  const hill = reliefOf(site, (x, y) => Math.min(most, sandAt(y) + step + slope * toRim(x, y)), slope, 0.012);
  const mound = reliefBy(hill, (mm, k) => Math.max(0, mm - floor.mm[k]!));

  // r from the middle of the mound, turn from 0 to 1 starting on the right and running over the back
  const polar: Warp = (turn, r) => {
    const angle = 2 * Math.PI * turn;
    const [u, v] = rim(angle);
    return [middle[0] + r * (u - middle[0]), middle[1] + r * (v - middle[1])];
  };
  const sector = (from: number, to: number, inner: number, outer: number): readonly Point2[] => {
    const steps = 6;
    const arc = (r: number): readonly Point2[] =>
      Array.from({ length: steps + 1 }, (_, k) => polar(from + ((to - from) * k) / steps, r));
    return rounded([...arc(outer), ...arc(inner).toReversed()]);
  };
  const turn = dice.between(-0.03, 0.03);
  const cut = dice.between(0.72, 0.8);
  const wooded = woodWanted || dice.chance(0.75);
  return {
    beds: [{ material: sand, relief: floor, within: null }, ...plantedBed(mound, soil, core, ring)],
    edges: [[...ring, ring[0]!]],
    main: { top: dice.between(0.7, 0.78), widest: 0.24, slender: dice.between(1, 1.3), lean: dice.between(8, 14) },
    stones: [
      { ratio: 1, at: [golden + dice.between(-0.02, 0.02), dice.between(0.54, 0.6)] },
      { ratio: 0.64, beside: { of: 0, angle: -12, reach: 0.95 } },
      { ratio: 0.46, beside: { of: 0, angle: 215, reach: 0.9 } },
      { ratio: 0.4, beside: { of: 1, angle: -20, reach: 1.15 } },
      { ratio: 0.3, beside: { of: 0, angle: -70, reach: 1.25 } },
      { ratio: 0.34, beside: { of: 3, angle: 25, reach: 1.2 } },
      { ratio: 0.26, beside: { of: 2, angle: 250, reach: 1.2 } },
      { ratio: 0.24, beside: { of: 1, angle: -75, reach: 1.5 } },
      { ratio: 0.22, beside: { of: 4, angle: -15, reach: 1.7 } },
      { ratio: 0.2, beside: { of: 3, angle: -60, reach: 1.6 } },
      { ratio: 0.18, beside: { of: 5, angle: -30, reach: 1.4 } },
    ],
    woods: wooded
      ? [
          {
            at: [middle[0] + 0.1, 0.58],
            width: dice.between(0.42, 0.5),
            breadth: dice.between(0.32, 0.42),
            height: dice.between(0.42, 0.5),
            lean: dice.between(6, 14),
            turn: dice.between(-18, 10),
            branches: dice.whole(3, 5),
          },
        ]
      : [],
    standing: ({ left, right, front: near, back }) =>
      [left, right].every((u) => [near, back].every((v) => outlineContains(ring, [u, v]))),
    areas: [
      { role: "tall", outline: sector(0.06 + turn, 0.25 + turn, 0.42, 0.9) },
      { role: "tall", outline: sector(0.26 + turn, 0.45 + turn, 0.42, 0.9) },
      { role: "mid", outline: sector(0.46 + turn, 0.6 + turn, 0.3, 0.92) },
      { role: "mid", outline: sector(-0.1 + turn, 0.05 + turn, 0.3, 0.92) },
      { role: "carpet", outline: sector(0.61 + turn, cut, 0.36, 0.95) },
      { role: "low", outline: sector(cut + 0.01, 0.89 + turn, 0.36, 0.95) },
    ],
    tied: wooded ? 2 : 1,
    oneRegion: false,
  };
};
