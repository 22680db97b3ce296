import type { Prepared } from "./prepare.ts";

/** Places a side that a cell's slope is averaged over. Design value. */
const PLACES = 4;

/** Area of the ground's slope over that of the plan, cell by cell: the mean of 1/(upward part of the normal). */
export function slopeRatios({ ground, columns, rows, length, width }: Prepared): Float64Array {
  const ratios = new Float64Array(columns * rows).fill(1);
  if (ground.level) return ratios;
  const normal = new Float64Array(3);
  for (let cell = 0; cell < ratios.length; cell++) {
    let sum = 0;
    for (let k = 0; k < PLACES * PLACES; k++) {
      const x = (((cell % columns) + ((k % PLACES) + 0.5) / PLACES) / columns) * length;
      const y = ((Math.floor(cell / columns) + (Math.floor(k / PLACES) + 0.5) / PLACES) / rows) * width;
      ground.normal(x, y, normal);
      sum += 1 / normal[2]!;
    }
    ratios[cell] = sum / (PLACES * PLACES);
  }
  return ratios;
}

/** Area of each solid's triangles whose middles lie in the box and above the ground, m2. */
export function openAreas({ scene, ground, length, width }: Prepared): Float64Array {
  return Float64Array.from(scene.solids, ({ mesh: { positions, triangles } }) => {
    let area = 0;
    for (let t = 0; t < triangles.length; t += 3) {
      const [a, b, c] = [triangles[t]! * 3, triangles[t + 1]! * 3, triangles[t + 2]! * 3];
      const middle = (axis: number): number => (positions[a + axis]! + positions[b + axis]! + positions[c + axis]!) / 3;
      const [x, y] = [middle(0), middle(1)];
      if (!(x >= 0 && x <= length && y >= 0 && y <= width && middle(2) > ground.height(x, y))) continue;
      const side = (k: number, axis: number): number => positions[k + axis]! - positions[a + axis]!;
      area +=
        Math.hypot(
          side(b, 1) * side(c, 2) - side(b, 2) * side(c, 1),
          side(b, 2) * side(c, 0) - side(b, 0) * side(c, 2),
          side(b, 0) * side(c, 1) - side(b, 1) * side(c, 0),
        ) / 2;
    }
    return area;
  });
}
