/**
 * Times the chemistry: full cold speciation with ion pairs and activity over the reference waters, and the warm loop of
 * the simulation. Processor time of one core counts, best of several runs, so that other work on the machine does not
 * show. `phreeqc.ts` sets it beside PHREEQC.
 */
import { readFileSync } from "node:fs";
import { createCarbonateLoop, createSpeciator, type GivenPair, type WaterTotals } from "@lentic/core/chemistry";

const RUNS = 7;
const COLD_SOLVES = 100_000;
const FRESH_SOLVES = 20_000;
const WARM_SOLVES = 300_000;
/** Bars, solves per second on one core. */
const COLD_BAR = 0.5e6;
const WARM_BAR = 2e6;

interface Case {
  readonly totals: WaterTotals;
  readonly temperature: number;
  readonly pair: GivenPair;
  readonly first: number;
  readonly alk: number;
}

/** The reference waters without the ones brought to calcite, which are several solves each. */
function readCases(): Case[] {
  const [header = "", ...lines] = readFileSync("checks/phreeqc-cases.csv", "utf8").trim().split("\n");
  const columns = header.split(",");
  return lines.flatMap((line) => {
    const cells = line.split(",");
    const text = (name: string) => cells[columns.indexOf(name)] ?? "";
    const m = (ion: string) => Number(text(`${ion}_mmol_kgw`)) / 1000;
    const value = Number(text("value"));
    const given: Readonly<Record<string, readonly [GivenPair, number]>> = {
      pH: ["ph-alk", value],
      log10_pCO2_atm: ["pco2-alk", 10 ** value],
      DIC_mmol_kgw: ["dic-alk", value / 1000],
    };
    const known = given[text("constraint")];
    if (!known) return [];
    return [
      {
        totals: {
          ca: m("Ca"),
          mg: m("Mg"),
          na: m("Na"),
          k: m("K"),
          cl: m("Cl"),
          so4: m("SO4"),
          no3: m("NO3"),
          po4: 0,
          nh4: 0,
          b: 0,
        },
        temperature: Number(text("T_C")),
        pair: known[0],
        first: known[1],
        alk: Number(text("Alk_meq_kgw")) / 1000,
      },
    ];
  });
}

/** Solves per second of processor time, best of the runs. */
function rate(solves: number, work: () => number): number {
  let best = 0;
  let sum = 0;
  for (let run = 0; run < RUNS; run++) {
    const start = process.cpuUsage();
    sum += work();
    const used = process.cpuUsage(start);
    best = Math.max(best, solves / ((used.user + used.system) / 1e6));
  }
  if (!Number.isFinite(sum)) throw new Error("a solve gave no number");
  return best;
}

const told = (perSecond: number) => `${(perSecond / 1e6).toFixed(2)} million/s`;
const bar = (perSecond: number, least: number) =>
  `${told(perSecond)} (bar ${told(least)}: ${perSecond >= least ? "met" : "NOT met"})`;

function coldRate(cases: readonly Case[]): number {
  const s = createSpeciator();
  return rate(COLD_SOLVES, () => {
    let sum = 0;
    for (let n = 0, i = 0; n < COLD_SOLVES; n++) {
      const c = cases[i]!;
      s.solve(c.totals, c.temperature, c.pair, c.first, c.alk);
      sum += s.ph;
      i = i + 1 === cases.length ? 0 : i + 1;
    }
    return sum;
  });
}

function freshRate(cases: readonly Case[]): number {
  const s = createSpeciator();
  let t = 20;
  return rate(FRESH_SOLVES, () => {
    let sum = 0;
    for (let n = 0; n < FRESH_SOLVES; n++) {
      const c = cases[n % cases.length]!;
      // Every temperature is new, so that no kept constants are found.
      t += 1e-5;
      s.solve(c.totals, t, c.pair, c.first, c.alk);
      sum += s.ph;
    }
    return sum;
  });
}

/** A day's swing of carbon and alkalinity in tap water, with or without its swing of temperature. */
function warmRate(swing: number): number {
  const totals = { ca: 1.5e-3, mg: 4e-4, na: 8e-4, k: 8e-5, cl: 4.8e-4, so4: 6e-4, no3: 2e-4, po4: 0, nh4: 0, b: 0 };
  const loop = createCarbonateLoop(totals, 2.8e-3, 3.2e-3, 25);
  const steps = 4096;
  const wave = (amplitude: number, turns: number, about: number) =>
    Float64Array.from({ length: steps }, (_, i) => about + amplitude * Math.sin((2 * Math.PI * turns * i) / steps));
  const alk = wave(1e-4, 1, 2.8e-3);
  const dic = wave(4e-4, 3, 3.4e-3);
  const temperature = wave(swing, 2, 25);
  return rate(WARM_SOLVES, () => {
    let sum = 0;
    for (let n = 0; n < WARM_SOLVES; n++) {
      const i = n & (steps - 1);
      sum += loop.solve(alk[i]!, dic[i]!, temperature[i]!);
    }
    return sum;
  });
}

/** Runs the timings. */
export async function run(): Promise<{ name: string; lines: string[] }> {
  const cases = readCases();
  const cold = coldRate(cases);
  const lines = [
    `cold speciation, ${cases.length} waters, pairs and activity: ${bar(cold, COLD_BAR)}`,
    `the same, a new temperature every time: ${told(freshRate(cases))}`,
    `warm loop, temperature constant: ${bar(warmRate(0), WARM_BAR)}`,
    `warm loop, temperature moving: ${bar(warmRate(1), WARM_BAR)}`,
  ];
  return { name: "water chemistry", lines };
}
