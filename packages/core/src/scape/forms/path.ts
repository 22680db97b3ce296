import type { Point2 } from "../../geometry/index.ts";
import type { Warp } from "./outlines.ts";

/** A path from the front pane to the back pane, its sides in whole per cent, so that plan and layout agree on it. */
export interface SandPath {
  /** Shares of the length at a share of the width. */
  readonly left: (v: number) => number;
  readonly right: (v: number) => number;
  readonly outline: readonly Point2[];
  /** The floor on either side, sharing its line with the path. */
  readonly leftBank: readonly Point2[];
  readonly rightBank: readonly Point2[];
  /** Along which stones or gravel hold the banks up. */
  readonly lines: readonly (readonly Point2[])[];
}

const stations = [0, 0.12, 0.25, 0.37, 0.5, 0.62, 0.75, 0.87, 1] as const;

/** Bank left on either side, as a share of the length. Design value. */
const leastBank = 0.1;

/** A path after its middle and half width, both as shares of the length at a share of the width. */
export function sandPath(centre: (v: number) => number, half: (v: number) => number): SandPath {
  const whole = (u: number): number => Math.round(100 * Math.min(1 - leastBank, Math.max(leastBank, u))) / 100;
  const lefts = stations.map((v) => whole(centre(v) - half(v)));
  const rights = stations.map((v, k) => Math.max(lefts[k]! + 0.02, whole(centre(v) + half(v))));
  const left = stations.map((v, k): Point2 => [lefts[k]!, v]);
  const right = stations.map((v, k): Point2 => [rights[k]!, v]);
  return {
    left: between(lefts),
    right: between(rights),
    outline: [...left, ...right.toReversed()],
    leftBank: [[0, 0], ...left, [0, 1]],
    rightBank: [[1, 0], ...right, [1, 1]],
    lines: [left, right],
  };
}

function between(values: readonly number[]): (v: number) => number {
  return (v) => {
    const k = Math.max(
      1,
      stations.findIndex((station) => station >= v),
    );
    const [from, to] = [stations[k - 1]!, stations[k]!];
    return values[k - 1]! + ((values[k]! - values[k - 1]!) * (v - from)) / (to - from);
  };
}

/** Planting keeps this far from a path's side, as a share of the length. Design value. */
const offPath = 0.02;

/** Left bank: s from 0 at the left pane to 1 at the path; t from front to back. */
export const leftOf =
  ({ left }: SandPath): Warp =>
  (s, t) => [s * (left(t) - offPath), t];

/** Right bank: s from 0 at the right pane to 1 at the path. */
export const rightOf =
  ({ right }: SandPath): Warp =>
  (s, t) => [1 - s * (1 - right(t) - offPath), t];
