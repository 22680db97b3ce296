import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { animals, findAnimal } from "../facts/index.ts";
import { evaluate, RelationError } from "../relation/index.ts";
import { parseUnit } from "../units/index.ts";
import {
  acuteAmmonia2013,
  ammoniaLimits,
  animalLimits,
  animalRespiration,
  chronicAmmonia1999,
  chronicAmmonia2013,
  exchangeToHold,
  excretedShare,
  excretionPulse,
  fishOxygen,
  fishOxygenRecords,
  maintenanceRation,
  massFromLength,
  nitriteLimits,
  nitrogenFromFeed,
  oxygenAfterNight,
  relations,
  shrimpOxygen,
  sources,
  strictestLimits,
  swissLitresPerCentimetre,
  totalAmmoniaAt,
  unionisedShare,
} from "./index.ts";

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const kinds = ["fish", "shrimp", "snail"] as const;

describe("mass", () => {
  test("every species weighs something sensible at full size", () => {
    for (const a of animals) {
      const mass = massFromLength(a.bodyClass, a.adultLength);
      // a water-filled cube of 0.15 and 0.8 of the length bounds slim and round bodies
      const cube = (100 * a.adultLength) ** 3;
      expect(mass, a.name).toBeGreaterThan(0.003 * cube);
      expect(mass, a.name).toBeLessThan(0.5 * cube);
    }
  });

  test("discs, shrimp and snails weigh what keepers' scales say, within a factor of two (from memory)", () => {
    const grams = (name: string) => {
      const a = findAnimal(name)!;
      return massFromLength(a.bodyClass, a.adultLength);
    };
    // grown discus 150 to 200 g, cherry shrimp 0.15 to 0.25 g, ramshorn of 2 cm 1 to 1.5 g, mystery snail of 5 cm 25 to 40 g
    for (const [name, low, high] of [
      ["discus", 150, 200],
      ["cherry shrimp", 0.15, 0.25],
      ["ramshorn snail", 1, 1.5],
      ["mystery snail", 25, 40],
    ] as const) {
      expect(grams(name), name).toBeGreaterThan(low / 2);
      expect(grams(name), name).toBeLessThan(2 * high);
    }
  });

  test("longer is heavier", () => {
    fc.assert(
      fc.property(fc.constantFrom(...animals), real(0.005, 0.5), real(1.01, 2), (a, length, more) => {
        expect(massFromLength(a.bodyClass, length * more)).toBeGreaterThan(massFromLength(a.bodyClass, length));
      }),
    );
  });
});

describe("breathing", () => {
  test("measured routine rates lie within the band of two (FishBase oxygen records, 06/2021)", () => {
    // Xiphophorus hellerii 2 g and Pterophyllum scalare 1.24 g, 25 °C, mg/kg/h
    for (const [mass, measured] of [
      [2, 214],
      [1.24, 305],
    ] as const) {
      const ratio = measured / ((1000 * fishOxygen(mass, 25)) / mass);
      expect(ratio).toBeGreaterThan(0.5);
      expect(ratio).toBeLessThan(2);
    }
    // A goldfish bears lack of oxygen and lies outside: 3.8 g, 103 mg/kg/h
    expect(103 / ((1000 * fishOxygen(3.8, 25)) / 3.8)).toBeLessThan(0.5);
  });

  test("two independent laws for small warm-water fish agree within the band", () => {
    for (const mass of [0.5, 2, 10, 50]) {
      for (const t of [20, 25, 30]) {
        const ratio = fishOxygenRecords(mass, t) / fishOxygen(mass, t);
        expect(ratio).toBeGreaterThan(0.5);
        expect(ratio).toBeLessThan(2);
      }
    }
  });

  test("defined, above nothing and rising with mass, warmth and activity at any size", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...kinds),
        real(0.001, 500),
        real(2, 36),
        real(1, 2),
        real(0, 5),
        (kind, mass, t, more, warmer) => {
          const rate = animalRespiration(kind, mass, t);
          expect(rate).toBeGreaterThan(0);
          expect(animalRespiration(kind, mass, t + warmer)).toBeGreaterThanOrEqual(rate * (1 - 1e-12));
          expect(animalRespiration(kind, mass, t, 1.7)).toBeCloseTo(1.7 * rate, 9);
          // a shrimp's rate per mass falls with mass faster than mass rises only beyond the measured span
          if (kind !== "shrimp") expect(animalRespiration(kind, mass * more, t)).toBeGreaterThanOrEqual(rate);
        },
      ),
    );
    expect(animalRespiration("shrimp", 0.5, 25)).toBeCloseTo(0.5 * shrimpOxygen(0.5, 25), 12);
    expect(animalRespiration("shrimp", 5, 10)).toBeCloseTo(5 * 0.15, 12);
  });
});

describe("feeding", () => {
  test("a neon tetra's measured need is met within the factor of 1.7 (Sales & Janssens 2003, 0.068 kJ/d at 26 °C)", () => {
    const need = 0.068 / 19.66;
    const ratio = need / maintenanceRation(0.1705, 26);
    expect(ratio).toBeGreaterThan(1);
    expect(ratio).toBeLessThan(1.8);
  });

  test("all nitrogen of feed is 1.74 times what is given off within the day", () => {
    expect(nitrogenFromFeed(1, 0.45) / (0.45 * 0.092)).toBeCloseTo(1.74, 2);
  });

  test("the excretion pulse gives off all in the end, peaks 4 to 8 h after the meal and has its mean at 8 h", () => {
    const h = 0.01;
    let sum = 0;
    let moment = 0;
    let peak = 0;
    for (let t = h / 2; t < 200; t += h) {
      sum += excretionPulse(t) * h;
      moment += t * excretionPulse(t) * h;
      if (excretionPulse(t) > excretionPulse(peak)) peak = t;
    }
    expect(sum).toBeCloseTo(1, 6);
    expect(moment).toBeCloseTo(8, 4);
    expect(peak).toBeGreaterThan(4);
    expect(peak).toBeLessThan(8);
    expect(excretedShare(0)).toBe(0);
    let until = 0;
    for (let t = h / 2; t < 12; t += h) until += excretionPulse(t) * h;
    expect(excretedShare(12)).toBeCloseTo(until, 5);
  });
});

describe("night", () => {
  test("the closed form satisfies its own balance and never falls below nothing", () => {
    fc.assert(
      fc.property(
        real(0, 12),
        real(6, 12),
        real(0, 5),
        real(0, 2),
        real(0.1, 16),
        (start, saturation, exchange, demand, hours) => {
          const end = oxygenAfterNight(start, saturation, exchange, demand, hours);
          expect(end).toBeGreaterThanOrEqual(0);
          if (end > 0.01) {
            const h = 1e-4;
            const at = (t: number) => oxygenAfterNight(start, saturation, exchange, demand, t);
            const slope = (at(hours + h) - at(hours - h)) / (2 * h);
            expect(slope).toBeCloseTo(exchange * (saturation - end) - demand, 4);
          }
          expect(oxygenAfterNight(start, saturation, exchange, demand + 0.5, hours)).toBeLessThanOrEqual(end);
        },
      ),
    );
  });

  test("the exchange that holds a level holds it", () => {
    const k = exchangeToHold(0.2, 8.3, 6);
    expect(oxygenAfterNight(6, 8.3, k, 0.2, 1000)).toBeCloseTo(6, 9);
    expect(exchangeToHold(0.2, 8.3, 9)).toBe(Number.POSITIVE_INFINITY);
    expect(oxygenAfterNight(8, 8, 0, 0.1, 10)).toBeCloseTo(7, 12);
  });
});

describe("criteria", () => {
  test("sharper as pH and warmth rise; target below alarm below emergency where it matters", () => {
    fc.assert(
      fc.property(real(6.5, 8.9), real(5, 32), real(0, 0.1), real(0, 3), (ph, t, basic, warm) => {
        expect(chronicAmmonia2013(ph + basic, t + warm)).toBeLessThanOrEqual(chronicAmmonia2013(ph, t) + 1e-12);
        expect(acuteAmmonia2013(ph + basic, t + warm)).toBeLessThanOrEqual(acuteAmmonia2013(ph, t) + 1e-12);
        expect(acuteAmmonia2013(ph, t, true)).toBeLessThanOrEqual(acuteAmmonia2013(ph, t) + 1e-12);
        expect(unionisedShare(ph + basic, t + warm)).toBeGreaterThanOrEqual(unionisedShare(ph, t));
        const limits = ammoniaLimits(ph, t);
        expect(limits.target).toBeLessThan(limits.alarm);
        expect(limits.alarm).toBeLessThan(limits.emergency);
        expect(totalAmmoniaAt(0.02, ph, t) * unionisedShare(ph, t)).toBeCloseTo(0.02, 12);
        // the set without mussels is the looser one
        expect(chronicAmmonia1999(ph, t)).toBeGreaterThan(chronicAmmonia2013(ph, t));
      }),
    );
  });

  test("chloride eases nitrite, four times at most, and never sharpens it", () => {
    expect(nitriteLimits(0).alarm).toBe(0.3);
    expect(nitriteLimits(20)).toEqual({ target: 0.05, caution: 0.1, alarm: 0.3, emergency: 1 });
    expect(nitriteLimits(1e5).emergency).toBe(4);
    expect(nitriteLimits(40).emergency).toBeCloseTo(2 ** 0.665, 12);
  });

  test("litres per centimetre step up with length", () => {
    expect([5, 5.1, 10, 15, 20, 30, 40, 41].map(swissLitresPerCentimetre)).toEqual([
      0.5, 0.75, 0.75, 1, 1.25, 1.75, 2.25, 3,
    ]);
    const swiss = relations.find((r) => r.id === "swiss-minimum")!;
    expect(() => evaluate(swiss, { lengths: [3, 4], counts: [10] })).toThrow(RelationError);
  });
});

describe("limits of a species", () => {
  test.each(animals.map((a) => [a.name, a] as const))("%s", (_, a) => {
    const l = animalLimits(a);
    expect(l.co2Caution).toBeLessThan(l.co2Stop);
    expect(l.oxygenStop).toBeLessThan(l.oxygenMin);
    expect([l.phMin, l.phMax, l.temperatureMin, l.temperatureMax]).toEqual([
      a.phMin,
      a.phMax,
      a.temperatureMin,
      a.temperatureMax,
    ]);
    for (const key of l.sources) expect(Object.keys(sources)).toContain(key);
    if (a.kind === "fish") expect(l.co2Stop).toBe(40);
    else expect(l.co2Stop).toBe(35);
  });

  test("a tank takes the strictest of each", () => {
    const tetra = findAnimal("neon tetra")!;
    const shrimp = findAnimal("cherry shrimp")!;
    const both = strictestLimits([tetra, shrimp])!;
    expect(both.co2Caution).toBe(25);
    expect(both.phMin).toBe(Math.max(tetra.phMin, shrimp.phMin));
    expect(both.temperatureMax).toBe(Math.min(tetra.temperatureMax, shrimp.temperatureMax));
    expect(strictestLimits([])).toBeNull();
  });
});

describe("relations", () => {
  test("every unit can be read", () => {
    for (const r of relations) {
      for (const { unit } of [...Object.values(r.inputs), ...Object.values(r.outputs)].filter((x) => "unit" in x)) {
        expect(() => parseUnit(unit), `${r.id}: ${unit}`).not.toThrow();
      }
    }
  });

  test("ids are unique, names are plain, sources exist", () => {
    expect(new Set(relations.map((r) => r.id)).size).toBe(relations.length);
    for (const r of relations) {
      expect(r.room).toBe("animals");
      for (const name of [...Object.keys(r.inputs), ...Object.keys(r.outputs)]) {
        expect(name).toMatch(/^[a-z0-9]+(_[a-z0-9]+)*$/);
      }
      for (const key of r.sources) expect(Object.keys(sources), `${r.id}: ${key}`).toContain(key);
    }
  });

  test.each(relations.map((r) => [r.id, r] as const))(
    "%s gives every output as a number at ordinary inputs",
    (_, r) => {
      const inputs: Record<string, number | string | number[]> = {};
      for (const [name, spec] of Object.entries(r.inputs)) {
        if (spec.kind === "choice") inputs[name] = spec.default ?? spec.options[0]!;
        else if (spec.kind === "series") inputs[name] = [4, 8];
        else inputs[name] = spec.default ?? Math.sqrt(Math.max(spec.min, 1e-3) * Math.max(spec.max, 1e-3));
      }
      const out = evaluate(r, inputs);
      expect(Object.keys(out).sort()).toEqual(Object.keys(r.outputs).sort());
      for (const [name, value] of Object.entries(out)) expect(value, name).not.toBeNaN();
    },
  );
});
