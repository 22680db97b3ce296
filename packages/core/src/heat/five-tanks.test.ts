/**
 * Five tanks whose heaters were watched some hundred times over two weeks (keeper's report, public list archive): set
 * 77-78 °F, rooms 70-71 °F. The report gives neither sizes nor lids nor pumps. Assumed here: the usual shape of each
 * nominal volume (common practice, no source), common glass, water 3 cm below the rim, a glass lid, air at 50 %.
 */
import { describe, expect, test } from "vitest";
import { tankHeatLoss } from "./balance.ts";
import { heaterReading, heaterStanding } from "./heater.ts";
import type { HeatTank } from "./tank.ts";

const inch = 0.0254;
const water = (77.5 - 32) / 1.8;
const room = (70.5 - 32) / 1.8;
const difference = water - room;
/** Stated error of the duty, as a share of the time. */
const sampling = 0.05;

interface Watched {
  readonly gallons: number;
  readonly size: readonly [number, number, number];
  readonly glass: number;
  readonly rating: number;
  readonly duty: number;
}

const watched: readonly Watched[] = [
  { gallons: 180, size: [72, 24, 24], glass: 0.012, rating: 250, duty: 0.314 },
  { gallons: 90, size: [48, 18, 24], glass: 0.01, rating: 250, duty: 0.356 },
  { gallons: 45, size: [36, 12, 24], glass: 0.008, rating: 200, duty: 0.203 },
  { gallons: 33, size: [48, 13, 12], glass: 0.006, rating: 150, duty: 0.364 },
  { gallons: 23, size: [30, 12, 15], glass: 0.006, rating: 50, duty: 1 },
];

function tankOf(of: Watched, cover: "open" | "lid", gap = 0): HeatTank {
  const [length, width, height] = of.size.map((side) => side * inch) as [number, number, number];
  return { length, width, height, glass: of.glass, base: of.glass, waterDepth: height - of.glass - 0.03, cover, gap };
}

const perKelvin = (of: Watched, cover: "open" | "lid", gap = 0) =>
  tankHeatLoss(tankOf(of, cover, gap), water, room, 0.5).total / difference;
const seen = (of: Watched, duty = of.duty) => heaterReading(of.rating, duty, difference).perKelvin;
const smallest = watched[4] as Watched;

describe("five watched heaters", () => {
  test.each(watched)("the shape assumed for $gallons gal holds that much, within 4 %", (of) => {
    const [l, w, h] = of.size;
    expect(Math.abs((l * w * h) / 231 / of.gallons - 1)).toBeLessThan(0.04);
  });

  test.each(watched.slice(0, 3))("$gallons gal, covered: loss within a factor 1.5 of what was seen", (of) => {
    const ratio = perKelvin(of, "lid") / seen(of);
    expect(ratio).toBeGreaterThan(1 / 1.5);
    expect(ratio).toBeLessThan(1.5);
  });

  test("33 gal, tightly covered: a factor 1.69 short; within 1.5 only with the sampling error of the duty allowed", () => {
    // The long low shape has much surface, which a lid of no net evaporation treats kindly; a gappy one would do (below).
    const of = watched[3] as Watched;
    expect(seen(of) / perKelvin(of, "lid")).toBeCloseTo(1.69, 1);
    expect(seen(of, of.duty - sampling) / perKelvin(of, "lid")).toBeLessThan(1.5);
    expect(perKelvin(of, "open")).toBeGreaterThan(seen(of));
  });

  test("23 gal: a lid does not explain a heater that never rests (factor 2), an open top does", () => {
    expect(seen(smallest) / perKelvin(smallest, "lid")).toBeCloseTo(1.98, 1);
    expect(perKelvin(smallest, "open") / seen(smallest)).toBeGreaterThan(1);
    expect(perKelvin(smallest, "open") / seen(smallest)).toBeLessThan(1.5);
  });

  test("the undersized heater is flagged from its reading and from the open tank's need; the others are not", () => {
    expect(watched.filter((of) => heaterReading(of.rating, of.duty, difference).undersized)).toEqual([smallest]);
    const flagged = watched.filter((of) => heaterStanding(of.rating, perKelvin(of, "open") * difference).undersized);
    expect(flagged).toContain(smallest);
    const covered = watched.filter((of) => heaterStanding(of.rating, perKelvin(of, "lid") * difference).undersized);
    expect(covered).toEqual([]);
  });

  // The report does not tell how the tanks were covered; this is how much of the surface would have to lie open.
  test.each([
    [90, 0.4],
    [33, 0.42],
    [23, 0.79],
  ])("%i gal: a lid that leaves a share of %f open explains the heater", (gallons, gap) => {
    const of = watched.find((w) => w.gallons === gallons) as Watched;
    expect(perKelvin(of, "lid", gap) / seen(of)).toBeCloseTo(1, 1.5);
  });

  test("a lid that leaves nothing open is the lid, one that leaves all open is none; between them it goes straight", () => {
    for (const of of watched) {
      const [none, half, all] = [0, 0.5, 1].map((gap) => perKelvin(of, "lid", gap)) as [number, number, number];
      expect(none).toBe(perKelvin(of, "lid"));
      expect(all).toBeCloseTo(perKelvin(of, "open"), 9);
      expect(half).toBeCloseTo((none + all) / 2, 9);
    }
    expect(() => perKelvin(smallest, "lid", 1.2)).toThrow("the share that a lid leaves open must be 0 to 1");
  });

  test("larger tanks lose more per kelvin and less per litre", () => {
    const loss = watched.map((of) => perKelvin(of, "lid"));
    for (let i = 1; i < loss.length; i++) expect(loss[i] as number).toBeLessThan(loss[i - 1] as number);
    const perLitre = watched.map((of, i) => (loss[i] as number) / of.gallons);
    expect(perLitre[4] as number).toBeGreaterThan(perLitre[0] as number);
  });
});
