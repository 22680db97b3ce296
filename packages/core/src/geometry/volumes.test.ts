import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Corners } from "./bilinear.ts";
import type { BoxInput } from "./box.ts";
import { boxSizes, glassMass, glassVolume } from "./box.ts";
import { fieldHeight } from "./height-field.ts";
import { resampleField } from "./height-field-make.ts";
import { layerThickness, layerTops, type Packing, volumesBelow } from "./layers.ts";
import { type ScapeInput, volumes, waterLevel } from "./volumes.ts";

const length = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const box: fc.Arbitrary<BoxInput> = fc.record({
  length: length(0.3, 2),
  width: length(0.25, 0.9),
  height: length(0.45, 0.8),
  glass: length(0.004, 0.02),
  base: length(0.004, 0.02),
  belowRim: length(0, 0.05),
});
type Cornered = Packing & Corners;
interface CorneredScape extends ScapeInput {
  readonly layers: readonly Cornered[];
}
const layer: fc.Arbitrary<Cornered> = fc.record({
  frontLeft: length(0, 0.06),
  frontRight: length(0, 0.06),
  backLeft: length(0, 0.2),
  backRight: length(0, 0.2),
  porosity: length(0.3, 0.7),
  grainDensity: length(1500, 2900),
  bulkDensity: length(600, 1700),
});
const solid = fc.record({ mass: length(0, 3), density: length(1100, 3000) });
const scape: fc.Arbitrary<CorneredScape> = fc.record({
  box,
  layers: fc.array(layer, { maxLength: 2 }),
  solids: fc.array(solid, { maxLength: 2 }),
});

function scaled(s: CorneredScape, k: number): CorneredScape {
  return {
    box: {
      length: s.box.length * k,
      width: s.box.width * k,
      height: s.box.height * k,
      glass: s.box.glass * k,
      base: s.box.base * k,
      belowRim: s.box.belowRim * k,
    },
    layers: s.layers.map((l) => ({
      ...l,
      frontLeft: l.frontLeft * k,
      frontRight: l.frontRight * k,
      backLeft: l.backLeft * k,
      backRight: l.backRight * k,
    })),
    solids: s.solids.map((x) => ({ ...x, mass: x.mass * k ** 3 })),
  };
}

function topsOf(s: ScapeInput) {
  const { length: l, width } = boxSizes(s.box);
  return layerTops(s.layers.map((own) => layerThickness(own, l, width)));
}

const scaling = ["nominal", "brim", "toWaterLine", "substrateBulk", "poreWater", "grains", "solids", "net"] as const;

describe("volumes", () => {
  test("grow with the cube of the length, areas with the square", () => {
    fc.assert(
      fc.property(scape, length(0.5, 3), (s, k) => {
        const small = volumes(s);
        const large = volumes(scaled(s, k));
        for (const key of scaling) expect(large[key]).toBeCloseTo(small[key] * k ** 3, 9);
        expect(large.planArea).toBeCloseTo(small.planArea * k ** 2, 9);
        expect(large.areaBelowWater).toBeCloseTo(small.areaBelowWater * k ** 2, 7);
        expect(large.masses.total).toBeCloseTo(small.masses.total * k ** 3, 5);
        expect(large.bedSlopes.steepest).toBeCloseTo(small.bedSlopes.steepest, 7);
      }),
    );
  });

  test("add up: bed, water and solids fill the box to the water line, with a bed above it counted apart", () => {
    fc.assert(
      fc.property(scape, (s) => {
        const v = volumes(s);
        expect(v.net + v.grains + v.solids).toBeCloseTo(v.toWaterLine, 12);
        const bedBelow = volumesBelow(topsOf(s), v.waterDepth).reduce((a, b) => a + b, 0);
        expect(v.grains + v.poreWater).toBeCloseTo(bedBelow, 12);
        expect(bedBelow).toBeLessThanOrEqual(v.substrateBulk + 1e-12);
        expect(v.meanFreeDepth * v.planArea).toBeCloseTo(v.toWaterLine - bedBelow, 12);
        const m = v.masses;
        expect(m.glass + m.water + m.substrate + m.solids).toBeCloseTo(m.total, 9);
      }),
    );
  });

  test("layers are additive: one thick layer is the same as two of its kind", () => {
    fc.assert(
      fc.property(box, layer, length(0.1, 0.9), (b, l, part) => {
        const piece = (share: number): Cornered => ({
          ...l,
          frontLeft: l.frontLeft * share,
          frontRight: l.frontRight * share,
          backLeft: l.backLeft * share,
          backRight: l.backRight * share,
        });
        const one = volumes({ box: b, layers: [l], solids: [] });
        const two = volumes({ box: b, layers: [piece(part), piece(1 - part)], solids: [] });
        for (const key of scaling) expect(two[key]).toBeCloseTo(one[key], 12);
        expect(two.masses.substrate).toBeCloseTo(one.masses.substrate, 9);
      }),
    );
  });

  test("solids are additive, and half a stone out of the water displaces half", () => {
    const b: BoxInput = { length: 1.2, width: 0.6, height: 0.45, glass: 0.012, base: 0.012, belowRim: 0.03 };
    const stone = { mass: 27, density: 2700 };
    const bare = volumes({ box: b, layers: [], solids: [] }).net;
    expect(bare - volumes({ box: b, layers: [], solids: [stone, stone] }).net).toBeCloseTo(0.02, 12);
    // a stone wholly in a bed of 40 % pores takes the place of 40 % of its own volume of water
    const bed = { frontLeft: 0.2, frontRight: 0.2, backLeft: 0.2, backRight: 0.2 };
    const sand: Cornered = { ...bed, porosity: 0.4, grainDensity: 2650, bulkDensity: 1590 };
    const buried = volumes({ box: b, layers: [sand], solids: [{ ...stone, shareInBed: 1 }] });
    const unburied = volumes({ box: b, layers: [sand], solids: [] });
    expect(unburied.net - buried.net).toBeCloseTo(0.4 * 0.01, 12);
    expect(unburied.masses.substrate - buried.masses.substrate).toBeCloseTo(1590 * 0.01, 9);
    const half = { ...stone, shareUnderWater: 0.5 };
    expect(bare - volumes({ box: b, layers: [], solids: [half] }).net).toBeCloseTo(0.005, 12);
  });

  test("a hill above the water line displaces only what is under it", () => {
    const b: BoxInput = { length: 1.024, width: 0.524, height: 0.512, glass: 0.012, base: 0.012, belowRim: 0.3 };
    const hill: Cornered = {
      frontLeft: 0,
      frontRight: 0,
      backLeft: 0.4,
      backRight: 0.4,
      porosity: 0.4,
      grainDensity: 2650,
      bulkDensity: 1590,
    };
    const v = volumes({ box: b, layers: [hill], solids: [] });
    // Water 0.2 m deep meets the slope half way back: a triangle of water over the front half.
    expect(v.areaBelowWater).toBeCloseTo(0.25, 12);
    expect(v.meanFreeDepth * v.planArea).toBeCloseTo(0.5 * 0.2 * 0.25 * 1, 12);
    expect(v.substrateBulk).toBeCloseTo(0.1, 12);
    expect(v.masses.substrate).toBeCloseTo(159, 9);
  });

  test("the level found after filling holds just what was poured", () => {
    fc.assert(
      fc.property(scape, (s) => {
        const v = volumes(s);
        const level = waterLevel(s, v.net);
        expect(level.spilled).toBeCloseTo(0, 12);
        expect(level.belowRim).toBeCloseTo(s.box.belowRim, 9);
        expect(level.depth).toBeCloseTo(v.waterDepth, 9);
      }),
    );
  });

  test("what does not fit runs over", () => {
    const b: BoxInput = { length: 0.6, width: 0.3, height: 0.36, glass: 0.005, base: 0.005, belowRim: 0.02 };
    const level = waterLevel({ box: b, layers: [], solids: [] }, 0.07);
    expect(level.depth).toBeCloseTo(0.355, 12);
    expect(level.spilled).toBeCloseTo(0.07 - boxSizes(b).brim, 12);
  });

  test("impossible scapes are refused", () => {
    const b: BoxInput = { length: 0.6, width: 0.3, height: 0.36, glass: 0.005, base: 0.005, belowRim: 0.02 };
    expect(() => volumes({ box: { ...b, glass: 0.2 }, layers: [], solids: [] })).toThrow(RangeError);
    expect(() => volumes({ box: { ...b, belowRim: 0.4 }, layers: [], solids: [] })).toThrow(RangeError);
    expect(() => volumes({ box: b, layers: [], solids: [{ mass: 900, density: 2700 }] })).toThrow(RangeError);
    expect(() => volumes({ box: b, layers: [], solids: [{ mass: 1, density: 0 }] })).toThrow(RangeError);
    const thin = {
      frontLeft: -0.01,
      frontRight: 0,
      backLeft: 0,
      backRight: 0,
      porosity: 0.4,
      grainDensity: 2650,
      bulkDensity: 1500,
    };
    expect(() => volumes({ box: b, layers: [thin], solids: [] })).toThrow(RangeError);
    const tower = { ...thin, frontLeft: 0.36 };
    expect(() => volumes({ box: b, layers: [tower], solids: [] })).toThrow(/higher/);
    expect(() => waterLevel({ box: b, layers: [tower], solids: [] }, 0.01)).toThrow(/higher/);
  });
});

describe("surface of a stack", () => {
  test("is the sum of its layers, corner for corner and between", () => {
    fc.assert(
      fc.property(fc.array(layer, { minLength: 1, maxLength: 4 }), length(0, 1), length(0, 1), (layers, x, y) => {
        const own = layers.map((l) => layerThickness(l, 1, 1));
        const tops = layerTops(own);
        let sum = 0;
        own.forEach((field, i) => {
          sum += fieldHeight(field, x, y);
          expect(fieldHeight(tops[i]!, x, y)).toBeCloseTo(sum, 12);
        });
      }),
    );
  });

  test("a layer on a grid that holds the same plane is the same layer", () => {
    fc.assert(
      fc.property(box, layer, (b, l) => {
        const sizes = boxSizes(b);
        const fine = resampleField(layerThickness(l, sizes.length, sizes.width), 9, 5);
        const { porosity, grainDensity, bulkDensity } = l;
        const drawn = volumes({
          box: b,
          layers: [{ thickness: fine, porosity, grainDensity, bulkDensity }],
          solids: [],
        });
        const typed = volumes({ box: b, layers: [l], solids: [] });
        for (const key of scaling) expect(drawn[key]).toBeCloseTo(typed[key], 12);
        expect(drawn.meanFreeDepth).toBeCloseTo(typed.meanFreeDepth, 12);
        expect(drawn.bedSlopes.frontToBack).toBeCloseTo(typed.bedSlopes.frontToBack, 9);
        expect(drawn.bedSlopes.steepest).toBeCloseTo(typed.bedSlopes.steepest, 6);
      }),
    );
  });
});

describe("glass", () => {
  test("is the outer box less the inner, wherever the bottom sits", () => {
    fc.assert(
      fc.property(box, (b) => {
        const inner = boxSizes(b).brim;
        const outer = b.length * b.width * b.height;
        expect(glassVolume(b, "under")).toBeCloseTo(outer - inner, 12);
        expect(glassVolume(b, "between")).toBeCloseTo(outer - inner, 12);
        expect(glassMass(b)).toBeCloseTo(2500 * (outer - inner), 9);
      }),
    );
  });
});
