import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { along, divide, line, multiply, ONE, power, ratio, subtract, toNumber } from "./ratio.ts";

describe("ratio", () => {
  test("reads decimals, powers of ten and quotients exactly", () => {
    expect(ratio("0.0254")).toEqual({ n: 127n, d: 5000n });
    expect(ratio("1e-6")).toEqual({ n: 1n, d: 1000000n });
    expect(ratio("1e9")).toEqual({ n: 1000000000n, d: 1n });
    expect(ratio("10/56.077")).toEqual({ n: 10000n, d: 56077n });
    expect(() => ratio("x")).toThrow(RangeError);
  });

  test("becomes the nearest double, as the compiler reads the same decimals", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-150, max: 1e150, noNaN: true }), (x) => {
        const exact = x.toExponential(20).replace("e+", "e");
        expect(toNumber(ratio(exact))).toBe(Number(exact));
      }),
    );
  });

  test("follows the rules of fractions", () => {
    const small = fc.integer({ min: 1, max: 10000 });
    fc.assert(
      fc.property(small, small, small, small, (a, b, c, d) => {
        const [x, y] = [ratio(`${a}/${b}`), ratio(`${c}/${d}`)];
        expect(divide(multiply(x, y), y)).toEqual(x);
        expect(multiply(x, power(x, -1))).toEqual(ONE);
        expect(toNumber(subtract(x, x))).toBe(0);
        expect(power(x, 3)).toEqual(multiply(x, multiply(x, x)));
      }),
    );
  });

  test("keeps a line finite although its product overflows", () => {
    const l = line(ratio("9007199254740991/9007199254740990"), ratio("0"));
    expect(along(l, 1e300)).toBeCloseTo(1e300, -290);
  });
});
