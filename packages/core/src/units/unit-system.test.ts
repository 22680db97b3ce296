import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { convert, inSystem, metricUnit, usUnit } from "./index.ts";

describe("the metric and US switch", () => {
  test.each([
    ["cm", "in"],
    ["mm", "in"],
    ["m", "ft"],
    ["L", "US gal"],
    ["m3", "ft3"],
    ["kg", "lb"],
    ["°C", "°F"],
    ["Δ°C", "Δ°F"],
    ["K/h", "K/h"],
    ["L/h", "US gal/h"],
    ["liters per hour", "US gal/h"],
    ["kg/m2", "lb/ft2"],
    ["mg/L", "mg/L"],
    ["dKH", "dKH"],
    ["g", "g"],
    ["mL/d", "mL/d"],
    ["kWh", "kWh"],
    ["umol/m2/s", "umol/m2/s"],
  ])("%s is told in %s", (metric, us) => {
    expect(usUnit(metric)).toBe(us);
  });

  test.each([
    ["in", "cm"],
    ["ft", "m"],
    ["US gal", "L"],
    ["imp gal", "L"],
    ["lb", "kg"],
    ["°F", "°C"],
    ["psi", "bar"],
    ["BTU/h", "W"],
    ["US gal/h", "L/h"],
    ["cm", "cm"],
  ])("%s is told in %s", (us, metric) => {
    expect(metricUnit(us)).toBe(metric);
  });

  test("carries values exactly, there and back", () => {
    expect(inSystem(60, "cm", "us")).toEqual({ value: convert(60, "cm", "in"), unit: "in" });
    expect(inSystem(36, "in", "metric")).toEqual({ value: 91.44, unit: "cm" });
    const pair = fc.constantFrom("cm", "m", "L", "kg", "°C", "L/h", "m3", "kg/m2", "m/s");
    fc.assert(
      fc.property(pair, fc.double({ min: -1000, max: 1000, noNaN: true }), (unit, value) => {
        const us = inSystem(value, unit, "us");
        const back = inSystem(us.value, us.unit, "metric");
        expect(back.unit).toBe(unit);
        expect(Math.abs(back.value - value)).toBeLessThanOrEqual(1e-12);
      }),
    );
  });
});
