import {
  BACK,
  BALANCE,
  BUDGET,
  FRONT,
  GROUND,
  LEAVES,
  LEFT,
  REFLECTED,
  RIGHT,
  SOLIDS,
  SPILL,
  TOP,
  WALLS,
  WATER,
} from "./budget.ts";
import { fade, reflectedFromAir, reflectedFromWater } from "./interface.ts";
import { OPENING, type Prepared } from "./prepare.ts";
import { uniform } from "./rapid-random.ts";
import { createWaterWalk } from "./water-walk.ts";

/** What paths of one lamp leave behind, per path of weight 1; place (item * bands + band). */
export interface Tallies {
  /** Weight on each cell as a level sensor counts it: divide by the cell's area on the plan. */
  readonly level: Float64Array;
  /** Weight that meets the ground of each cell. */
  readonly ground: Float64Array;
  /** Weight x length in each cell of the water grid: divide by its volume. */
  readonly water: Float64Array;
  /** Weight that meets each solid, direct light too. */
  readonly solids: Float64Array;
  /** Rows of counters, band x budget. */
  readonly budget: Float64Array;
  /** Weight of the direct light that meets the ground. */
  readonly direct: Float64Array;
}

export function createTallies(p: Prepared): Tallies {
  const cells = p.columns * p.rows * p.bands;
  return {
    level: new Float64Array(cells),
    ground: new Float64Array(cells),
    water: new Float64Array((p.water?.count ?? 0) * p.bands),
    solids: new Float64Array(p.scene.solids.length * p.bands),
    budget: new Float64Array(BUDGET.length * p.bands),
    direct: new Float64Array(p.bands),
  };
}

/** Paths weaker than this in every band are ended by lot, or go on at this weight. Design value. */
const WEAK = 0.01;
/** Paths leave a surface from this far off it, m. Design value: far above rounding, far below any detail. */
const OFF = 1e-7;

/** Faces that a path can meet; the first four are the walls, in the order of `SIDES`. */
const SURFACE = 4;
const BED = 5;
const PIECE = 6;
const SURFACE_FROM_AIR = 7;
const SKY = 8;

/** Horizontal part of the inward normal of the sides that daylight falls on; the opening looks down. */
const INWARDS: readonly (readonly [x: number, y: number])[] = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
  [0, 0],
];

export interface Paths {
  /** Follows paths of a lamp, or after those of daylight on a side, and adds what they leave to the tallies. */
  run(lamp: number, count: number, random: Int32Array, tallies: Tallies): void;
}

/**
 * Follows light from the lamps until it is absorbed or leaves, by lot where it divides: Fresnel's share at faces,
 * cosine-weighted from matt ones. Absorption is taken from the weight along the way (implicit capture), so that all bands
 * of a group share one path. Levels and water are counted from the first matt face or scattering on (before that the
 * direct field has them), or from the start where `everything` is asked for.
 */
export function createPaths(p: Prepared, group: readonly number[], everything: boolean): Paths {
  const { length, width, surface, index, ground, solids, top, columns, rows } = p;
  const { bare, cellMaterial, solidMaterial } = p;
  const bands = p.bands;
  const terms = BUDGET.length;
  const many = group.length;
  const band = Int32Array.from(group);
  const absorption = Float64Array.from(group, (b) => p.absorption[b]!);
  const scattering = p.scattering[group[0]!]!;
  const asymmetry = p.asymmetry[group[0]!]!;
  const pick = (table: Float64Array, items: number): Float64Array =>
    Float64Array.from({ length: items * many }, (_, k) => table[Math.floor(k / many) * bands + group[k % many]!]!);
  const albedo = pick(p.albedo, p.scene.materials.length);
  const wallAlbedo = pick(p.wallAlbedo, 4);
  const leaves = p.water?.leaves ?? null;
  const absorptance = leaves && p.water ? pick(p.water.absorptance, 1) : new Float64Array(many);
  const absorbs = absorption.some((a) => a > 0);
  const emergent = top > surface;
  const uneven = !ground.level;
  const bottom = ground.lowest;
  const perX = columns / length;
  const perY = rows / width;
  const airShare = 1 / (index * index);

  const w = new Float64Array(many);
  const before = new Float64Array(many);
  const direction = new Float64Array(3);
  const normal = new Float64Array(3);
  const walk = p.water ? createWaterWalk(p.water, absorption, scattering, band, bands, w) : null;

  function add(counters: Float64Array, term: number): void {
    for (let b = 0; b < many; b++) counters[band[b]! * terms + term] = counters[band[b]! * terms + term]! + w[b]!;
  }

  /** Takes what a matt face absorbs from the weights; whether anything is left. */
  function give(counters: Float64Array, term: number, table: Float64Array, material: number): boolean {
    let left = 0;
    for (let b = 0; b < many; b++) {
      const back = w[b]! * table[material * many + b]!;
      const place = band[b]! * terms + term;
      counters[place] = counters[place]! + (w[b]! - back);
      w[b] = back;
      if (back > left) left = back;
    }
    return left > 0;
  }

  /** Turns `direction` to one about `normal` at a cosine, evenly round. */
  function turn(cosine: number, random: Int32Array): void {
    let u = 0;
    let v = 0;
    let square = 0;
    do {
      u = 2 * uniform(random) - 1;
      v = 2 * uniform(random) - 1;
      square = u * u + v * v;
    } while (square >= 1 || square === 0);
    // A cosine of -2 asks for Lambert's: the disc's own place, lifted on to the half ball.
    let c = cosine;
    if (c === -2) c = Math.sqrt(1 - square);
    else {
      const scale = Math.sqrt(Math.max(0, 1 - c * c) / square);
      u *= scale;
      v *= scale;
    }
    const nx = normal[0]!;
    const ny = normal[1]!;
    const nz = normal[2]!;
    // Two directions square to the normal without a branch on its size (Duff et al. 2017).
    const sign = nz >= 0 ? 1 : -1;
    const a = -1 / (sign + nz);
    const m = nx * ny * a;
    direction[0] = u * (1 + sign * nx * nx * a) + v * m + c * nx;
    direction[1] = u * sign * m + v * (sign + ny * ny * a) + c * ny;
    direction[2] = -u * sign * nx - v * ny + c * nz;
  }

  /** Cosine of the scattering angle (Henyey & Greenstein 1941). */
  function scattered(random: Int32Array): number {
    if (Math.abs(asymmetry) < 1e-3) return 1 - 2 * uniform(random);
    const q = (1 - asymmetry * asymmetry) / (1 - asymmetry + 2 * asymmetry * uniform(random));
    return Math.min(1, Math.max(-1, (1 + asymmetry * asymmetry - q * q) / (2 * asymmetry)));
  }

  function run(lampNumber: number, count: number, random: Int32Array, tallies: Tallies): void {
    const lamp = p.lamps[lampNumber];
    const side = lamp ? -1 : p.daylight[lampNumber - p.lamps.length]!;
    const nx = INWARDS[side]?.[0] ?? 0;
    const ny = INWARDS[side]?.[1] ?? 0;
    const { level, ground: met, solids: pieces, budget, direct } = tallies;
    let emitter = 0;
    let spilled = 0;
    let thrown = 0;
    for (let path = 0; path < count; path++) {
      let x = 0;
      let y = 0;
      let z = 0;
      if (lamp) {
        // Paths are dealt out over the emitters in turn, each at a random place of its part.
        const { shine, emitters, sums } = lamp;
        const goal = (path + uniform(random)) / count;
        while (sums[emitter]! < goal) emitter++;
        const e = emitter * 9;
        const s = 2 * uniform(random) - 1;
        const r = 2 * uniform(random) - 1;
        x = emitters[e]! + s * emitters[e + 3]! + r * emitters[e + 6]!;
        y = emitters[e + 1]! + s * emitters[e + 4]! + r * emitters[e + 7]!;
        z = emitters[e + 2]! + s * emitters[e + 5]! + r * emitters[e + 8]!;
        shine.sample(random, direction);
      } else {
        // Even radiance: evenly over the side, by the cosine over directions.
        normal[0] = nx;
        normal[1] = ny;
        normal[2] = side === OPENING ? -1 : 0;
        const along = (path + uniform(random)) / count;
        const across = uniform(random);
        x = nx > 0 ? 0 : nx < 0 ? length : length * along;
        y = ny > 0 ? 0 : ny < 0 ? width : width * (nx === 0 ? across : along);
        z = side === OPENING ? top : surface * across;
        turn(-2, random);
      }
      let dx = direction[0]!;
      let dy = direction[1]!;
      let dz = direction[2]!;
      if (dz >= 0 && side < 0) {
        spilled++;
        continue;
      }
      let air = false;
      /** Where the path is counted when it leaves the air. */
      let fate = SPILL;
      /** Direct until the first matt face or scattering. */
      let first = true;
      w.fill(1);
      if (side >= 0 && side < OPENING) {
        // Against the pane where the ground stands behind it.
        if (z < (uneven ? ground.height(x, y) : bottom)) {
          spilled++;
          continue;
        }
        const cosine = dx * normal[0]! + dy * normal[1]!;
        const inside = Math.sqrt(1 - (1 - cosine * cosine) * airShare);
        const back = reflectedFromAir(cosine, inside, index);
        thrown += back;
        w.fill(1 - back);
        dx = normal[0] === 0 ? dx / index : inside * normal[0]!;
        dy = normal[1] === 0 ? dy / index : inside * normal[1]!;
        dz /= index;
      } else if (emergent) {
        // To where it comes into the upright room over the opening, no higher than anything stands.
        let from = z > top ? (top - z) / dz : 0;
        let to = (surface - z) / dz;
        const x0 = ((dx > 0 ? 0 : length) - x) / dx;
        const x1 = ((dx > 0 ? length : 0) - x) / dx;
        const y0 = ((dy > 0 ? 0 : width) - y) / dy;
        const y1 = ((dy > 0 ? width : 0) - y) / dy;
        if (x0 > from) from = x0;
        if (y0 > from) from = y0;
        if (x1 < to) to = x1;
        if (y1 < to) to = y1;
        if (!(from < to)) {
          spilled++;
          continue;
        }
        x += dx * from;
        y += dy * from;
        z += dz * from;
        // From outside against the pane that holds the bank.
        if (uneven && z < ground.height(x, y)) {
          spilled++;
          continue;
        }
        air = true;
      } else {
        const down = (surface - z) / dz;
        x += dx * down;
        y += dy * down;
        if (!(x > 0 && x < length && y > 0 && y < width)) {
          spilled++;
          continue;
        }
        z = surface;
        const under = Math.sqrt(1 - (1 - dz * dz) * airShare);
        const back = reflectedFromAir(-dz, under, index);
        thrown += back;
        w.fill(1 - back);
        dx /= index;
        dy /= index;
        dz = -under;
      }

      for (;;) {
        let t = Number.POSITIVE_INFINITY;
        let face = SKY;
        if (dx > 0) {
          t = (length - x) / dx;
          face = 1;
        } else if (dx < 0) {
          t = -x / dx;
          face = 0;
        }
        if (dy > 0) {
          const ty = (width - y) / dy;
          if (ty < t) {
            t = ty;
            face = 3;
          }
        } else if (dy < 0) {
          const ty = -y / dy;
          if (ty < t) {
            t = ty;
            face = 2;
          }
        }
        if (air) {
          if (t < Number.POSITIVE_INFINITY) face = SKY;
          const tz = dz < 0 ? (surface - z) / dz : dz > 0 ? (top - z) / dz : Number.POSITIVE_INFINITY;
          if (tz < t) {
            t = tz;
            face = dz < 0 ? SURFACE_FROM_AIR : SKY;
          }
        } else if (dz > 0) {
          const tz = (surface - z) / dz;
          if (tz < t) {
            t = tz;
            face = SURFACE;
          }
        } else if (dz < 0 && !uneven) {
          const tz = (bottom - z) / dz;
          if (tz < t) {
            t = tz;
            face = BED;
          }
        }
        if (t < 0) t = 0;
        if (uneven) {
          const tg = ground.cast(x, y, z, dx, dy, dz, t);
          // Where ground and pane meet, the ground is first.
          if (tg < t || (dz < 0 && z + dz * t <= bottom)) {
            t = tg;
            face = BED;
          }
        }
        if (solids.count > 0) {
          const ts = solids.cast(x, y, z, dx, dy, dz, t);
          if (ts < t) {
            t = ts;
            face = PIECE;
          }
        }

        if (!air) {
          let leaf = -1;
          if (walk && (leaves || everything || !first)) {
            before.set(w);
            const free = leaves || scattering > 0 ? -Math.log(1 - uniform(random)) : Number.POSITIVE_INFINITY;
            const gone = walk.go(x, y, z, dx, dy, dz, t, free, everything || !first ? tallies.water : null);
            if (gone < t || walk.leaf[0]! >= 0) {
              t = gone;
              leaf = walk.leaf[0]!;
            }
            for (let b = 0; b < many; b++) {
              const place = band[b]! * terms + WATER;
              budget[place] = budget[place]! + (before[b]! - w[b]!);
            }
          } else {
            if (scattering > 0) {
              const free = -Math.log(1 - uniform(random)) / scattering;
              if (free < t) {
                t = free;
                leaf = 0;
              }
            }
            if (absorbs) {
              for (let b = 0; b < many; b++) {
                const kept = w[b]! * fade(absorption[b]! * t);
                const place = band[b]! * terms + WATER;
                budget[place] = budget[place]! + (w[b]! - kept);
                w[b] = kept;
              }
            }
          }
          if (leaf >= 0) {
            x += dx * t;
            y += dy * t;
            z += dz * t;
            first = false;
            if (leaf > 0 && (leaf === 1 || uniform(random) < leaf)) {
              let left = 0;
              for (let b = 0; b < many; b++) {
                const taken = w[b]! * absorptance[b]!;
                const place = band[b]! * terms + LEAVES;
                budget[place] = budget[place]! + taken;
                w[b] = w[b]! - taken;
                if (w[b]! > left) left = w[b]!;
              }
              if (left <= 0) break;
              normal[0] = 0;
              normal[1] = 0;
              normal[2] = 1;
              turn(1 - 2 * uniform(random), random);
            } else {
              normal[0] = dx;
              normal[1] = dy;
              normal[2] = dz;
              turn(scattered(random), random);
            }
            // Turned over and over, a direction would slowly lose its length.
            const size =
              1 /
              Math.sqrt(direction[0]! * direction[0]! + direction[1]! * direction[1]! + direction[2]! * direction[2]!);
            dx = direction[0]! * size;
            dy = direction[1]! * size;
            dz = direction[2]! * size;
            if (!lives(budget, random)) break;
            continue;
          }
        }
        x += dx * t;
        y += dy * t;
        z += dz * t;

        if (face < SURFACE) {
          const left = face === 0;
          const sideways = face < 2;
          if (sideways) x = left ? 0 : length;
          else y = face === 2 ? 0 : width;
          if (bare[face] === 1) {
            const back = reflectedFromWater(Math.abs(sideways ? dx : dy), index);
            if (back < 1 && uniform(random) >= back) {
              add(budget, face === 0 ? LEFT : face === 1 ? RIGHT : face === 2 ? FRONT : BACK);
              break;
            }
            if (sideways) dx = -dx;
            else dy = -dy;
            continue;
          }
          if (!give(budget, WALLS, wallAlbedo, face)) break;
          normal[0] = sideways ? (left ? 1 : -1) : 0;
          normal[1] = sideways ? 0 : face === 2 ? 1 : -1;
          normal[2] = 0;
        } else if (face === SURFACE) {
          z = surface;
          const back = reflectedFromWater(dz, index);
          if (back < 1 && uniform(random) >= back) {
            if (!emergent) {
              add(budget, TOP);
              break;
            }
            fate = TOP;
            air = true;
            const over = Math.sqrt(1 - index * index * (1 - dz * dz));
            dx *= index;
            dy *= index;
            dz = over;
          } else dz = -dz;
          continue;
        } else if (face === SURFACE_FROM_AIR) {
          z = surface;
          const under = Math.sqrt(1 - (1 - dz * dz) * airShare);
          if (uniform(random) < reflectedFromAir(-dz, under, index)) {
            if (fate === SPILL) fate = REFLECTED;
            dz = -dz;
          } else {
            air = false;
            dx /= index;
            dy /= index;
            dz = -under;
          }
          continue;
        } else if (face === SKY) {
          add(budget, fate);
          break;
        } else if (face === BED) {
          const column = Math.min(columns - 1, Math.max(0, Math.floor(x * perX)));
          const row = Math.min(rows - 1, Math.max(0, Math.floor(y * perY)));
          const cell = row * columns + column;
          let levels = 1;
          if (uneven) {
            ground.normal(x, y, normal);
            z = ground.height(x, y);
            const onto = -(dx * normal[0]! + dy * normal[1]! + dz * normal[2]!);
            levels = dz < 0 && onto > 0 ? (-dz * normal[2]!) / onto : 0;
          } else {
            z = bottom;
            normal[0] = 0;
            normal[1] = 0;
            normal[2] = 1;
          }
          if (first) for (let b = 0; b < many; b++) direct[band[b]!] = direct[band[b]!]! + w[b]!;
          if (everything || !first) {
            for (let b = 0; b < many; b++) {
              const place = cell * bands + band[b]!;
              level[place] = level[place]! + w[b]! * levels;
              met[place] = met[place]! + w[b]!;
            }
          }
          if (!give(budget, GROUND, albedo, cellMaterial[cell]!)) break;
          fate = TOP;
        } else {
          const triangle = solids.met[0]!;
          const piece = solids.solidOf(triangle);
          for (let b = 0; b < many; b++) {
            const place = piece * bands + band[b]!;
            pieces[place] = pieces[place]! + w[b]!;
          }
          if (!give(budget, SOLIDS, albedo, solidMaterial[piece]!)) break;
          solids.normal(triangle, normal);
          if (dx * normal[0]! + dy * normal[1]! + dz * normal[2]! > 0) {
            normal[0] = -normal[0]!;
            normal[1] = -normal[1]!;
            normal[2] = -normal[2]!;
          }
          fate = TOP;
        }

        first = false;
        if (!lives(budget, random)) break;
        turn(-2, random);
        dx = direction[0]!;
        dy = direction[1]!;
        dz = direction[2]!;
        x += normal[0]! * OFF;
        y += normal[1]! * OFF;
        z += normal[2]! * OFF;
      }
    }
    for (let b = 0; b < many; b++) {
      const row = band[b]! * terms;
      budget[row + SPILL] = budget[row + SPILL]! + spilled;
      budget[row + REFLECTED] = budget[row + REFLECTED]! + thrown;
    }
  }

  /** Ends a weak path by lot, or lifts it, so that nothing is lost in the mean. */
  function lives(budget: Float64Array, random: Int32Array): boolean {
    let most = 0;
    for (let b = 0; b < many; b++) if (w[b]! > most) most = w[b]!;
    if (most >= WEAK) return true;
    const chance = most / WEAK;
    if (uniform(random) >= chance) {
      add(budget, BALANCE);
      return false;
    }
    for (let b = 0; b < many; b++) {
      const lifted = w[b]! / chance;
      const place = band[b]! * terms + BALANCE;
      budget[place] = budget[place]! - (lifted - w[b]!);
      w[b] = lifted;
    }
    return true;
  }

  return { run };
}
