/**
 * The same waters through PHREEQC (USGS) and through the speciator here: pH, CO2 and calcite index out of carbon and
 * alkalinity, and the pace of both in one run, processor time of one core. Waters are drawn with a fixed seed over pH 5.5
 * to 9, KH 0 to 20 and 8 to 34 °C, with calcium, magnesium and the strong ions of tap water and of recipes.
 */
import { createSpeciator, type WaterTotals } from "@lentic/core/chemistry";
import { createRandom, quantile } from "@lentic/core/numerics";
import { askPython, findPython } from "./python.ts";

const WATERS = 4000;
const RUNS = 3;
/** Turns of our loop for one of PHREEQC's, so that both are timed over a good part of a second. */
const TURNS = 50;
/** Bars of the comparison: pH, CO2 as a share, calcite index. */
const BARS = { ph: 0.02, co2: 0.015, si: 0.05 } as const;
/** eq/kg in a degree of carbonate hardness (10 mg/L of CaO). */
const KH = 2 * (10 / 56077.4);

interface Water {
  readonly t: number;
  readonly totals: WaterTotals;
  readonly dic: number;
  readonly alk: number;
}

/** pH, CO2 in mol/kg, calcite index. */
type Figures = readonly [number, number, number];

const solver = createSpeciator();

/** Draws a water whose charges balance; pH and KH are drawn, carbon follows. */
function draw(random: () => number): Water | null {
  const t = Math.round(10 * (8 + 26 * random())) / 10;
  const ph = 5.5 + 3.5 * random();
  // as many soft waters as hard ones
  const alk = 20 * KH * random() ** 2;
  let ca = 4e-3 * random() ** 2;
  const mg = 2e-3 * random() ** 2;
  let na = 1.5e-3 * random() ** 2;
  const k = 5e-4 * random();
  const so4 = 1.5e-3 * random() ** 2;
  const no3 = 8e-4 * random() ** 2;
  const lacks = 2 * (ca + mg) + na + k - 2 * so4 - no3 - alk;
  let cl = 1e-5;
  if (lacks > cl) cl = lacks;
  else if (random() < 0.5) na += cl - lacks;
  else ca += (cl - lacks) / 2;
  const totals = { ca, mg, na, k, cl, so4, no3, po4: 0, nh4: 0, b: 0 };
  try {
    solver.solve(totals, t, "ph-alk", ph, alk);
  } catch {
    // no water has this little alkalinity at this pH
    return null;
  }
  return { t, totals, dic: solver.dic, alk };
}

function drawn(): Water[] {
  const stream = createRandom(20261125);
  const waters: Water[] = [];
  while (waters.length < WATERS) {
    const water = draw(() => stream.uniform());
    if (water) waters.push(water);
  }
  return waters;
}

function ours(waters: readonly Water[]): { figures: Figures[]; perSecond: number } {
  let sum = 0;
  let best = Number.POSITIVE_INFINITY;
  for (let run = 0; run < RUNS; run++) {
    const start = process.cpuUsage();
    for (let turn = 0; turn < TURNS; turn++) {
      for (const w of waters) {
        solver.solve(w.totals, w.t, "dic-alk", w.dic, w.alk);
        sum += solver.ph;
      }
    }
    const { user, system } = process.cpuUsage(start);
    best = Math.min(best, (user + system) / 1e6);
  }
  if (!Number.isFinite(sum)) throw new Error("a water has no pH");
  const figures = waters.map((w): Figures => {
    solver.solve(w.totals, w.t, "dic-alk", w.dic, w.alk);
    return [solver.ph, solver.co2, solver.siCalcite()];
  });
  return { figures, perSecond: (TURNS * waters.length) / best };
}

function compared(waters: readonly Water[], mine: readonly Figures[], theirs: readonly Figures[]): string[] {
  const told = (what: string, differences: readonly number[], bar: number, scale: number, unit: string): string => {
    const sizes = differences.map(Math.abs);
    const largest = Math.max(...sizes);
    const at = waters[sizes.indexOf(largest)]!;
    const rms = Math.sqrt(sizes.reduce((s, d) => s + d * d, 0) / sizes.length);
    const figure = (x: number): string => `${(x * scale).toFixed(4)}${unit}`;
    const where = `at KH ${(at.alk / KH).toFixed(2)}, ${at.t} °C, Ca ${(at.totals.ca * 1e3).toFixed(2)} mmol/kg`;
    return `${what.padEnd(13)} largest ${figure(largest)} (${where}), 99 % within ${figure(quantile(sizes, 0.99))}, rms ${figure(rms)}; bar ${figure(bar)}: ${largest <= bar ? "met" : "NOT met"}`;
  };
  const pairs = mine.map((m, i) => [m, theirs[i]!] as const);
  return [
    told(
      "pH",
      pairs.map(([a, b]) => a[0] - b[0]),
      BARS.ph,
      1,
      "",
    ),
    told(
      "CO2",
      pairs.map(([a, b]) => a[1] / b[1] - 1),
      BARS.co2,
      100,
      " %",
    ),
    told(
      "calcite index",
      pairs.map(([a, b]) => a[2] - b[2]),
      BARS.si,
      1,
      "",
    ),
  ];
}

/** Compares and times, if a Python with PHREEQC is there. */
export async function run(): Promise<{ name: string; lines: string[] }> {
  const name = "Water chemistry beside PHREEQC";
  const found = findPython("LENTIC_PHREEQC_PYTHON", "phreeqpython", "phreeqpython==1.6.2");
  if ("how" in found) return { name, lines: [found.how] };
  const waters = drawn();
  const answer = askPython<{ seconds: number; waters: Figures[] }>(found.python, "bench/phreeqc.py", {
    runs: RUNS,
    waters: waters.map(({ totals: w, ...rest }) => ({
      ...rest,
      totals: { Ca: w.ca, Mg: w.mg, Na: w.na, K: w.k, Cl: w.cl, "S(6)": w.so4, "N(5)": w.no3 },
    })),
  });
  const { figures, perSecond } = ours(waters);
  const rate = waters.length / answer.seconds;
  const lines = [
    `${WATERS} waters drawn by lot, carbon and alkalinity given, against phreeqc.dat`,
    ...compared(waters, figures, answer.waters),
    `PHREEQC ${(rate / 1e3).toFixed(2)} thousand/s, here ${(perSecond / 1e3).toFixed(0)} thousand/s: ratio ${(perSecond / rate).toFixed(0)}`,
  ];
  return { name, lines };
}
