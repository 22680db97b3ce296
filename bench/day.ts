import { readFileSync } from "node:fs";
import { dayReport, quickDay } from "../packages/core/src/design/index.ts";
import { readPlan, resolvePlan } from "../packages/core/src/plan/index.ts";
import { compile, repeatingDay, setupOf } from "../packages/core/src/tank/index.ts";
import { quantilesOf, sampled } from "./timing.ts";

/** The demo's day in Node: the model alone, from cold and from a similar day, and what the screen needs besides. */
export async function run(): Promise<{ name: string; lines: string[] }> {
  const reading = readPlan(readFileSync("examples/quarry-bank.yaml", "utf8"));
  if (!reading.ok) throw new Error("the demo has faults");
  const { raw, plan } = reading;
  const setup = setupOf(plan);
  const first = repeatingDay(compile(setup));
  const cold = sampled(200, () => repeatingDay(compile(setup)));
  const warm = sampled(200, () => repeatingDay(compile(setup), { start: first.start }));
  const resolve = sampled(400, () => resolvePlan(raw));
  const quick = sampled(100, () => quickDay(raw, { start: first.start }));
  const full = sampled(12, () => dayReport(raw, { start: first.start }));
  const line = (what: string, times: number[]): string => {
    const { median, p95 } = quantilesOf(times);
    return `${what.padEnd(58)} median ${median.toFixed(2).padStart(8)} ms   p95 ${p95.toFixed(2).padStart(8)} ms`;
  };
  return {
    name: "The demo's day in Node (bar: model run, median <= 15 ms)",
    lines: [
      line("model run, repeating day from cold", cold),
      line("model run, from a similar day", warm),
      line("plan resolved", resolve),
      line("curves and figures, as under the finger", quick),
      line("full report: ranges, findings, tried remedies", full),
      `days computed from cold ${first.days}; steps of the last ${first.steps}; rate calls ${first.rateCalls}`,
    ],
  };
}
