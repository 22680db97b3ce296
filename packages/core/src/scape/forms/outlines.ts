import { outlineArea, type Point2, selfCrossing, simplifyOutline } from "../../geometry/index.ts";

/** How far a drawn line may stray from the smooth one, as a share of a side. Design value. */
const stray = 0.006;

/** Least area of an outline, as a share of the floor. Design value. */
const leastArea = 0.004;

const percent = (share: number): number => Math.min(100, Math.max(0, Math.round(share * 100)));

/**
 * Places in whole per cent (as shares), none twice in a row. Null where too little is left or where the outline would
 * cross itself, which happens only in slivers.
 */
export function wholeOutline(outline: readonly Point2[]): readonly Point2[] | null {
  const whole = outline.map(([u, v]): Point2 => [percent(u) / 100, percent(v) / 100]);
  const ring = whole.filter((p, k) => {
    const before = whole[(k + whole.length - 1) % whole.length]!;
    return p[0] !== before[0] || p[1] !== before[1];
  });
  if (ring.length < 3 || outlineArea(ring) < leastArea || selfCrossing(ring)) return null;
  return ring;
}

/** The outline with its corners cut off twice (Chaikin 1974, from memory), as a planted edge has none. */
export function rounded(outline: readonly Point2[]): readonly Point2[] {
  let ring = outline;
  for (let round = 0; round < 2; round++) {
    ring = ring.flatMap(([u, v], k): readonly Point2[] => {
      const [p, q] = ring[(k + 1) % ring.length]!;
      return [
        [0.75 * u + 0.25 * p, 0.75 * v + 0.25 * q],
        [0.25 * u + 0.75 * p, 0.25 * v + 0.75 * q],
      ];
    });
  }
  return simplifyOutline(ring, stray);
}

/** "10 % 20 %, 40 % 22 %", as a plan is typed. */
export function outlineText(points: readonly Point2[]): string {
  return points.map(([u, v]) => `${percent(u)} % ${percent(v)} %`).join(", ");
}

/** Maps the two shares of a region to a place on the floor. */
export type Warp = (s: number, t: number) => Point2;

/** A side of a group between two others: where it stands at the front and at the back of its band. */
export type Cut = readonly [front: number, back: number];

/**
 * Groups side by side in a band of a region: between `front` and `back` (both of s), parted at the cuts, of which the
 * first and last are the band's ends. A gap stays between neighbours.
 */
export function band(
  warp: Warp,
  cuts: readonly Cut[],
  front: (s: number) => number,
  back: (s: number) => number,
  gap = 0.006,
): readonly (readonly Point2[])[] {
  const along = 4;
  return cuts.slice(1).map((right, k) => {
    const left = cuts[k]!;
    const row = (end: 0 | 1, edge: (s: number) => number): readonly Point2[] =>
      Array.from({ length: along + 1 }, (_, n) => {
        const [from, to] = [left[end] + gap, right[end] - gap];
        const s = from + ((to - from) * n) / along;
        return warp(s, edge(s));
      });
    return rounded([...row(0, front), ...row(1, back).toReversed()]);
  });
}

/** Cuts that part 0..1 (or `from`..`to`) at the given shares, each leaning by a share of its own. */
export function cutsAt(places: readonly number[], leans: readonly number[], from = 0, to = 1): readonly Cut[] {
  const inner = places.map((place, k): Cut => [place - (leans[k] ?? 0) / 2, place + (leans[k] ?? 0) / 2]);
  return [[from, from], ...inner, [to, to]];
}
