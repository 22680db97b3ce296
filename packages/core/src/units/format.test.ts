import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  formatQuantity,
  formatRange,
  formatWithDoubt,
  parseQuantity,
  roundToDoubt,
  roundToPlace,
  UnitError,
} from "./index.ts";

describe("rounding", () => {
  test.each([
    [16.837, 0.42, 16.8, 0.4, -1],
    [16.837, 0.14, 16.84, 0.14, -2],
    [16.837, 2.6, 17, 3, 0],
    [16.837, 1.26, 16.8, 1.3, -1],
    [16.837, 0.096, 16.84, 0.1, -2],
    [283906, 2100, 284000, 2000, 3],
    [283906, 14300, 284000, 14000, 3],
    [3, 20, 0, 20, 1],
    [-3, 20, 0, 20, 1],
    [0.00123456, 0.00003, 0.00123, 0.00003, -5],
    [1.005, 0.03, 1.01, 0.03, -2],
    [-1.005, 0.03, -1.01, 0.03, -2],
    [1.23456, 0, 1.23456, 0, -5],
  ])("%d in doubt by %d", (value, doubt, rounded, roundedDoubt, place) => {
    expect(roundToDoubt(value, doubt)).toEqual({ value: rounded, doubt: roundedDoubt, place });
  });

  test("moves a value by half its doubt at most, and is done after one pass", () => {
    const number = fc.double({ min: -1e9, max: 1e9, noNaN: true });
    fc.assert(
      fc.property(number, fc.double({ min: 1e-5, max: 1e6, noNaN: true }), (value, doubt) => {
        const r = roundToDoubt(value, doubt);
        expect(Math.abs(r.value - value)).toBeLessThanOrEqual(
          0.5 * 10 ** r.place * (1 + 1e-9) + Math.abs(value) * 1e-15,
        );
        expect(Math.abs(r.doubt - doubt)).toBeLessThanOrEqual(doubt / 2 + 1e-15);
        expect(Object.is(r.value, -0)).toBe(false);
        expect(roundToPlace(r.value, r.place)).toBe(r.value);
      }),
    );
  });

  test("takes huge, tiny and negative numbers", () => {
    expect(roundToPlace(1e300, -3)).toBe(1e300);
    expect(roundToPlace(123456789e20, 25)).toBe(1.235e28);
    expect(roundToPlace(4e-320, -3)).toBe(0);
    expect(Object.is(roundToPlace(-0.0004, -3), 0)).toBe(true);
    for (const bad of [Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => roundToPlace(bad, 0)).toThrow(RangeError);
      expect(() => roundToDoubt(1, bad)).toThrow(RangeError);
    }
    expect(() => roundToDoubt(1, -1)).toThrow(RangeError);
  });
});

describe("figures", () => {
  test.each([
    [18.43, "mg/L", { uncertainty: 0.6 }, "18.4 mg/L"],
    [18.43, "mg/L", { uncertainty: 2.5 }, "18 mg/L"],
    [18, "mg/L", { uncertainty: 0.15 }, "18.00 mg/L"],
    [283906, "L", { uncertainty: 3000 }, "284000 L"],
    [24, "°C", {}, "24 °C"],
    [24.06, "°C", { digits: 3 }, "24.1 °C"],
    [2.5, "L", { digits: 3 }, "2.50 L"],
    [9.996, "L", { digits: 3 }, "10.0 L"],
    [1234.5, "L", { digits: 2 }, "1200 L"],
    [23456.7, "L", {}, "23457 L"],
    [0.0123456, "g", {}, "0.01235 g"],
    [0, "g", {}, "0 g"],
    [-0, "g", {}, "0 g"],
    [-0.0004, "g", { uncertainty: 0.02 }, "0.00 g"],
    [-0.4, "°C", { uncertainty: 3 }, "0 °C"],
    [-5, "°C", {}, "−5 °C"],
    [6.83, "1", { uncertainty: 0.05 }, "6.83"],
    [50, "%", {}, "50 %"],
    [30, "deg", {}, "30°"],
    [62, "umol/m2/s", {}, "62 µmol/m²s"],
    [4, "dKH", {}, "4 °dKH"],
    [1.2e-9, "m2/s", { digits: 2 }, "1.2×10⁻⁹ m²/s"],
    [1.5e20, "m", {}, "1.5×10²⁰ m"],
    [0.1 + 0.2, "L", {}, "0.3 L"],
    [2, "Δ°C", {}, "2 °C"],
    [12, "mL/d per 50 L", {}, "12 mL/d per 50 L"],
  ])("%d %s %o", (value, unit, options, text) => {
    expect(formatQuantity(value, unit, options)).toBe(text);
  });

  test("ranges and doubts", () => {
    expect(formatRange(16.2, 21.4, "mg/L")).toBe("16 to 21 mg/L");
    expect(formatRange(21.4, 16.2, "mg/L")).toBe("16 to 21 mg/L");
    expect(formatRange(16, 21, "1")).toBe("16 to 21");
    expect(formatRange(6.61, 6.89, "1")).toBe("6.61 to 6.89");
    expect(formatRange(-0.2, 3.9, "°C")).toBe("0 to 4 °C");
    expect(formatRange(5, 5, "L")).toBe("5 L");
    expect(formatWithDoubt(18.43, 0.62, "mg/L")).toBe("18.4 ± 0.6 mg/L");
    expect(formatWithDoubt(18.43, 0, "mg/L")).toBe("18.43 mg/L");
  });

  test("a printed figure is read again, to within its digits", () => {
    const unit = fc.constantFrom("L", "cm", "mg/L", "umol/m2/s", "W/m2/K", "dKH", "US gal", "°F", "mL/d per 50 L", "%");
    fc.assert(
      fc.property(
        fc.double({ min: -1e15, max: 1e15, noNaN: true }),
        unit,
        fc.integer({ min: 1, max: 15 }),
        (value, u, digits) => {
          const text = formatQuantity(value, u, { digits });
          expect(text).not.toMatch(/^−0(?:\.0*)?(?: |$)/);
          const read = parseQuantity(text);
          expect(read).toMatchObject({ ok: true, unit: u });
          if (read.ok)
            expect(Math.abs(read.value - value)).toBeLessThanOrEqual(
              Math.abs(value) * 0.51 * 10 ** (1 - digits) + 1e-20,
            );
        },
      ),
    );
  });

  test("refuses what cannot be printed honestly", () => {
    for (const bad of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
      expect(() => formatQuantity(bad, "L")).toThrow(RangeError);
      expect(() => formatRange(0, bad, "L")).toThrow(RangeError);
    }
    expect(() => formatQuantity(1, "gal")).toThrow(UnitError);
    expect(() => formatQuantity(1, "florin")).toThrow(UnitError);
    expect(() => formatQuantity(1, "L", { digits: 0 })).toThrow(RangeError);
  });
});
