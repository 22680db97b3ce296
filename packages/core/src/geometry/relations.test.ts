import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { evaluate, RelationError } from "../relation/index.ts";
import { parseUnit } from "../units/index.ts";
import { accumulationAt, accumulationLimit, afterChanges, afterDrip, changesFor } from "./dilution.ts";
import { submergedWeight, woodSinking } from "./hardscape.ts";
import { stoneMaterials, substrateMaterials } from "./materials.ts";
import { relations } from "./relations.ts";
import { sources } from "./sources.ts";
import { bagsNeeded, designSlope, porosityOf, slopeFactor } from "./substrate.ts";

const byId = (id: string) => {
  const found = relations.find((r) => r.id === id);
  if (!found) throw new Error(`no relation ${id}`);
  return found;
};

describe("descriptors", () => {
  test("ids are unique and well formed", () => {
    const ids = relations.map((r) => r.id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids) expect(id).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
  });

  test("every unit is one that the units room reads", () => {
    for (const r of relations) {
      for (const part of [...Object.values(r.inputs), ...Object.values(r.outputs)]) {
        if ("unit" in part) expect(() => parseUnit(part.unit), `${r.id}: ${part.unit}`).not.toThrow();
      }
    }
    expect(() => parseUnit("furlongs per fortnight")).toThrow();
  });

  test.each(relations.map((r) => [r.id, r] as const))("%s cites sources that exist and names its room", (_, r) => {
    expect(r.room).toBe("geometry");
    expect(r.sources.length).toBeGreaterThan(0);
    for (const key of r.sources) expect(Object.keys(sources)).toContain(key);
    for (const name of [...Object.keys(r.inputs), ...Object.keys(r.outputs)])
      expect(name).toMatch(/^[a-z0-9]+(_[a-z0-9]+)*$/);
  });

  test("weights send the reader to an engineer", () => {
    for (const id of ["tank-weight", "glass-mass", "water-level"]) expect(byId(id).caution).toMatch(/engineer/);
  });
});

describe("faults", () => {
  const box = { length: 60, width: 30, height: 36, glass: 5 };

  test("a water line below the floor, and a bed too large, are refused by name", () => {
    expect(() => evaluate(byId("tank-volume"), { ...box, below_rim: 40 })).toThrow(/below_rim/);
    expect(() => evaluate(byId("net-water"), { ...box, substrate: 200 })).toThrow(/substrate/);
    expect(() => evaluate(byId("substrate-porosity"), { bulk_density: 2700, grain_density: 2650 })).toThrow(
      RelationError,
    );
    expect(() => evaluate(byId("substrate-density-by-bucket"), { mass: 1, bulk_volume: 1, displaced: 2 })).toThrow(
      /displaced/,
    );
  });
});

describe("agreement between relations", () => {
  test("net water and tank weight tell the same water", () => {
    const scape = { length: 90, width: 45, height: 45, glass: 8, substrate: 30, stone: 15, wood: 2 };
    const net = evaluate(byId("net-water"), scape).net as number;
    const weight = evaluate(byId("tank-weight"), scape);
    expect(weight.net_water).toBeCloseTo(net, 9);
    expect(weight.water).toBeCloseTo(net * 0.99705, 6);
  });

  test("the filter's water counts for the dose, and pouring the net water gives the line back", () => {
    const scape = { length: 90, width: 45, height: 45, glass: 8, substrate: 30, stone: 15, wood: 2, below_rim: 4 };
    const result = evaluate(byId("net-water"), { ...scape, filter: 6 });
    expect(result.dosing_volume).toBeCloseTo((result.net as number) + 6, 9);
    const level = evaluate(byId("water-level"), { ...scape, poured: result.net as number });
    expect(level.below_edge).toBeCloseTo(4, 6);
  });
});

describe("water changes", () => {
  const share = fc.double({ min: 0.05, max: 0.95, noNaN: true });

  test("accumulation step by step meets its closed form and its limit", () => {
    fc.assert(
      fc.property(
        share,
        fc.double({ min: 0, max: 20, noNaN: true }),
        fc.double({ min: 0, max: 50, noNaN: true }),
        (f, gain, incoming) => {
          let c = 3;
          for (let n = 1; n <= 30; n++) {
            const before = c + gain;
            c = incoming + (before - incoming) * (1 - f);
            const closed = accumulationAt(3, gain, f, incoming, n);
            expect(closed.before).toBeCloseTo(before, 8);
            expect(closed.after).toBeCloseTo(c, 8);
          }
          const limit = accumulationLimit(gain, f, incoming);
          expect(accumulationAt(3, gain, f, incoming, 2000).before).toBeCloseTo(limit.before, 6);
          expect(limit.before - limit.after).toBeCloseTo(gain, 9);
        },
      ),
    );
  });

  test("many small changes come near a drip of the same water", () => {
    expect(afterChanges(100, 0, 0.001, 1000)).toBeCloseTo(afterDrip(100, 0, 1), 1);
  });

  test("a change count inverts what is left", () => {
    fc.assert(
      fc.property(share, share, (f, removal) => {
        expect(afterChanges(1, 0, f, changesFor(f, removal))).toBeCloseTo(1 - removal, 9);
      }),
    );
  });
});

describe("substrate, stone and wood", () => {
  test("bags are whole, enough, and not one too many", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 0.3, noNaN: true }),
        fc.double({ min: 1, max: 30, noNaN: true }),
        (volume, litres) => {
          const bags = bagsNeeded(volume, { litres }, 1500, 0.1);
          expect(Number.isInteger(bags)).toBe(true);
          expect(bags * litres).toBeGreaterThanOrEqual(volume * 1100 - 1e-6);
          expect((bags - 1) * litres).toBeLessThan(volume * 1100);
        },
      ),
    );
    expect(bagsNeeded(0.04, { litres: 10 }, 1500)).toBe(4);
    expect(bagsNeeded(0.04, { kilograms: 15 }, 1500)).toBe(4);
  });

  test("the design slope has just the factor asked for", () => {
    expect(slopeFactor(30, designSlope(30))).toBeCloseTo(1.4, 9);
    expect(slopeFactor(34, 34)).toBeCloseTo(1, 12);
  });

  test("every fully soaked wood sinks, and its parts agree", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 1.5, noNaN: true }), (basic) => {
        const wood = woodSinking(basic);
        expect(wood.soaked).toBeGreaterThan(1);
        // Dry mass and the most water it can hold make the soaked density.
        expect(basic * (1 + wood.maximumMoisture / 100)).toBeCloseTo(wood.soaked, 9);
        expect(wood.sinksAbove).toBeLessThan(wood.maximumMoisture);
      }),
    );
  });

  test("a solid as dense as water weighs nothing in it", () => {
    expect(submergedWeight(5, 997.05)).toBe(0);
    expect(submergedWeight(5, 800)).toBeLessThan(0);
  });

  test("ranges of materials are in order, cite sources, and their pores agree with their densities where simple", () => {
    for (const m of [...substrateMaterials.map((s) => s.bulkDensity), ...stoneMaterials.map((s) => s.density)]) {
      expect(m[0]).toBeLessThanOrEqual(m[1]);
    }
    for (const m of [...substrateMaterials, ...stoneMaterials]) expect(Object.keys(sources)).toContain(m.source);
    const quartz = substrateMaterials[0];
    if (!quartz?.porosity) throw new Error("quartz has a porosity");
    expect(porosityOf(quartz.bulkDensity[1], quartz.grainDensity[0])).toBeCloseTo(quartz.porosity[0], 1);
    expect(porosityOf(quartz.bulkDensity[0], quartz.grainDensity[0])).toBeCloseTo(quartz.porosity[1], 1);
  });
});
