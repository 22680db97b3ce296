import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ChemistryError } from "./chemistry-error.ts";
import { readReport, reportLines, reportNotations, type WaterReport } from "./water-report.ts";

const codes = (r: WaterReport) => readReport(r).remarks.map((x) => x.code);

/** A tap of middling hardness, mg/L, charges balanced to 1 %. */
const tap: WaterReport = {
  calcium: { value: 60.1, as: "mg/L" },
  magnesium: { value: 9.72, as: "mg/L" },
  sodium: { value: 18.4, as: "mg/L" },
  potassium: { value: 3.1, as: "mg/L" },
  chloride: { value: 17, as: "mg/L" },
  sulfate: { value: 57.6, as: "mg/L" },
  nitrate: { value: 12.4, as: "mg/L" },
  alkalinity: { value: 2.8, as: "meq/L" },
  ph: 7.6,
  temperature: 12,
};

describe("a town's report in several notations (keeper's report, public list archive)", () => {
  const town: WaterReport = {
    calcium: { value: 8.85, as: "mg/L" },
    magnesium: { value: 2.09, as: "mg/L" },
    hardness: { value: 31, as: "mg/L CaCO3" },
    alkalinity: { value: 11.1, as: "mg/L CaCO3" },
    nitrate: { value: 0.078, as: "mg/L N" },
    chloride: { value: 3.31, as: "mg/L" },
    organicCarbon: 3.2,
    ph: 6.86,
  };
  const read = readReport(town);

  test("hardness 31 as CaCO3 is the sum of calcium and magnesium as CaCO3, to 2 %", () => {
    const { calcium = 0, magnesium = 0 } = read.mmol;
    expect(calcium * 100.086).toBeCloseTo(22.1, 1);
    expect(magnesium * 100.086).toBeCloseTo(8.61, 1);
    expect(read.hardnessAsCaCO3).toBeCloseTo(30.71, 1);
    expect(Math.abs(read.gh! / 1.74 - 1)).toBeLessThan(0.02);
    expect(read.remarks.map((r) => r.code)).not.toContain("hardness-mismatch");
  });
  test("0.62 dKH, 0.345 mg/L of nitrate, about 2.6 mg/L of CO2 by the trade's rule", () => {
    expect(read.kh).toBeCloseTo(0.62, 2);
    expect(read.mmol.nitrate! * 62.004).toBeCloseTo(0.345, 3);
    expect(read.co2Trade).toBeCloseTo(2.6, 1);
    expect(read.co2!).toBeGreaterThan(read.co2Trade!);
  });
  test("remarks the very low buffer and the weak estimate with organic carbon", () => {
    const found = read.remarks.map((r) => r.code);
    expect(found).toContain("very-low-buffer");
    expect(found).toContain("organic-acids");
    expect(read.remarks.find((r) => r.code === "very-low-buffer")?.text).toContain("0.62 dKH");
  });
});

describe("notations", () => {
  test("one water, written in every way, is one water", () => {
    const hardness = (value: number, as: string) => readReport({ hardness: { value, as } }).mmol.hardness!;
    for (const [value, as] of [
      [1, "mmol/L"],
      [2, "meq/L"],
      [100.086, "mg/L CaCO3"],
      [56.077, "mg/L CaO"],
      [5.6077, "German degree"],
      [5.6077, "°dH"],
      [5.6077, "dGH"],
      [10.0086, "French degree"],
      [10.0086, "°fH"],
      [7.02172, "English degree"],
      [5.84679, "grain/US gal"],
      [100.086, "mg/L as CaCO3"],
      [40.078, "mg/L Ca"],
    ] as const) {
      expect(hardness(value, as)).toBeCloseTo(1, 4);
    }
    const alkalinity = (value: number, as: string) => readReport({ alkalinity: { value, as } }).mmol.alkalinity!;
    for (const [value, as] of [
      [2, "meq/L"],
      [2, "mmol/L"],
      [100.086, "mg/L CaCO3"],
      [122.034, "mg/L HCO3"],
      [5.6077, "German degree"],
    ] as const) {
      expect(alkalinity(value, as)).toBeCloseTo(2, 4);
    }
    const nitrate = (value: number, as: string) => readReport({ nitrate: { value, as } }).mmol.nitrate!;
    expect(nitrate(14.007, "mg/L N")).toBeCloseTo(1, 6);
    expect(nitrate(62.004, "mg/L NO3")).toBeCloseTo(1, 6);
    expect(nitrate(62.004, "mg/L")).toBeCloseTo(1, 6);
    const other = (line: "calcium" | "magnesium" | "phosphate" | "sulfate" | "ammonium", value: number, as: string) =>
      readReport({ [line]: { value, as } }).mmol[line]!;
    expect(other("calcium", 100.086, "mg/L CaCO3")).toBeCloseTo(1, 6);
    expect(other("magnesium", 40.304, "mg/L MgO")).toBeCloseTo(1, 6);
    expect(other("phosphate", 30.974, "mg/L P")).toBeCloseTo(1, 6);
    expect(other("phosphate", 70.9715, "mg/L P2O5")).toBeCloseTo(1, 5);
    expect(other("sulfate", 32.06, "mg/L S")).toBeCloseTo(1, 6);
    expect(other("ammonium", 14.007, "mg/L N")).toBeCloseTo(1, 6);
  });

  test("every notation of every line is read, an unknown one refused with what is allowed", () => {
    for (const line of reportLines) {
      for (const as of reportNotations[line]!) {
        expect(readReport({ [line]: { value: 1, as } }).mmol[line]).toBeGreaterThan(0);
      }
    }
    expect(() => readReport({ calcium: { value: 1, as: "oz" } })).toThrow(/mg\/L CaCO3/);
    expect(() => readReport({ calcium: { value: -1, as: "mg/L" } })).toThrow(ChemistryError);
    expect(() => readReport({ nitrate: { value: Number.NaN, as: "mg/L" } })).toThrow(ChemistryError);
  });
});

describe("remarks", () => {
  test("a balanced report draws none", () => {
    const read = readReport(tap);
    expect(Math.abs(read.charges!.error)).toBeLessThan(5);
    expect(read.remarks).toEqual([]);
    expect(read.gh).toBeCloseTo(10.65, 1);
    expect(read.kh).toBeCloseTo(7.85, 1);
    expect(read.conductivity!).toBeGreaterThan(400);
  });
  test("a unit mistaken breaks the charge balance", () => {
    expect(codes({ ...tap, calcium: { value: 60.1, as: "mg/L CaCO3" } })).toContain("charge-balance");
  });
  test("hardness that its ions do not make", () => {
    expect(codes({ ...tap, hardness: { value: 14, as: "German degree" } })).toContain("hardness-mismatch");
    expect(codes({ hardness: { value: 14, as: "German degree" } })).toContain("hardness-split-unknown");
  });
  test("softened water, small buffer, much nitrate, open balance, odd conductivity, nothing on alkalinity", () => {
    const softened = { ...tap, calcium: { value: 2, as: "mg/L" }, magnesium: { value: 0.5, as: "mg/L" } };
    expect(codes(softened)).toContain("alkalinity-above-hardness");
    expect(codes({ ...tap, alkalinity: { value: 2, as: "German degree" } })).toContain("low-buffer");
    expect(codes({ ...tap, nitrate: { value: 13, as: "mg/L N" } })).toContain("high-nitrate");
    const { sodium: _, ...open } = tap;
    expect(codes(open)).toContain("balance-open");
    expect(codes({ ...tap, conductivity: 900 })).toContain("conductivity-mismatch");
    const { alkalinity: __, ...bare } = tap;
    expect(codes(bare)).toContain("no-alkalinity");
    expect(codes({ ...tap, ph: 11.5, alkalinity: { value: 0.1, as: "meq/L" } })).toContain("no-carbonate-answer");
  });
  test("any report of numbers is read without failing", () => {
    const figure = (max: number) => fc.option(fc.double({ min: 0, max, noNaN: true }), { nil: undefined });
    fc.assert(
      fc.property(
        fc.record({
          ca: figure(300),
          mg: figure(100),
          alk: figure(500),
          na: figure(300),
          cl: figure(500),
          so4: figure(500),
        }),
        fc.option(fc.double({ min: 4, max: 10, noNaN: true }), { nil: undefined }),
        (f, ph) => {
          const lines = {
            calcium: f.ca,
            magnesium: f.mg,
            sodium: f.na,
            chloride: f.cl,
            sulfate: f.so4,
            alkalinity: f.alk,
          };
          const report = Object.fromEntries(
            Object.entries(lines)
              .filter(([, v]) => v !== undefined)
              .map(([k, v]) => [k, { value: v, as: k === "alkalinity" ? "mg/L CaCO3" : "mg/L" }]),
          ) as WaterReport;
          const read = readReport(ph === undefined ? report : { ...report, ph });
          expect(read.remarks.every((r) => r.text.length > 10)).toBe(true);
        },
      ),
      { numRuns: 200 },
    );
  });
});
