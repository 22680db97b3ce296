import { describe, expect, test } from "vitest";
import { alkalinityChangeOf } from "./alkalinity-changes.ts";
import { ChemistryError } from "./chemistry-error.ts";
import { hydrateSolubility, nutrientFactor, saltForRise, saltOf, salts, solubility, stockConflicts } from "./salts.ts";
import { alkalinityFromIons, waterTotals } from "./species.ts";

describe("salts and alkalinity", () => {
  const outsideTotals = /^(Fe|Mn|Zn|Cu|Na2Mo|CO)/;
  test.each(salts.filter((s) => !outsideTotals.test(s.formula)).map((s) => [s.formula, s] as const))(
    "%s brings the alkalinity of its charges",
    (_formula, s) => {
      expect(alkalinityFromIons(waterTotals(s.gives))).toBe(s.alk);
    },
  );
  test("bicarbonates bring carbon, neutral salts none", () => {
    for (const s of salts) expect(s.dic).toBe(/CO3$/.test(s.formula) ? 1 : 0);
  });
  test("a nitrate salt taken up whole leaves alkalinity as it was", () => {
    expect(alkalinityChangeOf("nitrate-uptake").alk + alkalinityChangeOf("potassium-uptake").alk).toBe(0);
  });
  test("urea to ammonium to nitrate adds up", () => {
    expect(alkalinityChangeOf("urea-hydrolysis").alk + 2 * alkalinityChangeOf("nitrification").alk).toBe(
      alkalinityChangeOf("urea-hydrolysis-and-nitrification").alk,
    );
  });
});

describe("doses", () => {
  test("a dose brings every element in the salt's own proportions", () => {
    const dose = saltForRise("KNO3", "NO3", 10, 60);
    expect(dose.rises.N).toBeCloseTo(10 / 4.42664, 4);
    expect(Object.keys(dose.rises).sort()).toEqual(["K", "N"]);
    expect(saltForRise("NaHCO3", "HCO3", 21.7615, 1).alk).toBeCloseTo(0.356652, 5);
  });
  test("refuses what the salt does not hold", () => {
    expect(() => saltForRise("KCl", "NO3", 10, 60)).toThrow(/holds no NO3/);
    expect(() => saltOf("XeF2")).toThrow(ChemistryError);
    expect(() => nutrientFactor("N", "PO4")).toThrow(ChemistryError);
  });
});

describe("stocks", () => {
  test("calcium meets no sulfate, phosphate or carbonate; magnesium and bare iron no phosphate", () => {
    const pairs = (...f: string[]) => stockConflicts(f).length;
    expect(pairs("CaCl2·2H2O", "MgSO4·7H2O")).toBe(1);
    expect(pairs("Ca(NO3)2·4H2O", "KH2PO4")).toBe(1);
    expect(pairs("CaCl2·2H2O", "NaHCO3")).toBe(1);
    expect(pairs("MgSO4·7H2O", "KH2PO4")).toBe(1);
    expect(pairs("FeSO4·7H2O", "KH2PO4")).toBe(1);
    expect(pairs("KNO3", "KH2PO4", "K2SO4")).toBe(0);
    expect(pairs("CaSO4·2H2O")).toBe(0);
  });
  test("solubility goes straight between the table's temperatures and nowhere beyond", () => {
    expect(solubility("KNO3", 15).per100g).toBeCloseTo((21.36 + 31.93) / 2, 9);
    expect(solubility("KNO3", 20).safe).toBeCloseTo(0.8 * 31.93, 9);
    expect(() => solubility("KNO3", 30)).toThrow(ChemistryError);
    expect(() => solubility("NaCl", 20)).toThrow(ChemistryError);
  });
  test("a hydrate's water counts as solvent", () => {
    // 25.2 % of dry magnesium sulfate is about 106 g of Epsom salt in 100 g of water.
    expect(hydrateSolubility(25.1, "MgSO4·7H2O", "MgSO4")).toBeCloseTo(105.8, 0);
    expect(() => hydrateSolubility(60, "MgSO4·7H2O", "MgSO4")).toThrow(ChemistryError);
  });
});
