/** Single leaves by kind, along a rib. */
import type { Leaf } from "../../drawing/index.ts";
import { profiles, type Rib, ribAt, ribFrom, ribTangent, type Sprout } from "./sprout.ts";
import { add, cross, minus, times, unit, type Vector } from "./vector.ts";

interface LeafPlace {
  readonly rib: Rib;
  /** Length along the rib, m. */
  readonly length: number;
  /** Direction across it. */
  readonly side: Vector;
  /** 0 old and under the others, 1 young and on top. */
  readonly shade: number;
  /** How closely it is made: 1 for leaves that are looked at, below for small ones. */
  readonly detail: number;
}

/** Half widths against the length. Design values, by eye. */
const halves: Readonly<Record<Leaf, number>> = {
  oval: 0.19,
  round: 0.4,
  ribbon: 0.05,
  lobed: 0.09,
  needle: 0.03,
  fern: 0.05,
};

const rowsFor = (detail: number, most: number): number => Math.max(3, Math.round(most * detail));

/** Small leaves of a crowd lie flat. */
const folded = (detail: number, fold: number): number => (detail < 0.45 ? 0 : fold);

/** A leaflet that springs from another rib at a share of its length. */
function leaflet(sprout: Sprout, of: LeafPlace, t: number, way: number, lean: number, length: number, half: number) {
  const at = ribAt(of.rib, t);
  const tangent = ribTangent(of.rib, t);
  const across = unit(times(of.side, way));
  const out = unit(add(times(tangent, Math.cos(lean)), times(across, Math.sin(lean))));
  const rib: Rib = {
    base: at,
    control: add(at, times(out, length * 0.5)),
    tip: add(add(at, times(out, length * 0.95)), times(tangent, length * 0.16)),
  };
  const side = unit(minus(tangent, times(out, Math.cos(lean))));
  sprout.leaf({ rib, half, profile: profiles.lance, side, kind: "leaf", shade: of.shade, rows: 3 });
}

/** One leaf of a kind. */
export function growLeaf(sprout: Sprout, leaf: Leaf, place: LeafPlace): void {
  const { rib, length, side, shade, detail } = place;
  const half = length * halves[leaf];
  const plain = { rib, half, side, shade } as const;
  switch (leaf) {
    case "oval":
      sprout.leaf({
        ...plain,
        profile: profiles.oval,
        kind: "leaf",
        rows: rowsFor(detail, 7),
        fold: folded(detail, 0.22),
        ripple: 0.1,
      });
      return;
    case "round":
      sprout.leaf({
        ...plain,
        profile: profiles.round,
        kind: "leaf",
        rows: rowsFor(detail, 8),
        fold: folded(detail, 0.1),
      });
      return;
    case "ribbon":
      sprout.leaf({
        ...plain,
        profile: profiles.ribbon,
        kind: "leaf",
        rows: rowsFor(detail, 8),
        fold: folded(detail, 0.3),
      });
      return;
    case "needle":
      sprout.leaf({ ...plain, profile: profiles.blade, kind: "blade", rows: 3 });
      return;
    case "lobed": {
      sprout.leaf({
        ...plain,
        profile: profiles.lance,
        kind: "leaf",
        rows: rowsFor(detail, 5),
        fold: folded(detail, 0.1),
      });
      const fingers = Math.max(3, Math.round(5 * detail));
      for (let k = 0; k < fingers; k++) {
        const t = 0.16 + (0.62 * k) / (fingers - 1);
        const reach = length * 0.33 * Math.sin(Math.PI * (0.24 + 0.62 * t));
        for (const way of [-1, 1]) leaflet(sprout, place, t, way, 0.85, reach, reach * 0.2);
      }
      return;
    }
    case "fern": {
      sprout.stalk(rib, length * 0.012, shade, "thread", 4);
      const pairs = Math.max(5, Math.round(11 * detail));
      for (let k = 0; k < pairs; k++) {
        const t = 0.16 + (0.76 * k) / (pairs - 1);
        const reach = length * 0.34 * Math.sin(Math.PI * (0.16 + 0.78 * t)) ** 0.8 * (1.1 - 0.35 * t);
        for (const way of [-1, 1]) leaflet(sprout, place, t, way, 1.15 - 0.3 * t, reach, reach * 0.13);
      }
      leaflet(sprout, place, 0.94, 1, 0.05, length * 0.14, length * 0.02);
    }
  }
}

/** A leaf on a stalk from a foot along a heading and a rise (rad); `stalk` as a share of its whole length. */
export function growStalked(
  sprout: Sprout,
  leaf: Leaf,
  form: {
    readonly foot: Vector;
    readonly heading: number;
    readonly rise: number;
    readonly length: number;
    readonly stalk: number;
    readonly droop: number;
    readonly thick: number;
    readonly shade: number;
    readonly detail: number;
  },
): void {
  const { foot, heading, rise, length, stalk, droop, shade, detail } = form;
  const stem = ribFrom(foot, heading, rise, length * stalk, 0.08);
  sprout.stalk(stem, form.thick, shade, "thread", 3);
  const blade = length * (1 - stalk);
  // a blade leaves its stalk at a flatter angle, so that it faces the light
  const rib = ribFrom(stem.tip, heading, rise * (leaf === "round" ? 0.15 : 0.7), blade, droop);
  growLeaf(sprout, leaf, { rib, length: blade, side: acrossOf(heading), shade, detail });
}

/** Direction across a leaf that grows along a heading, rolled about that by an angle (rad). */
export function acrossOf(heading: number, roll = 0): Vector {
  const level = unit(cross([0, 0, 1], [Math.cos(heading), Math.sin(heading), 0]));
  return [level[0] * Math.cos(roll), level[1] * Math.cos(roll), Math.sin(roll)];
}
