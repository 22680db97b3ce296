import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { compensateConductivity, conductivity, conductivityAt25 } from "./conductivity.ts";
import { conductivityOfPpm, dissolvedSolids, ionicStrengthFromConductivity, meterPpm } from "./dissolved-solids.ts";
import { speciate } from "./speciate.ts";
import { waterTotals } from "./species.ts";

const medtap = waterTotals({ ca: 1.5e-3, mg: 4e-4, na: 8e-4, k: 8e-5, cl: 4.8e-4, so4: 6e-4, no3: 2e-4 });
const softened = waterTotals({ ca: 5e-5, mg: 2e-5, na: 6e-3, k: 1e-4, cl: 4.4e-4, so4: 5e-4, no3: 3e-4 });

describe("conductivity", () => {
  test("grows with every ion and with temperature", () => {
    fc.assert(
      fc.property(
        fc.constantFrom("ca", "mg", "na", "k", "cl", "so4", "no3", "nh4"),
        fc.double({ min: 5, max: 35, noNaN: true }),
        (ion, t) => {
          const here = conductivity(speciate(medtap, t, { dic: 3e-3, alk: 2.8e-3 }));
          const more = speciate({ ...medtap, [ion]: medtap[ion as "ca"] + 1e-4 }, t, { dic: 3e-3, alk: 2.8e-3 });
          expect(conductivity(more)).toBeGreaterThan(here);
          expect(conductivity(speciate(medtap, t + 1, { dic: 3e-3, alk: 2.8e-3 }))).toBeGreaterThan(here);
        },
      ),
      { numRuns: 60 },
    );
  });
  test("changes by 0.018 to 0.0225 per kelvin, so that the usual factor is near", () => {
    for (const t of [10, 20, 30]) {
      const s = speciate(medtap, t, { dic: 3e-3, alk: 2.8e-3 });
      const at25 = conductivityAt25(s);
      const factor = (conductivity(s) / at25 - 1) / (t - 25);
      expect(factor).toBeGreaterThan(0.018);
      expect(factor).toBeLessThan(0.0225);
      expect(Math.abs(compensateConductivity(conductivity(s), t) / at25 - 1)).toBeLessThan(0.03);
    }
  });
  test("the second form stays within 2 to 4 % in ordinary waters", () => {
    for (const w of [medtap, softened]) {
      const s = speciate(w, 25, { ph: 7.5, alk: 2.8e-3 });
      expect(Math.abs(conductivity(s, "mcc-2012") / conductivity(s) - 1)).toBeLessThan(0.04);
    }
  });
});

describe("dissolved solids", () => {
  test("ions are 0.51 to 0.92 of the conductivity, residue 0.47 to 0.68", () => {
    for (const [w, alk] of [
      [medtap, 2.8e-3],
      [softened, 4.5e-3],
    ] as const) {
      const s = speciate(w, 25, { ph: 7.6, alk });
      const { ions, residue } = dissolvedSolids(s);
      const ec = conductivityAt25(s);
      expect(ions / ec).toBeGreaterThan(0.51);
      expect(ions / ec).toBeLessThan(0.92);
      expect(residue / ec).toBeGreaterThan(0.47);
      expect(residue / ec).toBeLessThan(0.68);
    }
  });
  test("a guess of ionic strength from conductivity is within 15 %", () => {
    const hard = speciate(medtap, 25, { ph: 7.6, alk: 2.8e-3 });
    expect(Math.abs(ionicStrengthFromConductivity(conductivity(hard), 0.8) / hard.ionicStrength - 1)).toBeLessThan(
      0.15,
    );
    const soft = speciate(softened, 25, { ph: 7.6, alk: 4.5e-3 });
    expect(Math.abs(ionicStrengthFromConductivity(conductivity(soft), 0) / soft.ionicStrength - 1)).toBeLessThan(0.15);
  });
  test("a ppm reading leads back to its conductivity", () => {
    for (const scale of ["500", "640", "700"] as const)
      expect(conductivityOfPpm(meterPpm(432, scale), scale)).toBeCloseTo(432, 9);
  });
});
