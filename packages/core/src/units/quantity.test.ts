import { describe, expect, expectTypeOf, test } from "vitest";
import {
  add,
  alkalinity,
  commensurable,
  compare,
  flow,
  hardness,
  inUnit,
  length,
  mass,
  type Quantity,
  quantity,
  scale,
  subtract,
  temperature,
  temperatureDifference,
  UnitError,
  valueIn,
  volume,
  warmedBy,
  warming,
} from "./index.ts";

describe("quantities", () => {
  test("the compiler keeps kinds apart", () => {
    // @ts-expect-error a length and a mass cannot be added
    expect(() => add(length(1, "m"), mass(1, "kg"))).toThrow(UnitError);
    // @ts-expect-error hardness is not alkalinity
    expect(() => add(hardness(1, "dGH"), alkalinity(1, "dKH"))).toThrow(UnitError);
    // @ts-expect-error two readings of a thermometer have no sum
    add(temperature(20, "°C"), temperature(20, "°C"));
    // @ts-expect-error a mass is no length
    const l: Quantity<"length"> = mass(1, "kg");
    expect(l.dimension).toBe("mass");
    // @ts-expect-error there is no such kind
    expect(() => quantity("colour", 1, "m")).toThrow();
    expectTypeOf(add(volume(1, "L"), volume(1, "US gal"))).toEqualTypeOf<Quantity<"volume">>();
    expectTypeOf(volume(1, "L").dimension).toEqualTypeOf<"volume">();
  });

  test("are added, taken apart and compared across units", () => {
    expect(add(length(1, "m"), length(20, "cm"))).toMatchObject({ value: 1.2, unit: "m", si: 1.2 });
    expect(subtract(volume(10, "L"), volume(500, "mL"))).toMatchObject({ value: 9.5, unit: "L" });
    expect(scale(flow(300, "L/h"), 2).value).toBe(600);
    expect(compare(length(1, "in"), length(2.54, "cm"))).toBeCloseTo(0, 15);
    expect(compare(mass(1, "lb"), mass(1, "kg"))).toBeLessThan(0);
    expect(valueIn(volume(75, "US gal"), "L")).toBe(283.9058838);
    expect(inUnit(temperature(22, "°C"), "°F")).toMatchObject({ value: 71.6, unit: "°F" });
    expect(valueIn(alkalinity(120, "mg/L CaCO3"), "dKH")).toBeCloseTo(6.7235, 4);
    expect(alkalinity(5, "°dH").unit).toBe("dKH");
  });

  test("temperatures move by differences", () => {
    expect(temperatureDifference(2, "°C")).toMatchObject({ unit: "Δ°C", si: 2 });
    expect(valueIn(temperatureDifference(9, "°F"), "K")).toBe(5);
    expect(warmedBy(temperature(72, "°F"), temperatureDifference(5, "K")).value).toBeCloseTo(81, 10);
    expect(warming(temperature(20, "°C"), temperature(77, "°F")).si).toBeCloseTo(5, 10);
  });

  test("refuse units of another kind, unclear units and values that are no number", () => {
    expect(() => volume(1, "cm")).toThrow("cm is a length; a volume is needed");
    expect(() => volume(1, "gal")).toThrow(/US gal or imp gal/);
    expect(() => volume(1, "barrel")).toThrow(UnitError);
    expect(() => volume(Number.NaN, "L")).toThrow(UnitError);
    expect(() => temperature(2, "Δ°C")).toThrow(UnitError);
    expect(() => valueIn(volume(1, "L"), "kg")).toThrow(UnitError);
    expect(commensurable("L/h", "US gal/d")).toBe(true);
    expect(commensurable("dKH", "dGH")).toBe(false);
  });
});
