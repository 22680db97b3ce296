import { animalLimits } from "../animals/index.ts";
import { type AnimalFact, findAnimal } from "../facts/index.ts";
import type { Plan } from "../plan/index.ts";
import { shown } from "./shown.ts";
import type { Limit, UnitSystem } from "./types.ts";

/** What a keeper sees when a limit is passed, by limit and kind of animal. */
const signs: Readonly<Record<string, Readonly<Record<AnimalFact["kind"], string>>>> = {
  co2: { fish: "breathe hard", shrimp: "turn sluggish", snail: "draw in" },
  oxygen: { fish: "go up for air", shrimp: "climb to the surface", snail: "climb to the surface" },
  phUnder: { fish: "live outside their range", shrimp: "moult badly", snail: "lose shell" },
  phOver: { fish: "live outside their range", shrimp: "live outside their range", snail: "live outside their range" },
  warm: { fish: "too warm for", shrimp: "too warm for", snail: "too warm for" },
  cold: { fish: "too cold for", shrimp: "too cold for", snail: "too cold for" },
};

const genus = (fact: AnimalFact): string => fact.name.split(" ")[0]!;

/** The strictest limit of each kind among what lives in the tank, with the animal that sets it. */
export function limitsOf(plan: Plan, units: UnitSystem): readonly Limit[] {
  const stock = plan.animals
    .filter((a) => a.count.value > 0)
    .map((a) => findAnimal(a.species)!)
    .map((fact) => ({ fact, limits: animalLimits(fact) }));
  if (stock.length === 0) return [];
  const strictest = (value: (s: (typeof stock)[number]) => number, most: boolean) =>
    stock.reduce((a, b) => ((most ? value(b) > value(a) : value(b) < value(a)) ? b : a));
  const t = (v: number): string => shown(v, "°C", 0, units).text;
  const co2 = strictest((s) => s.limits.co2Caution, false);
  const oxygen = strictest((s) => s.limits.oxygenMin, true);
  const phLow = strictest((s) => s.limits.phMin, true);
  const phHigh = strictest((s) => s.limits.phMax, false);
  const warm = strictest((s) => s.limits.temperatureMax, false);
  const cold = strictest((s) => s.limits.temperatureMin, true);
  const at = (n: number): string => String(Math.round(n * 10) / 10);
  // a pH that swings with injected gas is judged by CO2: an upper limit drawn there would mislead
  const above = plan.co2
    ? []
    : [
        {
          series: "ph",
          side: "over",
          value: phHigh.limits.phMax,
          words: `over ${at(phHigh.limits.phMax)}: ${genus(phHigh.fact)} ${signs.phOver![phHigh.fact.kind]}`,
          source: "keeping range, common practice",
        } as const,
      ];
  return [
    ...above,
    {
      series: "co2",
      side: "over",
      value: co2.limits.co2Caution,
      words: `over ${at(co2.limits.co2Caution)}: ${genus(co2.fact)} ${signs.co2![co2.fact.kind]}`,
      source: co2.limits.words,
    },
    {
      series: "oxygen",
      side: "under",
      value: oxygen.limits.oxygenMin,
      words: `under ${at(oxygen.limits.oxygenMin)}: ${genus(oxygen.fact)} ${signs.oxygen![oxygen.fact.kind]}`,
      source: oxygen.limits.words,
    },
    {
      series: "ph",
      side: "under",
      value: phLow.limits.phMin,
      words: `under ${at(phLow.limits.phMin)}: ${genus(phLow.fact)} ${signs.phUnder![phLow.fact.kind]}`,
      source: "keeping range, common practice",
    },
    {
      series: "temperature",
      side: "over",
      value: warm.limits.temperatureMax,
      words: `over ${t(warm.limits.temperatureMax)}: ${signs.warm![warm.fact.kind]} ${genus(warm.fact)}`,
      source: "keeping range, common practice",
    },
    {
      series: "temperature",
      side: "under",
      value: cold.limits.temperatureMin,
      words: `under ${t(cold.limits.temperatureMin)}: ${signs.cold![cold.fact.kind]} ${genus(cold.fact)}`,
      source: "keeping range, common practice",
    },
  ];
}
