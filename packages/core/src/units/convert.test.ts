import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { convert, convertAmount, molarMass, UnitError } from "./index.ts";

describe("convert", () => {
  test.each([
    [36, "in", "cm", 91.44],
    [6, "ft", "in", 72],
    [7, "mL", "L", 0.007],
    [75, "US gal", "L", 283.9058838],
    [22, "°C", "°F", 71.6],
    [71.6, "°F", "°C", 22],
    [-40, "°F", "°C", -40],
    [0, "°C", "K", 273.15],
    [5, "K", "Δ°F", 9],
    [50, "%", "1", 0.5],
    [420, "ppm(v)", "1", 0.00042],
    [1, "cm/h", "m/d", 0.24],
  ])("%d %s is exactly the double in %s", (value, from, to, expected) => {
    expect(convert(value, from, to)).toBe(expected);
  });

  test("names both units when they do not fit", () => {
    for (const [from, to] of [
      ["cm", "L"],
      ["dKH", "dGH"],
      ["°C", "Δ°C"],
      ["mg/L", "mmol/L"],
      ["bubbles/s", "1/s"],
      ["deg", "1"],
    ] as const) {
      const fault = (() => {
        try {
          convert(1, from, to);
        } catch (error) {
          return error;
        }
      })();
      expect(fault).toBeInstanceOf(UnitError);
      expect((fault as UnitError).units).toEqual([from, to]);
      expect((fault as UnitError).message).toContain(from);
      expect((fault as UnitError).message).toContain(to);
    }
  });

  test("lets the other unit settle what hardness and alkalinity share, and nothing else", () => {
    expect(convert(1, "mg/L CaCO3", "meq/L")).toBeCloseTo(0.0199828, 7);
    expect(convert(1, "mg/L CaCO3", "mmol/L")).toBeCloseTo(0.00999141, 8);
    expect(convert(10, "gpg", "°fH")).toBeCloseTo(17.1181, 4);
    expect(convert(4, "°dH", "meq/L")).toBe(convert(4, "dKH", "meq/L"));
    expect(convert(16, "oz", "lb")).toBe(1);
    for (const [from, to] of [
      ["gal", "L"],
      ["L", "gal"],
      ["ppm", "mg/L"],
      ["ppm", "%"],
      ["KH", "meq/L"],
      ["ton", "kg"],
      ["oz", "mL"],
      ["mL", "oz"],
    ] as const) {
      expect(() => convert(1, from, to), `${from} to ${to}`).toThrow(/say which/);
    }
  });

  test.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])("refuses %d", (value) => {
    expect(() => convert(value, "cm", "m")).toThrow(UnitError);
  });

  test("refuses a result beyond range and never returns -0", () => {
    expect(() => convert(1e308, "km", "pm")).toThrow(UnitError);
    expect(Object.is(convert(-0, "cm", "m"), 0)).toBe(true);
    expect(convert(1e306, "mm", "m")).toBe(1e303);
  });

  test("is a straight line through every pair of values", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-9, max: 1e9, noNaN: true }), (v) => {
        expect(convert(2 * v, "L/h", "US gal/h")).toBe(2 * convert(v, "L/h", "US gal/h"));
      }),
    );
  });
});

describe("convertAmount", () => {
  test("goes between mass and amount both ways", () => {
    const nitrate = molarMass("NO3");
    expect(convertAmount(62.004, "mg/L", "mmol/L", nitrate)).toBeCloseTo(1, 12);
    expect(convertAmount(1, "mmol/L", "mg/L", nitrate)).toBeCloseTo(62.004, 10);
    expect(convertAmount(1, "mg/kg", "umol/kg", molarMass("CO2"))).toBeCloseTo(22.7226, 4);
    expect(convertAmount(88.018, "g/h", "mol/h", molarMass("CO2"))).toBeCloseTo(2, 12);
    expect(convertAmount(5, "mg/L", "g/m3", 100)).toBeCloseTo(5, 12);
  });

  test("returns to where it came from", () => {
    const amount = fc.double({ min: 1e-6, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(amount, fc.double({ min: 1, max: 500, noNaN: true }), (v, m) => {
        const back = convertAmount(convertAmount(v, "mg/L", "umol/L", m), "umol/L", "mg/L", m);
        expect(Math.abs(back - v)).toBeLessThanOrEqual(1e-14 * v);
      }),
    );
  });

  test("refuses what is no mass and amount, and molar masses that make no sense", () => {
    expect(() => convertAmount(1, "mg/L", "mmol/kg", 100)).toThrow(/mg\/L.*mmol\/kg/);
    expect(() => convertAmount(1, "mg/L", "meq/L", 100)).toThrow(UnitError);
    expect(() => convertAmount(1, "ppm", "mmol/L", 100)).toThrow(/say which/);
    for (const m of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => convertAmount(1, "mg/L", "mmol/L", m)).toThrow(UnitError);
    }
    expect(() => convertAmount(Number.NaN, "mg/L", "mmol/L", 100)).toThrow(UnitError);
  });
});
