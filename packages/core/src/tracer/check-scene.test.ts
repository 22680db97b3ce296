import { describe, expect, test } from "vitest";
import { createTrace, type Lamp, type Scene } from "./index.ts";
import { block, pointLamp, tank } from "./scenes.testing.ts";

const lamp = (changes: Partial<Lamp>): Partial<Scene> => ({
  lamps: [{ ...pointLamp(0.3, 0.15, 0.45, { kind: "lobe", exponent: 1 }), ...changes }],
});
const table = (changes: object): Partial<Scene> =>
  lamp({
    beam: { kind: "table", vertical: [0, 45, 90], horizontal: [0], intensity: Float64Array.of(2, 1, 0), ...changes },
  });
const field = (height: number, length = 0.6) => ({
  length,
  width: 0.3,
  columns: 2,
  rows: 2,
  heights: new Float64Array(4).fill(height),
});
const box = (changes: Partial<Scene["box"]>): Partial<Scene> => ({ box: { ...tank().box, ...changes } });
const leaves = (density: Float64Array, absorptance: number[]) => ({
  water: { columns: 1, rows: 1, layers: 1, leaves: { density, absorptance } },
});
const { positions, triangles } = block([0.1, 0.1, 0], [0.2, 0.2, 0.1]);

describe("scenes that are refused, with the fault and what is allowed", () => {
  const bad: readonly (readonly [string, Partial<Scene>, RegExp])[] = [
    ["length of nothing", box({ length: 0 }), /length of the box 0 m: it must be above 0/],
    ["depth that is no number", box({ surface: Number.NaN }), /surface of the box NaN/],
    ["endless width", box({ width: Number.POSITIVE_INFINITY }), /width of the box Infinity/],
    ["index below that of air", box({ index: 0.9 }), /refractive index of the water 0.9/],
    ["no bands", { bands: [] }, /0 bands/],
    ["negative absorption", { bands: [{ absorption: -1 }] }, /absorption of band 1 -1/],
    ["scattering all ahead", { bands: [{ absorption: 1, scattering: 1, asymmetry: 1 }] }, /asymmetry 1 of band 1/],
    ["albedo above 1", { materials: [{ albedo: [1.2] }] }, /albedo of material 0 in band 1 1.2/],
    ["albedo for another number of bands", { materials: [{ albedo: [0.2, 0.2] }] }, /2 values: 1 are needed/],
    ["wall without albedo", { walls: { ...tank().walls, left: { albedo: [] } } }, /left wall has 0 values/],
    ["cells in halves", { cells: { columns: 1.5, rows: 2 } }, /1.5 columns of cells/],
    ["unknown material", { groundMaterial: 3 }, /material 3 of the ground: there are 1/],
    ["materials for too few cells", { groundMaterial: new Uint8Array(3) }, /3 materials of the ground/],
    ["ground above the water", { ground: field(0.4) }, /whole ground lies at or above/],
    ["ground of another tank", { ground: field(0.1, 0.7) }, /the ground covers 0.7 m/],
    ["ground with a hole", { ground: field(-0.1) }, /heights are 0 or more/],
    ["mesh of two corners", { solids: [{ mesh: { positions, triangles: triangles.slice(0, 2) }, material: 0 }] }, /solid 1: 2 corners/], // biome-ignore format: one a line
    ["corner out of the list", { solids: [{ mesh: { positions: positions.slice(0, 9), triangles }, material: 0 }] }, /there are 3, from 0/], // biome-ignore format: one a line
    ["coordinate that is no number", { solids: [{ mesh: { positions: positions.map(() => Number.NaN), triangles }, material: 0 }] }, /coordinate 1 is NaN/], // biome-ignore format: one a line
    ["solid of no material", { solids: [{ mesh: { positions, triangles }, material: 1 }] }, /material 1 of solid 1/],
    ["water grid of nothing", { water: { columns: 0, rows: 1, layers: 1 } }, /0 columns of the water grid/],
    ["leaves for other cells", leaves(new Float64Array(2), [0.5]), /2 leaf densities: 1 are needed/],
    [
      "marks for another grid",
      { water: { columns: 2, rows: 1, layers: 1, told: new Uint8Array(3) } },
      /3 marks of wanted cells: 2 are needed/,
    ],
    ["negative leaves", leaves(Float64Array.of(-1), [0.5]), /leaf density -1/],
    ["leaves for other bands", leaves(Float64Array.of(1), []), /absorptance of leaves has 0 values/],
    ["no lamps", { lamps: [] }, /no lamps/],
    ["lamp without emitters", lamp({ emitters: [] }), /lamp 1 has no emitters/],
    [
      "lamp in the water",
      lamp({ emitters: [{ x: 0, y: 0, z: 0.2, share: 1 }] }),
      /emitter 1 of lamp 1 reaches down to 0.2 m/,
    ],
    ["lamp nowhere", lamp({ emitters: [{ x: Number.NaN, y: 0, z: 1, share: 1 }] }), /all must be numbers/],
    ["half a lamp", lamp({ emitters: [{ x: 0, y: 0, z: 1, share: 0.5 }] }), /add up to 0.5/],
    ["axis along the lamp", lamp({ along: [0, 0, 2] }), /do not run together/],
    ["lobe below 0", lamp({ beam: { kind: "lobe", exponent: -1 } }), /exponent of the beam of lamp 1 -1/],
    ["table that does not start at 0", table({ vertical: [5, 45, 90] }), /rising from 0/],
    ["table of no known symmetry", table({ horizontal: [0, 100], intensity: new Float64Array(6).fill(1) }), /the last 0, 90, 180 or 360/], // biome-ignore format: one a line
    ["table with too few figures", table({ intensity: new Float64Array(2) }), /2 intensities of lamp 1: 3 are needed/],
    ["negative intensity", table({ intensity: Float64Array.of(1, -1, 0) }), /none may be negative/],
    ["dark table", table({ intensity: new Float64Array(3) }), /some must be above 0/],
  ];
  test.each(bad)("%s", (_, changes, message) => {
    const attempt = () => createTrace(tank(changes));
    expect(attempt).toThrow(RangeError);
    expect(attempt).toThrow(message);
  });

  test("options out of range", () => {
    expect(() => createTrace(tank(), { photons: -1 })).toThrow(/-1 photons/);
    expect(() => createTrace(tank(), { seed: 0.5 })).toThrow(/seed 0.5/);
    expect(() => createTrace(tank(), { noise: 2 })).toThrow(/noise 2/);
    expect(() => createTrace(tank(), { directNoise: 0 })).toThrow(/direct noise 0/);
    expect(() => createTrace(tank(), { mode: "forward", photons: 0 })).toThrow(/needs some/);
  });
});
