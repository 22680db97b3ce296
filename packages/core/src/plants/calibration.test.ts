/** The plant table and its mapping to growth parameters hold together. */
import { describe, expect, test } from "vitest";
import { findPlant, type PlantFact, plants } from "../facts/index.ts";
import { duckweed, duckweedLight, type PatchConditions, patchGrowth, patchParameters, umolPerMgCo2 } from "./index.ts";

const underWater = plants.filter((p) => p.form !== "floating");
const floating = plants.filter((p) => p.form === "floating");

const at = (plant: PlantFact, ppfd: number, co2: number): PatchConditions => ({
  photoperiod: 10,
  temperature: plant.temperatureOpt,
  ppfd,
  co2: co2 * umolPerMgCo2,
  bicarbonate: 0,
  nutrients: 1,
  rootShare: 0,
  acclimation: 1,
});
const net = (plant: PlantFact, ppfd: number, co2: number) =>
  patchGrowth(patchParameters(plant), at(plant, ppfd, co2), 0).net;
// Users of bicarbonate go through the two-substrate law even without bicarbonate; it then equals the one-substrate law.

describe("species under water", () => {
  test.each(underWater.map((p) => [p.name, p] as const))("%s", (_, plant) => {
    expect(Math.abs(net(plant, plant.ppfdGood, 30) / plant.rgrMax - 1)).toBeLessThan(1e-9);
    expect(net(plant, plant.ppfdMin, 30)).toBeGreaterThan(0);
    if (plant.co2Need === "none") {
      expect(net(plant, plant.ppfdMin, 3)).toBeGreaterThan(0);
      expect(net(plant, plant.ppfdGood, 1.5)).toBeGreaterThan(0);
    } else if (plant.co2Need === "helps") expect(net(plant, plant.ppfdGood, 3)).toBeGreaterThan(0);
    else expect(net(plant, plant.ppfdMin, 3)).toBeLessThan(0);
  });

  test("only Riccia fluitans outruns the highest published hourly rate, 0.021 g/g/h (Kahara & Vermaat 2003)", () => {
    const fast = underWater.filter((p) => patchParameters(p).muMax / 24 > 0.021);
    expect(fast.map((p) => p.name)).toEqual(["Riccia fluitans"]);
    const rates = underWater.map((p) => patchParameters(p).muMax);
    expect(Math.min(...rates)).toBeCloseTo(0.042, 3);
    expect(Math.max(...rates)).toBeCloseTo(0.7, 2);
  });

  test("respiration at 20 °C runs from Anubias to the fast stems", () => {
    const r = (name: string) => patchParameters(findPlant(name)!).respiration20;
    expect(r("Anubias barteri")).toBeCloseTo(0.0024, 4);
    expect(r("Rotala rotundifolia")).toBeCloseTo(0.0229, 4);
  });
});

describe("floating species", () => {
  test("duckweed at good light for 10 h grows as its own law has it", () => {
    const lemna = findPlant("Lemna minor")!;
    const g = patchGrowth(patchParameters(lemna), { ...at(lemna, lemna.ppfdGood, 0), temperature: 25 }, 50);
    const irradiation = (lemna.ppfdGood * 36000) / 4.57 / 0.45 / 1000;
    const warmth = 10 ** -(((25 - 26.7) / (8 - 26.7)) ** 2);
    expect(g.net).toBeCloseTo(0.47 * warmth * duckweedLight(irradiation) * (1 - 50 / 177) - 0.05, 9);
    expect(g.carbon).toBe(1);
  });

  test.each(floating.map((p) => [p.name, p] as const))(
    "%s lives at good tank light, needs no CO2, outgrows nothing",
    (_, p) => {
      expect(net(p, p.ppfdGood, 0)).toBeGreaterThan(0.01);
      expect(net(p, p.ppfdGood, 0)).toBeLessThan(p.rgrMax);
      const parameters = patchParameters(p);
      expect(patchGrowth(parameters, at(p, p.ppfdGood, 0), duckweed.crowding).gross).toBe(0);
      // 16 h of the strongest light stays below the law's ceiling in full daylight
      const ceiling = (p.rgrMax * duckweed.gross) / (duckweed.gross - duckweed.loss25);
      expect((parameters.muMax * 16) / 24).toBeLessThan(1.01 * ceiling);
    },
  );
});
