import { checkField } from "../geometry/index.ts";
import type { Beam, Lamp, Material, Scene, Side, WaterGrid } from "./scene.ts";

/** Largest extent of a tank, m. Design value. */
const MOST = 100;
/** Most cells of the result, of the water grid, and most bands. Design values. */
const MOST_CELLS = 65_536;
const MOST_VOXELS = 2_000_000;
const MOST_BANDS = 64;
/** Nearest that a lamp may hang to the water, m: at less the emitters would have to be countless. Design value. */
export const NEAREST_LAMP = 5e-4;

const sides: readonly Side[] = ["left", "right", "front", "back"];

/** @throws RangeError that says what is wrong, where, and what is allowed. */
export function checkScene(scene: Scene): void {
  const { box, bands, materials, ground, cells } = scene;
  for (const [name, value] of [
    ["length", box.length],
    ["width", box.width],
    ["surface", box.surface],
  ] as const)
    between(value, `${name} of the box`, "m", 0, MOST, "above");
  between(box.index, "refractive index of the water", "", 1, 2);
  whole(bands.length, "bands", 1, MOST_BANDS);
  bands.forEach((band, b) => {
    between(band.absorption, `absorption of band ${b + 1}`, "1/m", 0, 1e4);
    between(band.scattering ?? 0, `scattering of band ${b + 1}`, "1/m", 0, 1e4);
    const g = band.asymmetry ?? 0;
    if (!(g > -1 && g < 1)) throw new RangeError(`asymmetry ${g} of band ${b + 1}: it must lie between -1 and 1`);
  });
  for (const side of sides) {
    const wall = scene.walls[side];
    if (wall !== "bare") checkMaterial(wall, `${side} wall`, bands.length);
  }
  whole(materials.length, "materials", 0, 256);
  materials.forEach((material, m) => {
    checkMaterial(material, `material ${m}`, bands.length);
  });
  whole(cells.columns, "columns of cells", 1, MOST_CELLS);
  whole(cells.rows, "rows of cells", 1, MOST_CELLS);
  whole(cells.columns * cells.rows, "cells", 1, MOST_CELLS);
  if (ground) {
    checkField(ground);
    if (!near(ground.length, box.length) || !near(ground.width, box.width))
      throw new RangeError(
        `the ground covers ${ground.length} m x ${ground.width} m, the box ${box.length} m x ${box.width} m: both must be the same`,
      );
    if (ground.heights.every((h) => h >= box.surface))
      throw new RangeError(
        `the whole ground lies at or above the water's surface at ${box.surface} m: some must be under water`,
      );
  }
  checkGroundMaterial(scene);
  scene.solids.forEach((solid, s) => {
    checkSolid(solid.mesh, `solid ${s + 1}`);
    materialOf(solid.material, `solid ${s + 1}`, materials.length);
  });
  if (scene.water) checkWater(scene.water, bands.length);
  const daylight = scene.daylight ?? [];
  if (scene.lamps.length + daylight.length === 0)
    throw new RangeError("no lamps and no daylight: at least one of either is needed");
  for (const { side } of daylight) {
    if (side !== "top" && scene.walls[side] !== "bare")
      throw new RangeError(`daylight on the ${side} side: that wall is opaque, it must be bare`);
  }
  scene.lamps.forEach((lamp, k) => {
    checkLamp(lamp, `lamp ${k + 1}`, box.surface);
  });
}

function between(value: number, what: string, unit: string, min: number, max: number, open?: "above"): void {
  if (value >= min && value <= max && !(open && value === min)) return;
  throw new RangeError(`${what} ${value} ${unit}: it must be ${open ? "above" : "at least"} ${min} and at most ${max}`);
}

function whole(value: number, what: string, min: number, max: number): void {
  if (!(Number.isInteger(value) && value >= min && value <= max))
    throw new RangeError(`${value} ${what}: ${min} to ${max} are allowed, whole`);
}

function near(a: number, b: number): boolean {
  return Math.abs(a - b) <= 1e-6 * b;
}

function shares(values: readonly number[], what: string, bands: number): void {
  if (values.length !== bands)
    throw new RangeError(`${what} has ${values.length} values: ${bands} are needed, one a band`);
  values.forEach((value, b) => {
    between(value, `${what} in band ${b + 1}`, "", 0, 1);
  });
}

function checkMaterial(material: Material, what: string, bands: number): void {
  shares(material.albedo, `albedo of ${what}`, bands);
}

function materialOf(index: number, what: string, count: number): void {
  if (!(Number.isInteger(index) && index >= 0 && index < count))
    throw new RangeError(`material ${index} of ${what}: there are ${count}, counted from 0`);
}

function checkGroundMaterial({ groundMaterial, cells, materials }: Scene): void {
  if (typeof groundMaterial === "number") {
    materialOf(groundMaterial, "the ground", materials.length);
    return;
  }
  if (groundMaterial.length !== cells.columns * cells.rows)
    throw new RangeError(
      `${groundMaterial.length} materials of the ground for ${cells.columns} x ${cells.rows} cells: one a cell is needed`,
    );
  groundMaterial.forEach((index, cell) => {
    materialOf(index, `cell ${cell + 1} of the ground`, materials.length);
  });
}

function checkSolid({ positions, triangles }: Scene["solids"][number]["mesh"], what: string): void {
  if (triangles.length === 0 || triangles.length % 3 !== 0 || positions.length % 3 !== 0)
    throw new RangeError(
      `${what}: ${triangles.length} corners of triangles, ${positions.length} coordinates; both come in threes`,
    );
  const wrong = positions.findIndex((p) => !Number.isFinite(p));
  if (wrong >= 0) throw new RangeError(`${what}: coordinate ${wrong + 1} is ${positions[wrong]}; it must be a number`);
  const beyond = triangles.findIndex((k) => k >= positions.length / 3);
  if (beyond >= 0)
    throw new RangeError(
      `${what}: corner ${triangles[beyond]} of a triangle; there are ${positions.length / 3}, from 0`,
    );
}

function checkWater({ columns, rows, layers, leaves, told }: WaterGrid, bands: number): void {
  whole(columns, "columns of the water grid", 1, 4096);
  whole(rows, "rows of the water grid", 1, 4096);
  whole(layers, "layers of the water grid", 1, 4096);
  whole(columns * rows * layers, "cells of the water grid", 1, MOST_VOXELS);
  if (told && told.length !== columns * rows * layers)
    throw new RangeError(
      `${told.length} marks of wanted cells: ${columns * rows * layers} are needed, one a cell of the water grid`,
    );
  if (!leaves) return;
  shares(leaves.absorptance, "absorptance of leaves", bands);
  const { density } = leaves;
  if (density.length !== columns * rows * layers)
    throw new RangeError(
      `${density.length} leaf densities: ${columns * rows * layers} are needed, one a cell of the water grid`,
    );
  const wrong = density.findIndex((d) => !(d >= 0 && d <= 1e4));
  if (wrong >= 0)
    throw new RangeError(`leaf density ${density[wrong]} m2/m3 of cell ${wrong + 1}: it must be 0 to 10000`);
}

function checkLamp(lamp: Lamp, what: string, surface: number): void {
  const [ax, ay, az] = lamp.axis;
  const [lx, ly, lz] = lamp.along;
  const turned = Math.hypot(ly * az - lz * ay, lz * ax - lx * az, lx * ay - ly * ax);
  const sizes = Math.hypot(ax, ay, az) * Math.hypot(lx, ly, lz);
  if (!(sizes > 0 && Number.isFinite(sizes) && turned > 1e-6 * sizes))
    throw new RangeError(`${what}: its axis and its long side must be directions that do not run together`);
  if (lamp.emitters.length === 0) throw new RangeError(`${what} has no emitters: at least one is needed`);
  let sum = 0;
  lamp.emitters.forEach((emitter, k) => {
    const { x, y, z, share, halves } = emitter;
    const place = `emitter ${k + 1} of ${what}`;
    const reach = (halves ?? []).reduce((most, half) => most + Math.abs(half[2]), 0);
    const span = (halves ?? []).flat().reduce((most, part) => most + Math.abs(part), 0);
    if (!Number.isFinite(x + y + z + span)) throw new RangeError(`${place} at ${x}, ${y}, ${z} m: all must be numbers`);
    if (!(z - reach >= surface + NEAREST_LAMP))
      throw new RangeError(
        `${place} reaches down to ${z - reach} m: lamps hang at least ${NEAREST_LAMP * 1000} mm above the water at ${surface} m`,
      );
    between(share, `share of ${place}`, "", 0, 1 + 1e-9);
    sum += share;
  });
  if (Math.abs(sum - 1) > 1e-9)
    throw new RangeError(`shares of the emitters of ${what} add up to ${sum}: it must be 1`);
  checkBeam(lamp.beam, what);
}

function checkBeam(beam: Beam, what: string): void {
  if (beam.kind === "lobe") {
    between(beam.exponent, `exponent of the beam of ${what}`, "", 0, 100_000);
    return;
  }
  const { vertical, horizontal, intensity } = beam;
  const rising = (angles: readonly number[]): boolean =>
    angles.length > 0 && angles[0] === 0 && angles.every((a, i) => i === 0 || a > angles[i - 1]!);
  if (!(rising(vertical) && vertical.length >= 2 && vertical.at(-1)! <= 180))
    throw new RangeError(`vertical angles of ${what}: two or more, rising from 0 to at most 180 degrees`);
  if (!(rising(horizontal) && [0, 90, 180, 360].includes(horizontal.at(-1)!)))
    throw new RangeError(`horizontal angles of ${what}: rising from 0, the last 0, 90, 180 or 360 degrees`);
  if (intensity.length !== vertical.length * horizontal.length)
    throw new RangeError(
      `${intensity.length} intensities of ${what}: ${vertical.length * horizontal.length} are needed, one for every pair of angles`,
    );
  if (!intensity.every((value) => value >= 0 && Number.isFinite(value)))
    throw new RangeError(`intensities of ${what}: none may be negative or not a number`);
  if (!intensity.some((value) => value > 0)) throw new RangeError(`intensities of ${what}: some must be above 0`);
}
