import type { DirectLight } from "./direct.ts";
import type { Prepared } from "./prepare.ts";

/** Mean direct light of cells, from pairs of a place in the cell and a place on the lamp. */
export interface Gather {
  /**
   * One pass over a row of ground cells; every pass takes other places.
   * @param level @param slope what it adds to, cell x bands: level irradiance, and flux per area of the plan
   */
  groundRow(lamp: number, row: number, pass: number, level: Float64Array, slope: Float64Array): void;
  /** Adds the scalar irradiance of a row of the water grid (layer x rows + row) to `round`, cell x bands. */
  waterRow(lamp: number, row: number, round: Float64Array): void;
}

/** Pairs a pass: as many for every emitter, and at least this many. Design value. */
const FEWEST = 32;
/** Pairs for a cell of the water grid, and how many for all cells together where there are few. Design values. */
const FEWEST_WATER = 48;
const MOST_WATER = 512;
const WATER_WORK = 500_000;

/** Steps that fill the cube evenly, 1/phi^k with phi^(d+1) = phi + 1, for four and five sides (Roberts 2018). */
const STEP4 = [1, 2, 3, 4].map((k) => 1.1673039782614187 ** -k) as [number, number, number, number];
const STEP5 = [1, 2, 3, 4, 5].map((k) => 1.1347241384015194 ** -k) as [number, number, number, number, number];

const part = (x: number): number => x - Math.floor(x);

/** A number on [0, 1) that looks random for every pair of whole numbers (finaliser of MurmurHash3, public domain). */
function shuffled(a: number, b: number): number {
  let z = Math.imul(a + 1, 0x9e3779b1) ^ Math.imul(b + 1, 0x85ebca77);
  z = Math.imul(z ^ (z >>> 16), 0x85ebca6b);
  z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
  return ((z ^ (z >>> 16)) >>> 0) * 2 ** -32;
}

export function createGather(p: Prepared, direct: DirectLight): Gather {
  const { columns, rows, length, width, bands, ground, surface, water } = p;
  const normal = Float64Array.of(0, 0, 1);
  const stepX = length / columns;
  const stepY = width / rows;
  const place = new Float64Array(3);
  const afforded = water ? Math.min(MOST_WATER, Math.max(FEWEST_WATER, Math.floor(WATER_WORK / water.count))) : 0;

  /** A place on an emitter's part. */
  function emit(emitters: Float64Array, k: number, s: number, r: number): void {
    const e = k * 9;
    const a = 2 * s - 1;
    const b = 2 * r - 1;
    for (let axis = 0; axis < 3; axis++)
      place[axis] = emitters[e + axis]! + a * emitters[e + 3 + axis]! + b * emitters[e + 6 + axis]!;
  }

  return {
    groundRow(lamp, row, pass, level, slope) {
      const { emitters, shares, count } = p.lamps[lamp]!;
      // Every emitter in every pass: leaving some out in turn would cost more noise than it saves time.
      const turns = Math.ceil(FEWEST / count);
      const pairs = turns * count;
      for (let column = 0; column < columns; column++) {
        const cell = row * columns + column;
        const s0 = shuffled(cell, 0);
        const s1 = shuffled(cell, 1);
        const s2 = shuffled(cell, 2);
        const s3 = shuffled(cell, 3);
        direct.clear();
        for (let pair = 0; pair < pairs; pair++) {
          const k = pair % count;
          const t = pass * pairs + pair;
          const x = (column + part(s0 + t * STEP4[0])) * stepX;
          const y = (row + part(s1 + t * STEP4[1])) * stepY;
          emit(emitters, k, part(s2 + t * STEP4[2]), part(s3 + t * STEP4[3]));
          if (!ground.level) ground.normal(x, y, normal);
          const [nx, ny, nz] = [normal[0]!, normal[1]!, normal[2]!];
          // Divided by its rise, flux on the slope is counted per area of the plan.
          direct.add(
            lamp,
            shares[k]! / turns,
            x,
            y,
            ground.height(x, y),
            place[0]!,
            place[1]!,
            place[2]!,
            nx / nz,
            ny / nz,
            1,
          );
        }
        for (let b = 0; b < bands; b++) {
          level[cell * bands + b] = level[cell * bands + b]! + direct.level[b]!;
          slope[cell * bands + b] = slope[cell * bands + b]! + direct.slope[b]!;
        }
      }
    },
    waterRow(lamp, row, round) {
      if (!water) return;
      const { emitters, sums, count } = p.lamps[lamp]!;
      // As many for every emitter where there are not too many of them.
      const waterPairs = count <= afforded ? count * Math.floor(afforded / count) : afforded;
      const layer = Math.floor(row / water.rows);
      for (let column = 0; column < water.columns; column++) {
        const cell = row * water.columns + column;
        if (water.told && water.told[cell] === 0) continue;
        const turns = STEP5.map((_, side) => shuffled(cell, side + 8));
        direct.clear();
        let k = 0;
        for (let pair = 0; pair < waterPairs; pair++) {
          const goal = (pair + 0.5) / waterPairs;
          while (sums[k]! < goal) k++;
          const x = (column + part(turns[0]! + pair * STEP5[0])) * water.stepX;
          const y = ((row % water.rows) + part(turns[1]! + pair * STEP5[1])) * water.stepY;
          const z = Math.min((layer + part(turns[2]! + pair * STEP5[2])) * water.stepZ, surface * (1 - 1e-12));
          if (z <= ground.height(x, y)) continue;
          emit(emitters, k, part(turns[3]! + pair * STEP5[3]), part(turns[4]! + pair * STEP5[4]));
          direct.add(lamp, 1 / waterPairs, x, y, z, place[0]!, place[1]!, place[2]!, 0, 0, 1);
        }
        for (let b = 0; b < bands; b++) round[cell * bands + b] = round[cell * bands + b]! + direct.round[b]!;
      }
    },
  };
}
