import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { atomCounts, elementShare, elements, FormulaError, molarMass } from "./index.ts";

describe("molar mass", () => {
  test("reads hydrates, groups and subscripts", () => {
    expect(molarMass("CaO")).toBe(56.077);
    for (const dot of ["·", ".", "*", " · "]) expect(molarMass(`MgSO4${dot}7H2O`)).toBe(246.466);
    expect(molarMass("Ca(NO3)2·4H2O")).toBe(236.146);
    expect(molarMass("CaMg(CO3)2")).toBe(184.399);
    expect(molarMass("H₃BO₃")).toBe(molarMass("H3BO3"));
    expect(atomCounts("Fe4[Fe(CN)6]3")).toEqual(
      new Map([
        ["Fe", 7],
        ["C", 18],
        ["N", 18],
      ]),
    );
  });

  test.each([
    "",
    "x",
    "Xy",
    "Ca(",
    "Ca)",
    "CaCO3)",
    "NO3-",
    "Ca2+",
    "2",
    "H0",
    "()",
    "·",
    "Ca..O",
    "H2O2x",
    "3(",
    "日本",
  ])("refuses %j", (formula) => {
    expect(() => molarMass(formula)).toThrow(FormulaError);
  });

  test("refuses a text far too long for a formula", () => {
    expect(() => molarMass("H".repeat(5000))).toThrow(FormulaError);
  });

  test("shares of all elements of a compound add up to 1", () => {
    const symbol = fc.constantFrom(...Object.keys(elements));
    const parts = fc.array(fc.tuple(symbol, fc.integer({ min: 1, max: 20 })), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(parts, (list) => {
        const formula = list.map(([e, n]) => `${e}${n === 1 ? "" : n}`).join("");
        let sum = 0;
        for (const element of atomCounts(formula).keys()) sum += elementShare(formula, element);
        expect(sum).toBeCloseTo(1, 5);
      }),
    );
    expect(elementShare("KNO3", "Fe")).toBe(0);
    expect(() => elementShare("KNO3", "Zz")).toThrow(FormulaError);
  });
});
