/**
 * Gravel for a base of 60 x 24 in, 3 in deep, told in two unit systems (keeper's report, public list archive): 19 in³ of
 * quartz grit per pound, 50 lb displaces 2.4 US gal. The report slips twice: 227 lb became "500 kg", 10 ft² became "20".
 */
import { describe, expect, test } from "vitest";
import { boxSizes } from "./box.ts";
import type { LayerInput } from "./layers.ts";
import { porosityOf } from "./substrate.ts";
import { volumes } from "./volumes.ts";

const inch = 0.0254;
const pound = 0.45359237;
const gallon = 3.785411784e-3;
const tolerance = 0.03;

const bulkDensity = pound / (19 * inch ** 3);
const grainDensity = (50 * pound) / (2.4 * gallon);
const depth = 3 * inch;
const glass = 0.01;
const box = {
  length: 60 * inch + 2 * glass,
  width: 24 * inch + 2 * glass,
  height: 0.6,
  glass,
  base: glass,
  belowRim: 0.03,
};
const gravel: LayerInput = {
  frontLeft: depth,
  frontRight: depth,
  backLeft: depth,
  backRight: depth,
  porosity: porosityOf(bulkDensity, grainDensity),
  grainDensity,
  bulkDensity,
};
const result = volumes({ box, layers: [gravel], solids: [] });

function near(got: number, want: number): void {
  expect(Math.abs(got / want - 1)).toBeLessThan(tolerance);
}

describe("gravel in two unit systems, within 3 %", () => {
  test("4320 in³ are 70.8 L, 227 lb are 103 kg", () => {
    near(result.substrateBulk * 1000, 70.8);
    near(result.masses.substrate, 103);
    near(result.masses.substrate / pound, 227);
    expect(result.masses.substrate).toBeLessThan(500 / 4);
  });

  test("the base is 10 ft², so 20 lb/ft² make 91 kg", () => {
    near(boxSizes(box).planArea / 0.3048 ** 2, 10);
    near((20 * pound * boxSizes(box).planArea) / 0.3048 ** 2, 91);
  });

  test("bulk 1.46, grain 2.50 kg/L, pores 0.42", () => {
    near(bulkDensity / 1000, 1.46);
    near(grainDensity / 1000, 2.5);
    near(gravel.porosity, 0.42);
  });

  test("10.9 US gal = 41 L of water displaced", () => {
    near(result.grains * 1000, 41);
    near(result.grains / gallon, 10.9);
  });
});
