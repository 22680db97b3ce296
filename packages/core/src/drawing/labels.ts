/** Keeps labels apart: along a line, and in the plane. */
import { type Box, grown, overlap, type Point, segmentMeets } from "./geometry.ts";

export interface Slot {
  /** Wanted position of the upper edge. */
  readonly want: number;
  readonly size: number;
}

/**
 * Upper edges that keep the order of the slots, at least `gap` apart, as near as can be to where they are wanted
 * (least squares; pool-adjacent-violators, Barlow et al. 1972). Starts no higher than `from`; runs on past the end
 * where there are too many, so that nothing ever overlaps; if it would pass `to`, all is moved up as far as `from`.
 */
export function spreadOut(slots: readonly Slot[], gap: number, from: number, to: number): number[] {
  // With the room before each slot taken off, the positions only have to not fall.
  const before: number[] = [];
  let sum = 0;
  for (const slot of slots) {
    before.push(sum);
    sum += slot.size + gap;
  }
  const total = Math.max(0, sum - gap);
  const blocks: { mean: number; count: number }[] = [];
  slots.forEach((slot, i) => {
    let block = { mean: slot.want - (before[i] as number), count: 1 };
    for (let last = blocks.at(-1); last && last.mean > block.mean; last = blocks.at(-1)) {
      blocks.pop();
      block = {
        mean: (last.mean * last.count + block.mean * block.count) / (last.count + block.count),
        count: last.count + block.count,
      };
    }
    blocks.push(block);
  });
  const latest = Math.max(from, to - total);
  const out: number[] = [];
  for (const { mean, count } of blocks) {
    const at = Math.min(Math.max(mean, from), latest);
    for (let k = 0; k < count; k++) out.push(at + (before[out.length] as number));
  }
  return out;
}

export interface Disc {
  readonly x: number;
  readonly y: number;
}

export interface DiscRules {
  readonly radius: number;
  /** The middle of a disc stays in here. */
  readonly within: Box;
  /** Where it may go when that is full. */
  readonly spill?: Box;
  /** What no disc may touch. */
  readonly blocked: readonly Box[];
  /** How unwelcome a place is, 0 and up. */
  readonly cost: (x: number, y: number) => number;
}

/**
 * A place for a disc near each anchor: none touches another or what is blocked, and no leader runs through another
 * disc where that can be helped. An anchor for which no place is left gets the freest place there is.
 */
export function placeDiscs(
  anchors: readonly { readonly at: Point; readonly first: readonly Point[] }[],
  rules: DiscRules,
): Disc[] {
  const { radius, within, spill, blocked, cost } = rules;
  const placed: { disc: Disc; anchor: Point }[] = [];
  const boxAt = (p: Disc, by: number): Box => grown({ left: p.x, right: p.x, top: p.y, bottom: p.y }, by);
  const free = (p: Disc, room: Box): boolean =>
    p.x >= room.left &&
    p.x <= room.right &&
    p.y >= room.top &&
    p.y <= room.bottom &&
    placed.every(({ disc }) => Math.hypot(disc.x - p.x, disc.y - p.y) >= radius * 2 + 3) &&
    blocked.every((b) => !overlap(b, boxAt(p, radius + 1.5)));
  const tangled = (p: Disc, anchor: Point): number =>
    placed.reduce(
      (sum, other) =>
        sum +
        (segmentMeets([p.x, p.y], anchor, boxAt(other.disc, radius)) ? 60 : 0) +
        (segmentMeets([other.disc.x, other.disc.y], other.anchor, boxAt(p, radius)) ? 60 : 0),
      0,
    );
  for (const { at, first } of anchors) {
    let best: Disc | undefined;
    let least = Infinity;
    const consider = (x: number, y: number, extra: number, room = within): void => {
      const p = { x, y };
      if (!free(p, room)) return;
      const c = extra + cost(x, y) + tangled(p, at) + 80 * blocked.filter((b) => segmentMeets([x, y], at, b)).length;
      if (c < least) [best, least] = [p, c];
    };
    first.forEach(([x, y], i) => {
      consider(x, y, i * 2);
    });
    for (const reach of [16, 24, 34, 46]) {
      for (let k = 0; k < 16; k++) {
        const a = (k / 16) * 2 * Math.PI;
        consider(at[0] + Math.sin(a) * reach, at[1] - Math.cos(a) * reach, 8 + reach * 0.8);
      }
    }
    for (const room of spill ? [within, spill] : [within]) {
      if (best) break;
      const step = radius * 0.8;
      for (let x = room.left; x <= room.right; x += step) {
        for (let y = room.top; y <= room.bottom; y += step) {
          consider(x, y, 60 + Math.hypot(x - at[0], y - at[1]), room);
        }
      }
    }
    best ??= {
      x: Math.min(Math.max(at[0], within.left), within.right),
      y: Math.min(Math.max(at[1], within.top), within.bottom),
    };
    placed.push({ disc: best, anchor: at });
  }
  return placed.map((p) => p.disc);
}
