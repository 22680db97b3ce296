import type { HeightField } from "../geometry/index.ts";

/** Surface of the bed as rays meet it. */
export interface Ground {
  /** Whether it is level all over; then `cast` is not needed. */
  readonly level: boolean;
  readonly lowest: number;
  readonly highest: number;
  /** Steepest rise over run anywhere. */
  readonly steepest: number;
  height(x: number, y: number): number;
  /** Upward normal at a place into the first three places of `out`. */
  normal(x: number, y: number, out: Float64Array): void;
  /** Length along a direction to where a ray first goes down through the surface, or `most`. */
  cast(x: number, y: number, z: number, dx: number, dy: number, dz: number, most: number): number;
}

export function groundOf(field: HeightField | null): Ground {
  if (!field) return levelGround(0);
  const lowest = field.heights.reduce((a, b) => Math.min(a, b));
  const highest = field.heights.reduce((a, b) => Math.max(a, b));
  return lowest === highest ? levelGround(lowest) : unevenGround(field, lowest, highest);
}

function levelGround(height: number): Ground {
  return {
    level: true,
    lowest: height,
    highest: height,
    steepest: 0,
    height: () => height,
    normal(_x, _y, out) {
      out[0] = 0;
      out[1] = 0;
      out[2] = 1;
    },
    cast: (_x, _y, z, _dx, _dy, dz, most) => (dz < 0 ? Math.min(most, Math.max(0, (height - z) / dz)) : most),
  };
}

function unevenGround(field: HeightField, lowest: number, highest: number): Ground {
  const { heights, columns } = field;
  const across = field.columns - 1;
  const deep = field.rows - 1;
  const stepX = field.length / across;
  const stepY = field.width / deep;
  // Height in a cell is base + rise u + climb v + twist u v for u, v from 0 to 1.
  const base = new Float64Array(across * deep);
  const rise = new Float64Array(across * deep);
  const climb = new Float64Array(across * deep);
  const twist = new Float64Array(across * deep);
  const top = new Float64Array(across * deep);
  let steepest = 0;
  for (let j = 0; j < deep; j++) {
    for (let i = 0; i < across; i++) {
      const [cell, node] = [j * across + i, j * columns + i];
      const a = heights[node]!;
      const b = heights[node + 1]!;
      const c = heights[node + columns]!;
      const d = heights[node + columns + 1]!;
      base[cell] = a;
      rise[cell] = b - a;
      climb[cell] = c - a;
      twist[cell] = d - c - b + a;
      top[cell] = Math.max(a, b, c, d);
      const slopeX = Math.max(Math.abs(b - a), Math.abs(d - c)) / stepX;
      const slopeY = Math.max(Math.abs(c - a), Math.abs(d - b)) / stepY;
      steepest = Math.max(steepest, Math.hypot(slopeX, slopeY));
    }
  }
  const columnOf = (x: number): number => Math.min(across - 1, Math.max(0, Math.floor(x / stepX)));
  const rowOf = (y: number): number => Math.min(deep - 1, Math.max(0, Math.floor(y / stepY)));

  return {
    level: false,
    lowest,
    highest,
    steepest,
    height(x, y) {
      const [i, j] = [columnOf(x), rowOf(y)];
      const cell = j * across + i;
      const [u, v] = [x / stepX - i, y / stepY - j];
      return base[cell]! + rise[cell]! * u + (climb[cell]! + twist[cell]! * u) * v;
    },
    normal(x, y, out) {
      const [i, j] = [columnOf(x), rowOf(y)];
      const cell = j * across + i;
      const nx = -(rise[cell]! + twist[cell]! * (y / stepY - j)) / stepX;
      const ny = -(climb[cell]! + twist[cell]! * (x / stepX - i)) / stepY;
      const size = 1 / Math.sqrt(nx * nx + ny * ny + 1);
      out[0] = nx * size;
      out[1] = ny * size;
      out[2] = size;
    },
    cast(x, y, z, dx, dy, dz, most) {
      // Only the part of the ray that lies no higher than the highest place can meet anything.
      let from = 0;
      let end = most;
      if (z > highest) {
        if (dz >= 0) return most;
        from = (highest - z) / dz;
      }
      if (dz > 0) end = Math.min(most, (highest - z) / dz);
      if (from >= end) return most;
      let i = columnOf(x + dx * from);
      let j = rowOf(y + dy * from);
      const wayX = dx > 0 ? 1 : -1;
      const wayY = dy > 0 ? 1 : -1;
      const perX = dx !== 0 ? stepX / Math.abs(dx) : Number.POSITIVE_INFINITY;
      const perY = dy !== 0 ? stepY / Math.abs(dy) : Number.POSITIVE_INFINITY;
      let nextX = dx !== 0 ? ((dx > 0 ? i + 1 : i) * stepX - x) / dx : Number.POSITIVE_INFINITY;
      let nextY = dy !== 0 ? ((dy > 0 ? j + 1 : j) * stepY - y) / dy : Number.POSITIVE_INFINITY;
      const du = dx / stepX;
      const dv = dy / stepY;
      for (;;) {
        const to = Math.min(nextX, nextY, end);
        const cell = j * across + i;
        if (z + dz * (dz < 0 ? to : from) <= top[cell]!) {
          const u = x / stepX + du * from - i;
          const v = y / stepY + dv * from - j;
          const bend = twist[cell]!;
          // Clearance over the surface is above + slope t + curve t t from here on.
          const above = z + dz * from - base[cell]! - rise[cell]! * u - (climb[cell]! + bend * u) * v;
          const slope = dz - rise[cell]! * du - climb[cell]! * dv - bend * (u * dv + v * du);
          const curve = -bend * du * dv;
          const t = from + firstDown(above, slope, curve);
          // A hair past the cell's edge still counts, or a ray could slip through between two cells.
          if (t <= to + 1e-12) return Math.min(t, most);
        }
        if (to >= end) return most;
        from = to;
        if (nextX < nextY) {
          i += wayX;
          if (i < 0 || i >= across) return most;
          nextX += perX;
        } else {
          j += wayY;
          if (j < 0 || j >= deep) return most;
          nextY += perY;
        }
      }
    },
  };
}

/** Least t >= 0 at which a + b t + c t t goes from above 0 to below; Infinity for none. */
function firstDown(a: number, b: number, c: number): number {
  if (a <= 0 && b < 0) return 0;
  const square = b * b - 4 * a * c;
  if (square < 0) return Number.POSITIVE_INFINITY;
  const q = -0.5 * (b + (b >= 0 ? Math.sqrt(square) : -Math.sqrt(square)));
  const one = c !== 0 ? q / c : Number.POSITIVE_INFINITY;
  const other = q !== 0 ? a / q : Number.POSITIVE_INFINITY;
  const low = Math.min(one, other);
  const high = Math.max(one, other);
  if (low >= 0 && b + 2 * c * low <= 0) return low;
  return high >= 0 && high < Number.POSITIVE_INFINITY && b + 2 * c * high <= 0 ? high : Number.POSITIVE_INFINITY;
}
