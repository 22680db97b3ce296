import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { findPlant, findStone, findSubstrate } from "../../facts/index.ts";
import {
  boxSizes,
  cellOverlaps,
  cellsNearLines,
  fieldHeight,
  fieldRange,
  fieldVolume,
  type HeightField,
  outlineContains,
  selfCrossing,
  steepestPlace,
} from "../../geometry/index.ts";
import {
  applyToRaw,
  bedTops,
  boxOf,
  invert,
  type Json,
  onFloor,
  type Plan,
  pieceStanding,
  type RawPlan,
  resolvePlan,
  sameJson,
  tankVolumes,
} from "../../plan/index.ts";
import { floatingGap, meshBounds, overlapVolume } from "../../solids/index.ts";
import { type FormName, formChanges, forms, layForm } from "./index.ts";

const names = forms.map(({ name }) => name);

function resolved(raw: RawPlan): Plan {
  const made = resolvePlan(raw);
  if (!made.ok) throw new Error(JSON.stringify(made.faults));
  return made.plan;
}

const tank = (length: number, width: number, height: number, more: RawPlan = {}): RawPlan => ({
  lentic: 1,
  name: "test",
  tank: { length: `${length} mm`, width: `${width} mm`, height: `${height} mm` },
  ...more,
});

interface Laid {
  readonly before: RawPlan;
  readonly plan: Plan;
  readonly length: number;
  readonly width: number;
  readonly depth: number;
  readonly ground: HeightField;
}

const laidOut = new Map<string, Laid>();

/** One form laid in a tank; kept, as several checks look at the same. */
function lay(before: RawPlan, form: FormName, seed: number): Laid {
  const key = JSON.stringify([before, form, seed]);
  const laid = laidOut.get(key) ?? layNow(before, form, seed);
  laidOut.set(key, laid);
  return laid;
}

function layNow(before: RawPlan, form: FormName, seed: number): Laid {
  const changes = formChanges(before, { plan: resolved(before), form, seed });
  const plan = resolved(applyToRaw(before, changes));
  const { length, width, waterDepth: depth } = boxSizes(boxOf(plan));
  return { before, plan, length, width, depth, ground: bedTops(plan).at(-1)! };
}

const side = fc.oneof(
  fc.integer({ min: 150, max: 3000 }),
  fc.integer({ min: 150, max: 600 }),
  fc.constantFrom(150, 200, 305, 381, 600, 762, 900, 1200, 3000),
);

/** Tanks of any shape, with and without lamp, gas, heater; from cool rooms to warm water, soft to hard. */
const tanks: fc.Arbitrary<RawPlan> = fc
  .record({
    sides: fc.tuple(side, side, side),
    light: fc.constantFrom<RawPlan>(
      {},
      { light: {} },
      { light: { lumens: "2000 lm" } },
      { light: { ppfd: "150 umol/m2/s" } },
    ),
    gas: fc.constantFrom<RawPlan>({}, { co2: {} }),
    warmth: fc.constantFrom<RawPlan>(
      {},
      { heater: {} },
      { heater: { set: "28 °C" } },
      { room: { day: "18 °C", night: "16 °C" } },
    ),
    water: fc.constantFrom<RawPlan>({}, { water: { gh: "14 dGH" } }),
  })
  .map(({ sides, light, gas, warmth, water }) => tank(...sides, { ...light, ...gas, ...warmth, ...water }));

const anySeed = fc.integer({ min: 0, max: 0x7fffffff });
/** Other tanks at every run, but the same for every check of it. */
const runs = { numRuns: 16, seed: Date.now() % 0x7fffffff, endOnFailure: true };

/** One check over all forms in many tanks. */
const everywhere = (says: string, check: (laid: Laid, form: FormName, seed: number) => void): void => {
  test.each(names)(`%s: ${says}`, (form) => {
    fc.assert(
      fc.property(tanks, anySeed, (before, seed) => check(lay(before, form, seed), form, seed)),
      runs,
    );
  });
};

const shapes = (laid: Laid) => laid.plan.hardscape.map((piece) => pieceStanding(piece, laid.ground).mesh);

describe("in any tank", () => {
  everywhere("resolves, with a bed, pieces and plants, and leaves the water most of the tank", (laid) => {
    const { plan, length, width, depth, ground } = laid;
    expect(plan.substrate.length).toBeGreaterThan(0);
    expect(plan.hardscape.filter((p) => p.kind === "stone").length % 2).toBe(1);
    const open = length * width * depth;
    // stricter than the net water, which counts that in the pores too
    const solid = plan.hardscape.reduce((sum, p) => sum + p.mass.value / 1000, 0);
    expect((open - fieldVolume(ground) - solid / 2.2) / open).toBeGreaterThan(0.6);
    expect(tankVolumes(plan).net / open).toBeGreaterThan(0.7);
  });

  everywhere("the bed holds everywhere with its margin, but for steps that something holds", (laid) => {
    const { plan, length, width, ground } = laid;
    // a limited layer's rim is blurred over one cell on either side of its line
    const cell = Math.hypot(length / (ground.columns - 1), width / (ground.rows - 1));
    const lines = plan.edges.map(({ line }) => onFloor(line, length, width));
    const held = cellsNearLines(ground, lines, cell);
    const steepest = steepestPlace(ground, held)!;
    const least = Math.min(...plan.substrate.map((layer) => findSubstrate(layer.material)!.designSlope));
    expect(steepest.angle).toBeLessThanOrEqual(least);
    expect(fieldRange(ground).min).toBeGreaterThan(0.009);
  });

  everywhere("every piece lies within the glass, under the water line, and stands on something", (laid) => {
    const { length, width, depth, ground, plan } = laid;
    shapes(laid).forEach((mesh, k) => {
      const { min, max } = meshBounds(mesh);
      const name = plan.hardscape[k]!.name;
      expect([name, min[0] >= 0, min[1] >= 0, max[0] <= length, max[1] <= width]).toEqual([
        name,
        true,
        true,
        true,
        true,
      ]);
      expect(max[2]).toBeLessThan(depth);
      expect(min[2]).toBeGreaterThanOrEqual(0);
      // sizes and places are typed in whole mm and tenths of a per cent
      expect(floatingGap(mesh, ground, [])).toBeLessThan(0.003);
    });
  });

  everywhere("outlines stay on the floor, do not cross themselves, and differ", ({ plan, length, width }) => {
    const drawn = plan.plants.flatMap((p) => (p.outline ? [p.outline] : []));
    for (const outline of drawn) expect(selfCrossing(onFloor(outline, length, width))).toBeNull();
    expect(new Set(drawn.map((o) => JSON.stringify(o))).size).toBe(drawn.length);
    for (const outline of drawn) {
      for (const [u, v] of outline) {
        expect(Math.abs(u * 100 - Math.round(u * 100)) + Math.abs(v * 100 - Math.round(v * 100))).toBeLessThan(1e-9);
      }
    }
  });

  everywhere("every species bears the light, warmth, hardness and gas, and has room to grow", (laid) => {
    const { plan, depth, ground, length, width } = laid;
    for (const { species, height, outline, on } of plan.plants) {
      const fact = findPlant(species)!;
      if (!plan.co2) expect([species, fact.co2Need]).not.toEqual([species, "needed"]);
      if (!plan.light) expect(fact.lightClass).toBe("low");
      const [low, high] = plan.heater
        ? [plan.heater.set.value, plan.heater.set.value]
        : [plan.room.night.value, plan.room.day.value];
      expect([species, fact.temperatureMin <= low, fact.temperatureMax >= high]).toEqual([species, true, true]);
      expect(fact.ghMax * 0.17848).toBeGreaterThanOrEqual(plan.water.gh.value * 0.999);
      expect(fact.form).not.toBe("floating");
      expect(height.value).toBeGreaterThanOrEqual(fact.heightMin - 0.001);
      if (on !== null) expect(fact.attach).toBe(true);
      else {
        expect(fact.zone).not.toBe("epiphyte");
        for (const [u, v] of outline!) {
          expect(fieldHeight(ground, u * length, v * width) + height.value).toBeLessThan(depth + 0.001);
        }
      }
    }
  });

  everywhere("the same seed gives the same, and undoing restores the plan", ({ before }, form, seed) => {
    const input = { plan: resolved(before), form, seed };
    expect(layForm(input)).toEqual(layForm(input));
    const own: RawPlan = { ...before, plants: [{ species: "Anubias barteri", cover: "5 %" }], edges: [] };
    const changes = formChanges(own, { ...input, plan: resolved(own) });
    expect(new Set(changes.map((c) => c.name)).size).toBe(1);
    const after = applyToRaw(own, changes);
    expect(sameJson(after, own)).toBe(false);
    expect(sameJson(applyToRaw(after, changes.toReversed().map(invert)), own)).toBe(true);
  });
});

describe("pieces", () => {
  test.each(names)("%s: none covers another of its kind wholly", (form) => {
    fc.assert(
      fc.property(tanks, anySeed, (before, seed) => {
        const laid = lay(before, form, seed);
        const meshes = shapes(laid);
        laid.plan.hardscape.forEach((piece, a) => {
          laid.plan.hardscape.forEach((other, b) => {
            if (b <= a || piece.kind !== other.kind) return;
            const [p, q] = [meshBounds(meshes[a]!), meshBounds(meshes[b]!)];
            const apart = [0, 1, 2].some((k) => p.min[k]! >= q.max[k]! || q.min[k]! >= p.max[k]!);
            if (apart) return;
            const smaller = Math.min(...[a, b].map((k) => volumeOf(laid, k)));
            expect(overlapVolume(meshes[a]!, meshes[b]!) / smaller).toBeLessThan(0.7);
          });
        });
      }),
      { numRuns: 5, endOnFailure: true },
    );
  });

  const volumeOf = ({ plan }: Laid, k: number): number => {
    const piece = plan.hardscape[k]!;
    const density = piece.kind === "stone" ? findStone(piece.material)!.density.value : 1100;
    return piece.mass.value / density;
  };

  test("a longer tank takes more stones, the main one the largest, all of one rock and one lean", () => {
    for (const [length, count] of [
      [200, 3],
      [600, 5],
      [900, 7],
      [1500, 9],
      [3000, 11],
    ] as const) {
      for (const form of names) {
        const { plan } = lay(tank(length, Math.max(200, length / 3), 400, { light: {} }), form, 7);
        const stones = plan.hardscape.filter((p) => p.kind === "stone");
        expect([form, length, stones.length]).toEqual([form, length, count]);
        const size = (p: (typeof stones)[number]): number => p.width.value * p.height.value * p.breadth.value;
        for (const stone of stones.slice(1)) expect(size(stone)).toBeLessThan(size(stones[0]!));
        expect(new Set(stones.map((p) => p.material)).size).toBe(1);
        expect(stones.every((p) => p.lean.value * stones[0]!.lean.value >= 0)).toBe(true);
        expect(stones.every((p) => p.mass.value < 70)).toBe(true);
      }
    }
  });

  test("the focal piece stands at a third or the golden section", () => {
    fc.assert(
      fc.property(tanks, fc.constantFrom(...names), anySeed, (before, form, seed) => {
        const { plan } = lay(before, form, seed);
        const focal = plan.hardscape.find((p) => p.kind === (form === "bank" ? "wood" : "stone"))!;
        const fromSide = Math.min(focal.at.value, 1 - focal.at.value);
        // 1/3 to 0.382, and 0.025 of play
        expect(fromSide).toBeGreaterThan(0.305);
        expect(fromSide).toBeLessThan(0.41);
      }),
      { numRuns: 60, endOnFailure: true },
    );
  });
});

describe("the character of each form", () => {
  const common = fc.tuple(
    fc.integer({ min: 400, max: 2000 }),
    fc.integer({ min: 250, max: 800 }),
    fc.integer({ min: 250, max: 800 }),
  );
  const laidAs = (form: FormName, check: (laid: Laid) => void): void => {
    fc.assert(
      fc.property(common, anySeed, (sides, seed) => check(lay(tank(...sides, { light: {} }), form, seed))),
      { numRuns: 20, endOnFailure: true },
    );
  };
  const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;
  /** Mean height over a part of the floor given in shares. */
  const level = ({ ground, length, width }: Laid, u0: number, u1: number, v0 = 0, v1 = 1): number => {
    const at = (from: number, to: number): readonly number[] =>
      Array.from({ length: 21 }, (_, k) => from + ((to - from) * k) / 20);
    return mean(at(u0, u1).flatMap((u) => at(v0, v1).map((v) => fieldHeight(ground, u * length, v * width))));
  };
  const crestOf = ({ ground }: Laid): readonly [number, number] => {
    // a crest may be level: the middle of all that is within 1 mm of the highest
    const high = [...ground.heights.keys()].filter((k) => ground.heights[k]! > fieldRange(ground).max - 0.001);
    return [
      mean(high.map((k) => (k % ground.columns) / (ground.columns - 1))),
      mean(high.map((k) => Math.floor(k / ground.columns) / (ground.rows - 1))),
    ];
  };

  test("island: highest inside, low at both sides and in front, sand all round it", () => {
    laidAs("island", (laid) => {
      const [u, v] = crestOf(laid);
      expect(Math.min(u, 1 - u)).toBeGreaterThan(0.25);
      expect(Math.min(v, 1 - v)).toBeGreaterThan(0.2);
      const inside = level(laid, u - 0.1, u + 0.1, v - 0.1, v + 0.1);
      for (const low of [level(laid, 0, 0.05), level(laid, 0.95, 1), level(laid, 0, 1, 0, 0.06)])
        expect(low).toBeLessThan(0.7 * inside);
      const rim = laid.plan.edges[0]!.line;
      for (const { outline } of laid.plan.plants)
        for (const [a, b] of outline ?? []) {
          expect([Math.min(a, 1 - a) > 0.04, Math.min(b, 1 - b) > 0.04, rim.length > 8]).toEqual([true, true, true]);
        }
    });
  });

  test("mound: highest near the middle, falling to both sides and the front", () => {
    laidAs("mound", (laid) => {
      const [u] = crestOf(laid);
      expect(Math.abs(u - 0.5)).toBeLessThan(0.13);
      const middle = level(laid, 0.4, 0.6);
      expect(level(laid, 0, 0.15)).toBeLessThan(middle);
      expect(level(laid, 0.85, 1)).toBeLessThan(middle);
      expect(level(laid, 0, 1, 0, 0.15)).toBeLessThan(middle);
    });
  });

  test("valley: lowest in the middle third, unlike sides, open from the front", () => {
    laidAs("valley", (laid) => {
      const strips = Array.from({ length: 15 }, (_, k) => level(laid, k / 15, (k + 1) / 15));
      const lowest = strips.indexOf(Math.min(...strips));
      expect([lowest >= 5, lowest <= 9, lowest]).toEqual([true, true, lowest]);
      const [left, right] = [level(laid, 0, 0.2), level(laid, 0.8, 1)];
      expect(Math.min(left, right)).toBeGreaterThan(Math.min(...strips));
      // a quarter of the front pane is open
      expect(openFront(laid)).toBeGreaterThan(0.24);
      expect(pathIsOpen(laid)).toBe(true);
    });
  });

  test("triangle: the ground falls all the way from one side to the other", () => {
    laidAs("triangle", (laid) => {
      const strips = Array.from({ length: 9 }, (_, k) => level(laid, k / 9, (k + 1) / 9));
      const falling = strips[0]! > strips[8]! ? strips : strips.toReversed();
      // whole mm may leave neighbours level
      for (let k = 1; k < falling.length; k++) expect(falling[k]!).toBeLessThan(falling[k - 1]! + 0.0005);
      expect(falling[8]!).toBeLessThan(0.75 * falling[0]!);
    });
  });

  test("street: a path without planting or stone from the front pane to the back pane, and a row beside it", () => {
    laidAs("street", (laid) => {
      expect(pathIsOpen(laid)).toBe(true);
      const path = laid.plan.substrate.find((l) => l.material === "quartz sand")!.within!;
      const wide = (v: number): number => {
        const at = path.filter((p) => p[1] === v).map((p) => p[0]);
        return Math.max(...at) - Math.min(...at);
      };
      expect(wide(1)).toBeLessThan(0.6 * wide(0));
      for (const piece of laid.plan.hardscape) {
        if (piece.kind === "stone") expect(outlineContains(path, [piece.at.value, piece.depth.value])).toBe(false);
      }
    });
  });

  test("bank: mass at the back, wood in it, few species of one part of the world, open sand in front", () => {
    laidAs("bank", (laid) => {
      expect(level(laid, 0, 1, 0.7, 1)).toBeGreaterThan(1.3 * level(laid, 0, 1, 0, 0.3));
      const wood = laid.plan.hardscape.filter((p) => p.kind === "wood");
      expect(wood.length).toBeGreaterThanOrEqual(2);
      expect(mean(wood.map((p) => p.depth.value))).toBeGreaterThan(0.5);
      expect(new Set(laid.plan.plants.map((p) => p.species)).size).toBeLessThanOrEqual(8);
      expect(laid.plan.substrate.at(-1)!.material).toBe("quartz sand");
      const planted = laid.plan.plants.reduce((sum, p) => sum + p.cover.value, 0);
      expect(planted).toBeLessThan(0.62);
    });
  });

  const sandOf = ({ plan }: Laid) => plan.substrate.find((l) => l.material === "quartz sand")!.within!;

  function openFront(laid: Laid): number {
    const front = sandOf(laid).filter(([, v]) => v === 0);
    return Math.max(...front.map(([u]) => u)) - Math.min(...front.map(([u]) => u));
  }

  /** Whether the path reaches from pane to pane and no planting overlaps it. */
  function pathIsOpen(laid: Laid): boolean {
    const { plan, length, width } = laid;
    const path = sandOf(laid);
    const grid = { length, width, columns: 101, rows: 101 };
    const own = cellOverlaps(onFloor(path, length, width), grid);
    const cell = (length * width) / 1e4;
    const reaches = path.some(([, v]) => v === 0) && path.some(([, v]) => v === 1);
    return (
      reaches &&
      plan.plants.every(({ outline }) => {
        if (!outline) return true;
        const taken = cellOverlaps(onFloor(outline, length, width), grid);
        return taken.every((area, k) => area + own[k]! < cell * 1.0001);
      })
    );
  }
});

describe("choices", () => {
  const usual = tank(600, 360, 360, { light: {}, co2: {}, heater: {} });

  const itemsOf = (part: Json): readonly RawPlan[] => part as readonly RawPlan[];

  test("a small tank keeps to few species", () => {
    for (const form of names) {
      for (let seed = 0; seed < 12; seed++) {
        const { plants } = layForm({ plan: resolved(tank(200, 200, 200, { light: {} })), form, seed });
        const species = new Set(itemsOf(plants).map((p) => p.species));
        // a role that none of the five suits may add one
        expect(species.size).toBeLessThanOrEqual(6);
      }
    }
  });

  test("other seeds give other layouts, of both hands", () => {
    for (const form of names) {
      const all = Array.from({ length: 24 }, (_, seed) => layForm({ plan: resolved(usual), form, seed }));
      for (const part of ["substrate", "hardscape", "plants"] as const)
        expect([form, part, new Set(all.map((p) => JSON.stringify(p[part]))).size]).toEqual([form, part, 24]);
      const kind = form === "bank" ? "wood" : "stone";
      const focal = all.map((p) => Number.parseFloat(String(itemsOf(p.hardscape).find((h) => h.kind === kind)!.at)));
      expect([form, focal.some((at) => at < 50), focal.some((at) => at > 50)]).toEqual([form, true, true]);
      expect(new Set(all.flatMap((p) => itemsOf(p.plants).map((plant) => plant.species))).size).toBeGreaterThan(15);
    }
  });

  test("a usual tank with light is planted in front, middle and back", () => {
    for (const form of names) {
      for (let seed = 0; seed < 12; seed++) {
        const plants = itemsOf(layForm({ plan: resolved(usual), form, seed }).plants);
        expect(plants.filter((p) => p.outline).length).toBeGreaterThanOrEqual(form === "bank" ? 4 : 6);
        expect(new Set(plants.map((p) => findPlant(String(p.species))!.zone)).size).toBeGreaterThanOrEqual(3);
      }
    }
  });

  test("stone and wood are the owner's where named; an unknown one is refused with what is allowed", () => {
    const plan = resolved(usual);
    for (const form of names) {
      const parts = layForm({ plan, form, seed: 3, stone: "Sandstone", wood: "oak" });
      const pieces = parts.hardscape as readonly RawPlan[];
      expect(new Set(pieces.map((p) => p.material))).toEqual(new Set(["sandstone", "oak"]));
    }
    expect(() => layForm({ plan, form: "island", seed: 1, stone: "granit" })).toThrow(
      /stone: granit is not known, did you mean granite; allowed are granite, basalt/,
    );
    expect(() => layForm({ plan, form: "bank", seed: 1, wood: "xyzzy" })).toThrow(/wood: xyzzy is not known; allowed/);
  });

  test("no stone that the form chooses gives off hardness", () => {
    for (const form of names) {
      for (let seed = 0; seed < 12; seed++) {
        for (const p of itemsOf(layForm({ plan: resolved(usual), form, seed }).hardscape)) {
          if (p.kind === "stone") expect(findStone(String(p.material))!.carbonate).toBe("no");
        }
      }
    }
  });

  test("bad input is refused: what, and what is allowed", () => {
    const plan = resolved(usual);
    expect(() => layForm({ plan, form: "heap" as FormName, seed: 1 })).toThrow(
      /form heap is not known; allowed are island/,
    );
    expect(() => layForm({ plan, form: "island", seed: 1.5 })).toThrow(/seed 1.5: a form needs a whole number/);
    const tiny = resolved(tank(80, 300, 300));
    expect(() => layForm({ plan: tiny, form: "island", seed: 1 })).toThrow(/a form needs at least 90 mm x 90 mm/);
  });
});
