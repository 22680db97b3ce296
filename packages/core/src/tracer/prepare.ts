import { type Shine, shineOf } from "./beam.ts";
import { checkScene } from "./check-scene.ts";
import { type Ground, groundOf } from "./ground.ts";
import type { Scene, Side, Wall } from "./scene.ts";
import { type Triangles, trianglesOf } from "./triangles.ts";

/** A scene in flat arrays, for the loops. */
export interface Prepared {
  readonly scene: Scene;
  readonly bands: number;
  readonly length: number;
  readonly width: number;
  readonly surface: number;
  readonly index: number;
  readonly absorption: Float64Array;
  readonly scattering: Float64Array;
  readonly asymmetry: Float64Array;
  /** Bands that scatter alike, which can share their paths. */
  readonly groups: readonly (readonly number[])[];
  /** Left, right, front, back: 1 where bare. */
  readonly bare: Uint8Array;
  /** Albedo of the four walls, wall x bands. */
  readonly wallAlbedo: Float64Array;
  /** Albedo of the materials, material x bands. */
  readonly albedo: Float64Array;
  readonly columns: number;
  readonly rows: number;
  readonly cellMaterial: Uint8Array;
  readonly ground: Ground;
  readonly solids: Triangles;
  readonly solidMaterial: Int32Array;
  /** Highest place of ground and solids where that is in the air, else the surface. */
  readonly top: number;
  readonly water: PreparedWater | null;
  readonly lamps: readonly PreparedLamp[];
  /** Sides that daylight falls on: 0 to 3 in the order of `SIDES`, 4 the opening. */
  readonly daylight: readonly number[];
}

export interface PreparedWater {
  readonly columns: number;
  readonly rows: number;
  readonly layers: number;
  readonly count: number;
  readonly stepX: number;
  readonly stepY: number;
  readonly stepZ: number;
  /** Share of light met by leaves per metre, 1/m; null without leaves. */
  readonly leaves: Float64Array | null;
  readonly absorptance: Float64Array;
  /** Cells whose direct light is wanted; null = all. */
  readonly told: Uint8Array | null;
}

interface PreparedLamp {
  readonly shine: Shine;
  readonly count: number;
  /** x, y, z, half u, half v of each emitter. */
  readonly emitters: Float64Array;
  readonly shares: Float64Array;
  /** Shares added up, the last 1. */
  readonly sums: Float64Array;
}

/** Leaves that lie every way show half their area to any direction. */
const G = 0.5;

/** The opening among the sides that daylight falls on. */
export const OPENING = 4;

const SIDES: readonly Side[] = ["left", "right", "front", "back"];

/** @throws RangeError as `checkScene`. */
export function prepare(scene: Scene): Prepared {
  checkScene(scene);
  const { box, bands, walls, materials, cells, water } = scene;
  const { length, width, surface, index } = box;
  const wallsInOrder: readonly Wall[] = SIDES.map((side) => walls[side]);
  const ground = groundOf(scene.ground);
  const solids = trianglesOf(scene.solids);
  const scattering = Float64Array.from(bands, (band) => band.scattering ?? 0);
  const asymmetry = Float64Array.from(bands, (band) => band.asymmetry ?? 0);
  return {
    scene,
    bands: bands.length,
    length,
    width,
    surface,
    index,
    absorption: Float64Array.from(bands, (band) => band.absorption),
    scattering,
    asymmetry,
    groups: groupsOf(scattering, asymmetry),
    bare: Uint8Array.from(wallsInOrder, (wall) => (wall === "bare" ? 1 : 0)),
    wallAlbedo: Float64Array.from(wallsInOrder.flatMap((wall) => (wall === "bare" ? bands.map(() => 0) : wall.albedo))),
    albedo: Float64Array.from(materials.flatMap((material) => material.albedo)),
    columns: cells.columns,
    rows: cells.rows,
    cellMaterial:
      typeof scene.groundMaterial === "number"
        ? new Uint8Array(cells.columns * cells.rows).fill(scene.groundMaterial)
        : scene.groundMaterial,
    ground,
    solids,
    solidMaterial: Int32Array.from(scene.solids, (solid) => solid.material),
    top: Math.max(surface, ground.highest, solids.highest),
    water: water && {
      columns: water.columns,
      rows: water.rows,
      layers: water.layers,
      count: water.columns * water.rows * water.layers,
      stepX: length / water.columns,
      stepY: width / water.rows,
      stepZ: surface / water.layers,
      leaves: water.leaves?.density.some((d) => d > 0) ? water.leaves.density.map((d) => G * d) : null,
      absorptance: Float64Array.from(water.leaves?.absorptance ?? []),
      told: water.told ?? null,
    },
    lamps: scene.lamps.map((lamp) => {
      const shares = Float64Array.from(lamp.emitters, (emitter) => emitter.share);
      const sums = shares.slice();
      for (let k = 1; k < sums.length; k++) sums[k] = sums[k]! + sums[k - 1]!;
      sums[sums.length - 1] = 1;
      return {
        shine: shineOf(lamp),
        count: lamp.emitters.length,
        emitters: Float64Array.from(
          lamp.emitters.flatMap(({ x, y, z, halves }) => [
            x,
            y,
            z,
            ...(halves?.[0] ?? [0, 0, 0]),
            ...(halves?.[1] ?? [0, 0, 0]),
          ]),
        ),
        shares,
        sums,
      };
    }),
    daylight: (scene.daylight ?? []).map(({ side }) => (side === "top" ? OPENING : SIDES.indexOf(side))),
  };
}

function groupsOf(scattering: Float64Array, asymmetry: Float64Array): number[][] {
  const groups = new Map<string, number[]>();
  scattering.forEach((b, band) => {
    const key = b === 0 ? "clear" : `${b} ${asymmetry[band]}`;
    const group = groups.get(key);
    if (group) group.push(band);
    else groups.set(key, [band]);
  });
  return [...groups.values()];
}
