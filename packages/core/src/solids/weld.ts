import type { Mesh } from "./mesh.ts";
import type { Pace } from "./pace.ts";

/** A mesh whose corners that lie together are one; corners that no triangle uses are gone. */
export interface Welded {
  readonly mesh: Mesh;
  /** Corners fewer than before. */
  readonly merged: number;
}

/**
 * Makes corners within `tolerance` of each other one, at the place of the first. Corners are kept in squares somewhat
 * larger than the tolerance, so that few have neighbours to ask.
 */
export async function weld({ positions, triangles }: Mesh, tolerance: number, pace: Pace): Promise<Welded> {
  const corners = positions.length / 3;
  const cell = 8 * tolerance;
  const names = new Int32Array(corners).fill(-1);
  const places = new Float64Array(positions.length);
  let slots = 1024;
  while (slots < 2 * corners) slots *= 2;
  const heads = new Int32Array(slots).fill(-1);
  const links = new Int32Array(corners);
  let count = 0;
  let used = 0;

  function slotOf(i: number, j: number, k: number): number {
    let hash = Math.imul(i, 0x9e3779b1) ^ Math.imul(j, 0x85ebca6b) ^ Math.imul(k, 0xc2b2ae35);
    hash = Math.imul(hash ^ (hash >>> 15), 0x2c1b3c6d);
    return (hash ^ (hash >>> 13)) & (slots - 1);
  }

  function find(slot: number, x: number, y: number, z: number): number {
    for (let name = heads[slot]!; name >= 0; name = links[name]!) {
      const at = 3 * name;
      const dx = places[at]! - x;
      const dy = places[at + 1]! - y;
      const dz = places[at + 2]! - z;
      if (dx * dx + dy * dy + dz * dz <= tolerance * tolerance) return name;
    }
    return -1;
  }

  function nameOf(corner: number): number {
    const [x, y, z] = [positions[3 * corner]!, positions[3 * corner + 1]!, positions[3 * corner + 2]!];
    const [i, j, k] = [Math.floor(x / cell), Math.floor(y / cell), Math.floor(z / cell)];
    const own = slotOf(i, j, k);
    let name = find(own, x, y, z);
    if (name >= 0) return name;
    for (let a = Math.floor((x - tolerance) / cell); a <= Math.floor((x + tolerance) / cell); a++) {
      for (let b = Math.floor((y - tolerance) / cell); b <= Math.floor((y + tolerance) / cell); b++) {
        for (let c = Math.floor((z - tolerance) / cell); c <= Math.floor((z + tolerance) / cell); c++) {
          if (a === i && b === j && c === k) continue;
          name = find(slotOf(a, b, c), x, y, z);
          if (name >= 0) return name;
        }
      }
    }
    places[3 * count] = x;
    places[3 * count + 1] = y;
    places[3 * count + 2] = z;
    links[count] = heads[own]!;
    heads[own] = count;
    count += 1;
    return count - 1;
  }

  const list = new Uint32Array(triangles.length);
  await pace.slices(triangles.length, 16384, (from, to) => {
    for (let t = from; t < to; t++) {
      const corner = triangles[t]!;
      if (names[corner]! < 0) {
        names[corner] = nameOf(corner);
        used += 1;
      }
      list[t] = names[corner]!;
    }
  });
  return { mesh: { positions: places.slice(0, 3 * count), triangles: list }, merged: used - count };
}
