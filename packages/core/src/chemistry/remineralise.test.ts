import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ChemistryError } from "./chemistry-error.ts";
import { meqPerDegree, mmolPerDegree } from "./hardness.ts";
import { calciumSalts, carbonateSalts, magnesiumSalts, remineralise } from "./remineralise.ts";
import { alkalinityFromIons } from "./species.ts";
import { perLitre } from "./water-properties.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe("salts for 50 L of pure water, 6 dGH half calcium half magnesium (keeper's report, public list archive)", () => {
  const recipe = remineralise({
    volume: 50,
    gh: 6,
    kh: 0,
    calciumShare: 0.5,
    calciumSalt: "CaSO4·2H2O",
    magnesiumSalt: "MgSO4·7H2O",
    carbonateSalt: "KHCO3",
  });
  test("4.605 g of gypsum and 6.593 g of Epsom salt, to 2 %", () => {
    expect(recipe.salts.map((s) => s.formula)).toEqual(["CaSO4·2H2O", "MgSO4·7H2O"]);
    const [gypsum, epsom] = recipe.salts;
    expect(Math.abs(gypsum!.grams / 4.605 - 1)).toBeLessThan(0.02);
    expect(Math.abs(epsom!.grams / 6.593 - 1)).toBeLessThan(0.02);
  });
  test("7.147 mg/L of calcium and 4.334 mg/L of magnesium per degree", () => {
    expect((perLitre(recipe.water.totals.ca, 25) * 40078) / 3).toBeCloseTo(7.147, 2);
    expect((perLitre(recipe.water.totals.mg, 25) * 24305) / 3).toBeCloseTo(4.334, 2);
  });
  test("warns that the calcium salt dissolves slowly", () => {
    expect(recipe.remarks.join(" ")).toMatch(/gypsum dissolves slowly/);
  });
});

describe("any recipe", () => {
  test("meets its degrees and keeps its charges", () => {
    fc.assert(
      fc.property(
        between(1, 500),
        between(0, 15),
        between(0, 10),
        between(0, 1),
        fc.constantFrom(...calciumSalts.filter((s) => s !== "CaCO3")),
        fc.constantFrom(...magnesiumSalts),
        fc.constantFrom(...carbonateSalts),
        (volume, gh, kh, calciumShare, calciumSalt, magnesiumSalt, carbonateSalt) => {
          const { water } = remineralise({ volume, gh, kh, calciumShare, calciumSalt, magnesiumSalt, carbonateSalt });
          const degrees = (perLitre(water.totals.ca + water.totals.mg, 25) * 1000) / mmolPerDegree;
          expect(degrees).toBeCloseTo(gh, 9);
          expect((perLitre(water.alk, 25) * 1000) / meqPerDegree).toBeCloseTo(kh, 9);
          expect(alkalinityFromIons(water.totals)).toBeCloseTo(water.alk, 12);
        },
      ),
    );
  });
  test("lime brings both degrees, and is refused when it brings too much alkalinity", () => {
    const lime = {
      volume: 100,
      calciumShare: 1,
      calciumSalt: "CaCO3",
      magnesiumSalt: "MgSO4·7H2O",
      carbonateSalt: "KHCO3",
    } as const;
    const both = remineralise({ ...lime, gh: 3, kh: 3 });
    expect(both.salts.map((s) => s.formula)).toEqual(["CaCO3"]);
    expect(() => remineralise({ ...lime, gh: 4, kh: 2 })).toThrow(/4\.00 dKH/);
    expect(() => remineralise({ ...lime, gh: -1, kh: 2 })).toThrow(ChemistryError);
  });
  test("adds to the water it starts from", () => {
    const base = remineralise({
      volume: 10,
      gh: 2,
      kh: 1,
      calciumShare: 0.5,
      calciumSalt: "CaCl2·2H2O",
      magnesiumSalt: "MgSO4·7H2O",
      carbonateSalt: "NaHCO3",
    }).water;
    const again = remineralise({
      volume: 10,
      gh: 2,
      kh: 1,
      calciumShare: 0.5,
      calciumSalt: "CaCl2·2H2O",
      magnesiumSalt: "MgSO4·7H2O",
      carbonateSalt: "NaHCO3",
      base,
    }).water;
    expect(again.alk).toBeCloseTo(2 * base.alk, 12);
    expect(again.totals.cl).toBeCloseTo(2 * base.totals.cl, 12);
  });
});
