import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  animals,
  findAnimal,
  findMaterial,
  findPlant,
  findStone,
  findSubstrate,
  findWood,
  materials,
  nearest,
  plants,
  sources,
  stones,
  substrates,
  woods,
} from "./index.ts";
import { lettersApart } from "./words.ts";

const count = <T>(items: readonly T[], key: (item: T) => string) => {
  const counts: Record<string, number> = {};
  for (const item of items) counts[key(item)] = (counts[key(item)] ?? 0) + 1;
  return counts;
};

describe("plants", () => {
  test("99 species in the counts of the table they were taken from", () => {
    expect(plants).toHaveLength(99);
    expect(count(plants, (p) => p.form)).toEqual({
      stem: 39,
      rosette: 15,
      carpet: 11,
      runner: 8,
      moss: 8,
      bulb: 7,
      rhizome: 6,
      floating: 5,
    });
    expect(count(plants, (p) => p.bicarbonate)).toEqual({ yes: 6, no: 11, unknown: 82 });
    expect(new Set(plants.map((p) => p.id)).size).toBe(99);
  });

  test.each(plants.map((p) => [p.name, p] as const))("%s is in order", (_, p) => {
    expect(p.temperatureMin).toBeLessThan(p.temperatureOpt);
    expect(p.temperatureOpt).toBeLessThan(p.temperatureMax);
    expect(p.ppfdMin).toBeGreaterThan(0);
    expect(p.ppfdMin).toBeLessThan(p.ppfdGood);
    expect(p.heightMin).toBeLessThanOrEqual(p.heightMax);
    expect(p.heightMax).toBeLessThanOrEqual(1.2);
    expect(p.spread).toBeGreaterThan(0);
    expect(p.spread).toBeLessThan(0.5);
    expect(p.phMin).toBeLessThan(p.phMax);
    expect(p.rgrMax).toBeGreaterThan(0.005);
    expect(p.rgrMax).toBeLessThan(0.45);
    expect(p.density).toBeGreaterThan(0);
    expect(p.form === "floating").toBe(p.zone === "floating");
    expect(p.id).toMatch(/^[a-z]+-[a-z]+$/);
  });

  test("growth classes keep to their published span, save measured and floating plants", () => {
    const spans = { slow: [0.008, 0.025], medium: [0.03, 0.06], fast: [0.07, 0.09] } as const;
    for (const p of plants) {
      if (p.form === "floating" || p.how === "read") continue;
      expect(p.rgrMax, p.name).toBeGreaterThanOrEqual(spans[p.growth][0]);
      expect(p.rgrMax, p.name).toBeLessThanOrEqual(spans[p.growth][1]);
    }
  });

  test("no moss or liverwort uses bicarbonate (Bain & Proctor 1980)", () => {
    for (const p of plants) if (p.form === "moss") expect(p.bicarbonate, p.name).toBe("no");
  });
});

describe("animals", () => {
  test("86 species", () => {
    expect(animals).toHaveLength(86);
    expect(count(animals, (a) => a.kind)).toEqual({ fish: 73, shrimp: 6, snail: 7 });
    expect(new Set(animals.map((a) => a.id)).size).toBe(86);
  });

  test.each(animals.map((a) => [a.name, a] as const))("%s is in order", (_, a) => {
    expect(a.temperatureMax - a.temperatureMin).toBeGreaterThanOrEqual(3);
    expect(a.phMax - a.phMin).toBeGreaterThanOrEqual(0.5);
    expect(a.ghMax).toBeGreaterThan(a.ghMin);
    expect(a.adultLength).toBeGreaterThanOrEqual(0.01);
    expect(a.adultLength).toBeLessThan(0.5);
    const halfCentimetres = a.adultLength * 200;
    expect(Math.abs(halfCentimetres - Math.round(halfCentimetres))).toBeLessThan(1e-9);
    expect(a.minTankLength).toBeGreaterThan(3 * a.adultLength);
    expect(a.minTankL).toBeGreaterThanOrEqual(10);
    expect(a.groupMin).toBeGreaterThanOrEqual(1);
  });
});

describe("materials", () => {
  test("porosity follows from bulk and solid density", () => {
    for (const s of substrates) {
      expect(Math.abs(1 - s.bulkDensity.value / s.solidDensity.value - s.porosity.value), s.id).toBeLessThan(0.015);
      expect(s.grainDensity.value, s.id).toBeLessThanOrEqual(s.solidDensity.value);
      expect(s.bulkDensity.value, s.id).toBeLessThan(s.grainDensity.value);
    }
  });

  test("design slopes keep a factor of 1.4 against sliding", () => {
    const tan = (deg: number) => Math.tan((deg * Math.PI) / 180);
    for (const s of substrates) {
      const factor = tan(s.reposeAngle) / tan(s.designSlope);
      expect(factor, s.id).toBeGreaterThan(1.37);
      expect(factor, s.id).toBeLessThan(1.46);
    }
  });

  test("spreads run upward and hold the usual value", () => {
    const spreads = [
      ...substrates.flatMap((s) => [s.solidDensity, s.grainDensity, s.bulkDensity, s.porosity]),
      ...stones.map((s) => s.density),
      ...woods.map((w) => w.basicGravity),
    ];
    for (const s of spreads) expect(s.min < s.value && s.value < s.max).toBe(true);
  });

  test("limestone, marble and dolomite give off hardness, granite and slate do not", () => {
    const lime = (id: string) => findMaterial(id)?.carbonate;
    expect(["limestone", "marble", "dolomite", "coral sand"].map(lime)).toEqual(["yes", "yes", "yes", "yes"]);
    expect(["granite", "slate", "quartz sand", "lava"].map(lime)).toEqual(["no", "no", "no", "no"]);
  });

  test("every source named stands in the bibliography", () => {
    for (const m of materials) for (const key of m.sources) expect(Object.keys(sources)).toContain(key);
    expect(new Set(materials.map((m) => m.id)).size).toBe(materials.length);
  });
});

describe("finding", () => {
  test("by name, id, old name, common name, however typed", () => {
    expect(findPlant("  ROTALA   rotundifolia ")?.id).toBe("rotala-rotundifolia");
    expect(findPlant("rotala-rotundifolia")?.name).toBe("Rotala rotundifolia");
    expect(findPlant("Microsorum pteropus")?.name).toBe("Leptochilus pteropus");
    expect(findAnimal("Chili Rasbora")?.name).toBe("Boraras brigittae");
    expect(findAnimal("Norman’s lampeye")?.name).toBe("Poropanchax normani");
    // The pearl gourami once bore a genus name that two other species still bear.
    expect(findAnimal("Trichogaster leerii")?.name).toBe("Trichopodus leerii");
    expect(findMaterial("Baked-Soil")?.kind).toBe("substrate");
    expect(findMaterial("lava")?.kind).toBe("stone");
    expect(findMaterial("lava grit")?.kind).toBe("substrate");
    expect(findPlant("toString")).toBeUndefined();
    expect(findPlant("")).toBeUndefined();
  });

  test("suggests what was meant", () => {
    expect(nearest("Rotala rotundifola")[0]).toBe("Rotala rotundifolia");
    expect(nearest("valisneria nana", ["plant"])[0]).toBe("Vallisneria nana");
    expect(nearest("nean tetra", ["animal"])).toContain("neon tetra");
    expect(nearest("granit", ["stone"])).toEqual(["granite"]);
    expect(nearest("bucephalandra", ["plant"])).toHaveLength(2);
    expect(nearest("xyzzyplugh qwrt")).toEqual([]);
    expect(nearest("   ")).toEqual([]);
  });

  test("every name finds itself in any case and spacing, and is its own nearest", () => {
    fc.assert(
      fc.property(fc.constantFrom(...plants), fc.boolean(), fc.constantFrom(" ", "  ", "-", "_"), (plant, up, gap) => {
        const typed = plant.name.replace(" ", gap);
        expect(findPlant(up ? typed.toUpperCase() : typed)).toBe(plant);
        expect(nearest(typed, ["plant"])[0]).toBe(plant.name);
      }),
    );
    for (const a of animals) {
      expect(findAnimal(a.id)).toBe(a);
      expect(findAnimal(a.common)).toBe(a);
    }
    for (const m of materials) expect(findMaterial(m.id)).toBe(m);
    for (const s of substrates) expect(findSubstrate(s.id)).toBe(s);
    for (const s of stones) expect(findStone(s.id)).toBe(s);
    for (const w of woods) expect(findWood(w.id)).toBe(w);
    expect(findStone("oak")).toBeUndefined();
  });

  test("letters apart is a distance", () => {
    const word = fc.string({ maxLength: 8 });
    fc.assert(
      fc.property(word, word, (a, b) => {
        expect(lettersApart(a, b)).toBe(lettersApart(b, a));
        expect(lettersApart(a, a)).toBe(0);
        expect(lettersApart(a, b)).toBeGreaterThanOrEqual(Math.abs(a.length - b.length));
        expect(lettersApart(a, b)).toBeLessThanOrEqual(Math.max(a.length, b.length));
      }),
    );
    expect(lettersApart("kitten", "sitting")).toBe(3);
    expect(lettersApart("abcd", "abdc")).toBe(1);
  });
});
