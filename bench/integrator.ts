/**
 * Times the stiff integrator against the explicit one on the reference problems, in one process and one go: the ratios
 * are what counts, the milliseconds depend on the machine.
 */
import {
  createDormandPrince,
  createIntegrator,
  type Integrator,
  type IntegratorOptions,
  type OdeSystem,
  referenceProblems,
} from "@lentic/core/numerics";

interface Case {
  readonly name: string;
  readonly system: OdeSystem;
  readonly start: readonly number[];
  readonly atol: Float64Array;
  readonly rtol: number;
  readonly end: number;
}

/** Short runs are repeated for this long, so that the engine has compiled them; the best run counts. */
const WARM_MS = 150;
const REPEATS = 5;

/** Invented web of pools in a ring, each exchanging with one shared pool at its own speed; flows count the exchange. */
function ring(pools: number): OdeSystem {
  return {
    n: pools + 1,
    flows: pools,
    rates(t, y, out) {
      const shared = y[pools]!;
      let gain = 0;
      for (let i = 0; i < pools; i++) {
        const next = y[(i + 1) % pools]!;
        const exchange = (1 + 1000 * (i % 3)) * (y[i]! - shared * (0.5 + 0.1 * Math.sin(t + i)));
        const passed = 0.3 * y[i]! * (next / (0.2 + next));
        const before = 0.3 * y[(i + pools - 1) % pools]! * (y[i]! / (0.2 + y[i]!));
        out[i] = before - passed - exchange;
        out[pools + 1 + i] = exchange;
        gain += exchange;
      }
      out[pools] = gain;
    },
  };
}

function cases(): Case[] {
  const { robertson, hires, orego, vanDerPol, arenstorf } = referenceProblems;
  const list: Case[] = [];
  // Ends are kept short enough for the explicit method to finish.
  for (const [problem, end] of [
    [robertson, 40],
    [hires, 321.8122],
    [orego, 30],
    [vanDerPol, 0.5],
    [arenstorf, 17.0652],
  ] as const) {
    for (const rtol of [1e-4, 1e-6]) {
      list.push({
        name: problem.name,
        system: problem.system,
        start: problem.start,
        atol: Float64Array.from(problem.scale, (s) => s * rtol),
        rtol,
        end,
      });
    }
  }
  const pools = 40;
  list.push({
    name: `ring of ${pools} pools with ${pools} flows`,
    system: ring(pools),
    start: [...Array.from({ length: pools }, (_, i) => 0.5 + 0.01 * i), 1, ...new Array<number>(pools).fill(0)],
    atol: new Float64Array(pools + 1).fill(1e-6),
    rtol: 1e-4,
    end: 10,
  });
  return list;
}

interface Timing {
  readonly milliseconds: number;
  readonly text: string;
}

function time(make: (system: OdeSystem, options: IntegratorOptions) => Integrator, c: Case): Timing {
  const integrator = make(c.system, { rtol: c.rtol, atol: c.atol, maxSteps: 5_000_000 });
  let best = Number.POSITIVE_INFINITY;
  let text = "";
  const begun = performance.now();
  for (let i = 0; i < REPEATS || performance.now() - begun < WARM_MS; i++) {
    const y = Float64Array.from(c.start);
    const from = performance.now();
    const result = integrator.run(0, c.end, y);
    best = Math.min(best, performance.now() - from);
    text = `${result.status === "done" ? "" : `${result.status} `}${result.steps} steps, ${result.rateCalls} calls`;
  }
  return { milliseconds: best, text: `${best.toFixed(2)} ms (${text})` };
}

/** Runs the whole comparison; a few seconds. */
export async function run(): Promise<{ name: string; lines: string[] }> {
  const lines: string[] = [];
  for (const c of cases()) {
    const stiff = time(createIntegrator, c);
    const explicit = time(createDormandPrince, c);
    const ratio = explicit.milliseconds / stiff.milliseconds;
    lines.push(
      `${c.name}, rtol ${c.rtol}, to t = ${c.end}: stiff ${stiff.text}; explicit ${explicit.text}; explicit / stiff ${ratio.toFixed(2)}`,
    );
  }
  return { name: "integrator: stiff against explicit", lines };
}
