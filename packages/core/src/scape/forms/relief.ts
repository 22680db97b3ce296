import type { Site } from "./site.ts";

/** Depths of a bed on an even grid: whole mm, row by row from the front, each from left to right. */
export interface Relief {
  readonly columns: number;
  readonly rows: number;
  readonly mm: readonly number[];
}

/** Share of a slope that is used, so that hand work keeps some of the margin. Design value. */
const used = 0.93;

/** Rise per metre run that a form lays in a material of this design slope. */
export function workingSlope(designSlope: number): number {
  return used * Math.tan((designSlope * Math.PI) / 180);
}

/** Nodes of the grid: few enough to read, at whole parts of the grid on which limited layers are laid. */
function gridOf({ length, width }: Pick<Site, "length" | "width">): Pick<Relief, "columns" | "rows"> {
  return { columns: length < 0.45 ? 9 : 17, rows: width < 0.3 ? 5 : 9 };
}

/**
 * A relief after a height (m, of a place in m), nowhere steeper than `slope` and nowhere under `least` m. High places
 * give way, low ones stay. Without rounding a place lies at most `slope` times the distance above any other; whole mm
 * may tilt a cell a little further, which is then let down mm by mm.
 */
export function reliefOf(
  site: Pick<Site, "length" | "width">,
  height: (x: number, y: number) => number,
  slope: number,
  least: number,
): Relief {
  const { columns, rows } = gridOf(site);
  const dx = site.length / (columns - 1);
  const dy = site.width / (rows - 1);
  const wanted = Array.from({ length: columns * rows }, (_, k) =>
    Math.max(least, height((k % columns) * dx, Math.floor(k / columns) * dy)),
  );
  const mm = wanted.map((_, k) => {
    let low = Number.POSITIVE_INFINITY;
    wanted.forEach((h, n) => {
      const away = Math.hypot(
        ((k % columns) - (n % columns)) * dx,
        (Math.floor(k / columns) - Math.floor(n / columns)) * dy,
      );
      low = Math.min(low, h + slope * away);
    });
    return Math.round(low * 1000);
  });
  letDown(mm, columns, rows, dx * 1000, dy * 1000, slope);
  return { columns, rows, mm };
}

/** Lowers the highest corner of every cell that is too steep until none is. Steps of 1 mm, so it ends. */
function letDown(mm: number[], columns: number, rows: number, dx: number, dy: number, slope: number): void {
  for (let steep = true; steep; ) {
    steep = false;
    for (let j = 0; j < rows - 1; j++) {
      for (let i = 0; i < columns - 1; i++) {
        const at = j * columns + i;
        const cell = [at, at + 1, at + columns, at + columns + 1];
        const [a, b, c, d] = cell.map((k) => mm[k]!) as [number, number, number, number];
        const run = Math.max(Math.abs(b - a), Math.abs(d - c)) / dx;
        const rise = Math.max(Math.abs(c - a), Math.abs(d - b)) / dy;
        if (Math.hypot(run, rise) <= slope + 1e-9) continue;
        const top = cell.reduce((high, k) => (mm[k]! > mm[high]! ? k : high));
        mm[top]! -= 1;
        steep = true;
      }
    }
  }
}

/** A relief that takes at each place what `part` makes of its mm (and those of a second relief on the same grid). */
export function reliefBy(relief: Relief, part: (mm: number, k: number) => number): Relief {
  return { ...relief, mm: relief.mm.map(part) };
}

/** Rows as a plan is typed: the back row first, each from left to right with its unit. */
export function reliefRows({ columns, rows, mm }: Relief): readonly string[] {
  return Array.from({ length: rows }, (_, j) => {
    const from = (rows - 1 - j) * columns;
    return `${mm.slice(from, from + columns).join(" ")} mm`;
  });
}
