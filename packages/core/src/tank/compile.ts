import type { OdeSystem } from "../numerics/index.ts";
import { day, type Flow, hour, type Process, type Rates } from "./process.ts";
import { processes } from "./processes/index.ts";
import { type QuantityId, quantityCount, S, type StateId, stateIds, states } from "./quantities.ts";
import type { Setup } from "./setup.ts";

/** A tank ready to run: declarations resolved to indices once, rates that allocate nothing. */
export interface Model {
  readonly setup: Setup;
  readonly flows: readonly Flow[];
  readonly system: OdeSystem;
  /** Seconds of the day, ascending, strictly inside 0 to 86400, at which rates jump. */
  readonly breaks: readonly number[];
  /** Tells the processes which smooth stretch comes next. */
  begin(from: number, to: number): void;
  /** Quantities at an instant, in an array that is reused; index with `Q`. */
  observe(t: number, y: Float64Array): Float64Array;
}

/** Orders processes so that each comes after those that provide what it needs. */
export function ordered(list: readonly Process[]): readonly Process[] {
  const providers = new Map<QuantityId, Process>();
  for (const process of list) {
    for (const id of process.provides) {
      const other = providers.get(id);
      if (other) throw new Error(`both ${other.id} and ${process.id} provide ${id}`);
      providers.set(id, process);
    }
  }
  const done = new Set<Process>();
  const order: Process[] = [];
  const visit = (process: Process, path: readonly Process[]): void => {
    if (done.has(process)) return;
    if (path.includes(process))
      throw new Error(`processes need each other in a ring: ${path.map((p) => p.id).join(" > ")}`);
    for (const id of process.needs) {
      const provider = providers.get(id);
      if (!provider) throw new Error(`${process.id} needs ${id}, which nothing provides`);
      visit(provider, [...path, process]);
    }
    done.add(process);
    order.push(process);
  };
  for (const process of list) visit(process, []);
  return order;
}

const isState = (place: string): place is StateId => Object.hasOwn(states, place);

function checkFlow(process: Process, flow: Flow): void {
  for (const place of [flow.from, flow.to]) {
    if (isState(place) && states[place].counts !== flow.of) {
      throw new Error(`${process.id}: flow ${flow.id} moves ${flow.of}, but ${place} counts ${states[place].counts}`);
    }
  }
}

const ordering = ordered(processes);
for (const process of ordering) for (const flow of process.flows) checkFlow(process, flow);

/** All flows in the order of the accumulators behind the states. */
export const flows: readonly Flow[] = ordering.flatMap((p) => p.flows);

/** Index of a flow among the accumulators. */
export const flowIndex: ReadonlyMap<string, number> = new Map(flows.map((f, i) => [f.id, i]));

export function compile(setup: Setup): Model {
  const n = stateIds.length;
  const steppers: { rates: Rates; first: number }[] = [];
  let first = n;
  for (const process of ordering) {
    const rates = process.start(setup);
    if (rates) steppers.push({ rates, first });
    first += process.flows.length;
  }
  const fromState = new Int32Array(flows.length).fill(-1);
  const toState = new Int32Array(flows.length).fill(-1);
  flows.forEach((flow, k) => {
    if (isState(flow.from)) fromState[k] = S[flow.from];
    if (isState(flow.to)) toState[k] = S[flow.to];
  });
  const q = new Float64Array(quantityCount);
  const scratch = new Float64Array(n + flows.length);

  const rates = (t: number, y: Float64Array, out: Float64Array): void => {
    out.fill(0);
    for (let i = 0; i < steppers.length; i += 1) {
      const s = steppers[i]!;
      s.rates.at(t, y, q, out, s.first);
    }
    for (let k = 0; k < flows.length; k += 1) {
      const rate = out[n + k]!;
      const from = fromState[k]!;
      const to = toState[k]!;
      if (from >= 0) out[from] = out[from]! - rate;
      if (to >= 0) out[to] = out[to]! + rate;
    }
  };

  const breaks = new Set<number>();
  for (const process of ordering) {
    for (const h of process.breaks?.(setup) ?? []) {
      const t = (((h * hour) % day) + day) % day;
      if (t > 0) breaks.add(Math.round(t * 1000) / 1000);
    }
  }

  return {
    setup,
    flows,
    system: { n, flows: flows.length, rates },
    breaks: [...breaks].sort((a, b) => a - b),
    begin(from, to) {
      for (const s of steppers) s.rates.begin?.((from + to) / 2);
    },
    observe(t, y) {
      rates(t, y, scratch);
      return q;
    },
  };
}
