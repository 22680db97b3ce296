import { fade, reflectedFromAir, reflectedFromWater } from "./interface.ts";
import { leafDepth } from "./leaf-depth.ts";
import type { Prepared } from "./prepare.ts";

/** Light that meets a place without having met anything matt before, for light of one emitter of flux 1. */
export interface DirectLight {
  /** Per band: on a level plane that looks up, 1/m2. */
  readonly level: Float64Array;
  /** Per band: on the ground's own slope, 1/m2. */
  readonly slope: Float64Array;
  /** Per band: from all sides on a small ball's cross-section, 1/m2. */
  readonly round: Float64Array;
  clear(): void;
  /**
   * Adds what an emitter at e sends to a place at p, by every way over bare walls.
   * @param share flux of the emitter; @param lamp whose shine it has
   * @param nx @param ny @param nz upward normal of the ground at p
   */
  add(
    lamp: number,
    share: number,
    px: number,
    py: number,
    pz: number,
    ex: number,
    ey: number,
    ez: number,
    nx: number,
    ny: number,
    nz: number,
  ): void;
}

/** Ends of lines of sight are not tested this near to the place, m. Design value. */
const TOUCH = 1e-7;

/**
 * Ways from a point in the air to one in the water over the mirrors of bare walls: the place is mirrored in the walls, the
 * bent ray to each image is found by Newton's method, and it counts where it comes in through the real opening. The
 * method starts below the root of a function that rises ever less steeply, so it climbs to it without a bracket.
 */
export function createDirect(p: Prepared): DirectLight {
  const { length, width, surface, index: n, ground, solids, bare, bands, water } = p;
  const square = n * n;
  const extra = square - 1;
  const lossy = Float64Array.from(p.absorption, (a, b) => a + p.scattering[b]!);
  const dark = lossy.every((c) => c === 0);
  const leaves = water?.leaves ?? null;
  // A ray from above runs at least this steep in the water, so gentler ground never stands in its way.
  const groundBlocks = !ground.level && ground.steepest > Math.sqrt(extra) * (1 - 1e-9);
  const walks = solids.count > 0 || groundBlocks || leaves !== null;
  const airBlocks = p.top > surface;
  const mirrorsX = extra > 1e-4 ? Number.POSITIVE_INFINITY : 0;
  const [left, right, front, back] = [bare[0] === 1, bare[1] === 1, bare[2] === 1, bare[3] === 1];
  // How many images lie to each side: an opaque wall ends their row.
  const mostRight = right ? (left ? mirrorsX : Math.min(1, mirrorsX)) : 0;
  const mostLeft = left ? (right ? mirrorsX : Math.min(1, mirrorsX)) : 0;
  const mostBack = back ? (front ? mirrorsX : Math.min(1, mirrorsX)) : 0;
  const mostFront = front ? (back ? mirrorsX : Math.min(1, mirrorsX)) : 0;
  const level = new Float64Array(bands);
  const slope = new Float64Array(bands);
  const round = new Float64Array(bands);

  /** Mean number of leaves along a ray folded into the box, or -1 where something stands in its way. */
  function onTheWay(x0: number, y0: number, ux: number, uy: number, uz: number, whole: number): number {
    let x = x0;
    let y = y0;
    let z = surface;
    let dx = ux;
    let dy = uy;
    let left = whole;
    let depth = 0;
    for (;;) {
      const tx = dx > 0 ? (length - x) / dx : dx < 0 ? -x / dx : Number.POSITIVE_INFINITY;
      const ty = dy > 0 ? (width - y) / dy : dy < 0 ? -y / dy : Number.POSITIVE_INFINITY;
      let t = Math.min(tx, ty);
      const last = t >= left;
      if (last) t = left;
      const seen = last ? t - TOUCH : t;
      if (solids.count > 0 && z + uz * t < solids.highest && solids.blocked(x, y, z, dx, dy, uz, seen)) return -1;
      if (groundBlocks && ground.cast(x, y, z, dx, dy, uz, seen) < seen) return -1;
      if (leaves && water) depth += leafDepth(water, leaves, x, y, z, dx, dy, uz, t);
      if (last) return depth;
      left -= t;
      x += dx * t;
      y += dy * t;
      z += uz * t;
      if (tx < ty) {
        x = dx > 0 ? length : 0;
        dx = -dx;
      } else {
        y = dy > 0 ? width : 0;
        dy = -dy;
      }
    }
  }

  /** Whether something that stands out of the water lies between a place in the air room and an emitter. */
  function hidden(x: number, y: number, z: number, ex: number, ey: number, ez: number, lift: number): boolean {
    const far = Math.hypot(ex - x, ey - y, ez - z);
    const dx = (ex - x) / far;
    const dy = (ey - y) / far;
    const dz = (ez - z) / far;
    if (solids.count > 0 && solids.blocked(x, y, z + lift, dx, dy, dz, far)) return true;
    return !ground.level && ground.highest > surface && ground.cast(x, y, z + lift, dx, dy, dz, far) < far;
  }

  function throughAir(
    lamp: number,
    share: number,
    px: number,
    py: number,
    pz: number,
    ex: number,
    ey: number,
    ez: number,
    nx: number,
    ny: number,
    nz: number,
  ): void {
    const up = ez - pz;
    if (up <= 0) return;
    const far = Math.hypot(ex - px, ey - py, up);
    const dx = (px - ex) / far;
    const dy = (py - ey) / far;
    const dz = -up / far;
    const sent = share * p.lamps[lamp]!.shine.value(dx, dy, dz);
    if (sent <= 0 || hidden(px, py, pz, ex, ey, ez, TOUCH)) return;
    const across = sent / (far * far);
    const onto = Math.max(0, -(dx * nx + dy * ny + dz * nz));
    for (let b = 0; b < bands; b++) {
      level[b] = level[b]! - across * dz;
      slope[b] = slope[b]! + across * onto;
      round[b] = round[b]! + across;
    }
  }

  function add(
    lamp: number,
    share: number,
    px: number,
    py: number,
    pz: number,
    ex: number,
    ey: number,
    ez: number,
    nx: number,
    ny: number,
    nz: number,
  ): void {
    if (pz >= surface) {
      throughAir(lamp, share, px, py, pz, ex, ey, ez, nx, ny, nz);
      return;
    }
    const { shine } = p.lamps[lamp]!;
    const h = ez - surface;
    const d = surface - pz;
    // The entry lies at least this share of the way from the emitter, and the image no further beyond the opening than this.
    const least = h / (h + d / n);
    const beyond = extra > 1e-9 ? d / Math.sqrt(extra) : Number.POSITIVE_INFINITY;
    const iLow = Math.max(-mostLeft, Math.ceil(-beyond / length - 1));
    const iHigh = Math.min(mostRight, Math.floor((length + beyond) / length));
    const jLow = Math.max(-mostFront, Math.ceil(-beyond / width - 1));
    const jHigh = Math.min(mostBack, Math.floor((width + beyond) / width));
    for (let i = iLow; i <= iHigh; i++) {
      const oddX = (i & 1) !== 0;
      const tx = (oddX ? (i + 1) * length - px : i * length + px) - ex;
      const nearX = ex + least * tx;
      if (tx > 0 ? nearX >= length || ex + tx <= 0 : nearX <= 0 || ex + tx >= length) continue;
      for (let j = jLow; j <= jHigh; j++) {
        const oddY = (j & 1) !== 0;
        const ty = (oddY ? (j + 1) * width - py : j * width + py) - ey;
        const nearY = ey + least * ty;
        if (ty > 0 ? nearY >= width || ey + ty <= 0 : nearY <= 0 || ey + ty >= width) continue;
        const r = Math.sqrt(tx * tx + ty * ty);
        // u: tangent of the angle in the air.
        let u = r / (h + d / n);
        let q = 1;
        for (let turns = 0; turns < 30; turns++) {
          const q2 = square + extra * u * u;
          q = Math.sqrt(q2);
          const step = (r - h * u - (d * u) / q) / (h + (d * square) / (q2 * q));
          u += step;
          // Steps square their error, so this one leaves less than 1e-9 of it.
          if (step <= 2e-5 * u + 1e-12) break;
        }
        const share0 = r > 0 ? (h * u) / r : 1;
        const x = ex + tx * share0;
        const y = ey + ty * share0;
        if (!(x > 0 && x < length && y > 0 && y < width)) continue;
        q = Math.sqrt(square + extra * u * u);
        const air = 1 / Math.sqrt(1 + u * u);
        const down = (q * air) / n;
        const side = r > 0 ? (u * air) / r : 0;
        let e = share * shine.value(tx * side, ty * side, -air);
        if (e <= 0) continue;
        const ux = (tx * side) / n;
        const uy = (ty * side) / n;
        e *=
          ((1 - reflectedFromAir(air, down, n)) * air) /
          ((h + d / q) * (h / (air * air) + (d * air) / (n * down * down * down)));
        if (i !== 0) e *= power(reflectedFromWater(Math.abs(ux), n), Math.abs(i));
        if (j !== 0) e *= power(reflectedFromWater(Math.abs(uy), n), Math.abs(j));
        const whole = d / down;
        if (airBlocks && hidden(x, y, surface, ex, ey, ez, 0)) continue;
        if (walks) {
          const depth = onTheWay(x, y, ux, uy, -down, whole);
          if (depth < 0) continue;
          if (depth > 0) e *= Math.exp(-depth);
        }
        const onto = Math.max(0, (oddX ? ux : -ux) * nx + (oddY ? uy : -uy) * ny + down * nz) / down;
        for (let b = 0; b < bands; b++) {
          const kept = dark ? e : e * fade(lossy[b]! * whole);
          level[b] = level[b]! + kept;
          slope[b] = slope[b]! + kept * onto;
          round[b] = round[b]! + kept / down;
        }
      }
    }
  }

  return {
    level,
    slope,
    round,
    clear() {
      level.fill(0);
      slope.fill(0);
      round.fill(0);
    },
    add,
  };
}

function power(base: number, times: number): number {
  let product = base;
  for (let k = 1; k < times; k++) product *= base;
  return product;
}
