import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  createDormandPrince,
  createIntegrator,
  createSampler,
  type EventFunction,
  explainResult,
  type Integrator,
  type IntegratorOptions,
  integrate,
  locateEvent,
  type OdeSystem,
  sink,
} from "./index.ts";

const methods: readonly [string, (system: OdeSystem, options: IntegratorOptions) => Integrator][] = [
  ["rodas4p2", (system, options) => createIntegrator(system, options)],
  ["rodas", (system, options) => createIntegrator(system, { ...options, method: "rodas" })],
  ["dormand-prince", (system, options) => createDormandPrince(system, options)],
];

/** y' = cos t with a flow that integrates y. */
const swing: OdeSystem = {
  n: 1,
  flows: 1,
  rates(t, y, out) {
    out[0] = Math.cos(t);
    out[1] = y[0]!;
  },
};
const fall: OdeSystem = {
  n: 2,
  flows: 0,
  autonomous: true,
  rates(_t, y, out) {
    out[0] = y[1]!;
    out[1] = -9.81;
  },
};

describe.each(methods)("sampler (%s)", (_name, make) => {
  test("fills a fixed grid across several runs, states and flows", () => {
    const sampler = createSampler(2, 0, 0.25, 41);
    const integrator = make(swing, { rtol: 1e-9, atol: 1e-11, sampler });
    const y = new Float64Array(2);
    for (const [a, b] of [
      [0, 0.1],
      [0.1, 2.5],
      [2.5, 2.6],
      [2.6, 10],
    ] as const) {
      integrator.run(a, b, y);
    }
    expect(sampler.filled).toBe(41);
    for (let i = 0; i < 41; i++) {
      const t = i * 0.25;
      expect(Math.abs(sampler.rows[2 * i]! - Math.sin(t))).toBeLessThan(1e-7);
      expect(Math.abs(sampler.rows[2 * i + 1]! - (1 - Math.cos(t)))).toBeLessThan(1e-7);
    }
  });

  test("a row on a boundary holds the value before the jump; rows before the start are NaN", () => {
    const sampler = createSampler(2, -1, 1, 4);
    const integrator = make(swing, { sampler });
    const y = Float64Array.from([5, 0]);
    integrator.run(0, 1, y);
    y[0] = 100;
    integrator.run(1, 2, y);
    expect(sampler.rows[0]).toBeNaN();
    expect(sampler.rows[2]).toBe(5);
    expect(sampler.rows[4]).toBeCloseTo(5 + Math.sin(1), 5);
    expect(sampler.rows[6]).toBeCloseTo(100 + Math.sin(2) - Math.sin(1), 4);
  });

  test("grid times that fall on run ends by rounding are not lost", () => {
    const sampler = createSampler(2, 0, 0.1, 11);
    const integrator = make(swing, { sampler });
    const y = new Float64Array(2);
    for (let i = 0; i < 10; i++) integrator.run(i / 10, (i + 1) / 10, y);
    expect(sampler.filled).toBe(11);
    expect(sampler.rows[20]).toBeCloseTo(Math.sin(1), 6);
  });
});

test("a sampler of the wrong width or interval is refused", () => {
  expect(() => createIntegrator(swing, { sampler: createSampler(1, 0, 1, 3) })).toThrow(
    /hold 1 numbers; the system has 2/,
  );
  expect(() => createSampler(1, 0, 0, 3)).toThrow(/interval/);
});

describe.each(methods)("events (%s)", (_name, make) => {
  const ground: EventFunction = { value: (_t, y) => y[0]!, direction: -1 };

  test("a falling stone stops exactly on the ground", () => {
    // Height is quadratic in time, which every interpolant here reproduces: the root is exact.
    const integrator = make(fall, { events: [ground] });
    const y = Float64Array.from([10, 3]);
    const result = integrator.run(0, 100, y);
    const exact = (3 + Math.sqrt(9 + 2 * 9.81 * 10)) / 9.81;
    expect(result.status).toBe("event");
    expect(result.event).toBe(0);
    expect(Math.abs(result.t - exact)).toBeLessThan(1e-9);
    expect(y[0]).toBeLessThanOrEqual(0);
    expect(y[0]).toBeGreaterThan(-1e-8);
    expect(explainResult(result)).toContain("event 0");
  });

  test("bounces: each run starts where the last one stopped and does not stop again at once", () => {
    const integrator = make(fall, { events: [ground] });
    const y = Float64Array.from([1, 0]);
    let t = 0;
    let speed = Math.sqrt(2 * 9.81);
    let expected = speed / 9.81;
    for (let bounce = 0; bounce < 6; bounce++) {
      const result = integrator.run(t, 100, y);
      expect(result.status).toBe("event");
      expect(Math.abs(result.t - expected)).toBeLessThan(1e-7);
      t = result.t;
      speed *= 0.8;
      y[1] = -0.8 * y[1]!;
      expected += (2 * speed) / 9.81;
    }
  });

  test("location is good to 1e-10 of the step on the interpolant, and to the tolerance in truth", () => {
    const steps: number[] = [];
    const integrator = make(swing, {
      rtol: 1e-8,
      atol: 1e-10,
      events: [{ value: (_t, y) => y[0]! - 0.5 }],
      onStep: (step) => steps.push(step.end - step.start),
    });
    const y = new Float64Array(2);
    const result = integrator.run(0, 3, y);
    expect(Math.abs(y[0]! - 0.5)).toBeLessThan(1e-10);
    expect(Math.abs(result.t - Math.PI / 6)).toBeLessThan(1e-7);
    const second = integrator.run(result.t, 3, y);
    expect(second.status).toBe("event");
    expect(Math.abs(second.t - (5 * Math.PI) / 6)).toBeLessThan(1e-7);
  });

  test("reports the earliest of several, respects direction, sees two zeros within one step", () => {
    const clock: OdeSystem = { n: 1, flows: 0, rates: (_t, _y, out) => out.set([1]) };
    const events: EventFunction[] = [
      { value: (t) => t - 7 },
      { value: (t) => (t - 4.3) * (t - 5.9), direction: 1 },
      { value: (t) => 4.5 - t, direction: 1 },
    ];
    const integrator = make(clock, { events, h0: 8, hMax: 8 });
    const y = new Float64Array(1);
    const first = { ...integrator.run(3.2, 10, y) };
    // The parabola falls at 4.3 (ignored) and rises at 5.9; 4.5 - t only falls.
    expect([first.status, first.event]).toEqual(["event", 1]);
    expect(Math.abs(first.t - 5.9)).toBeLessThan(1e-9);
    const next = integrator.run(first.t, 10, y);
    expect(next.event).toBe(0);
    expect(Math.abs(next.t - 7)).toBeLessThan(1e-9);
    expect(integrator.run(next.t, 10, y).status).toBe("done");
  });

  test("samples and steps end at the event", () => {
    const sampler = createSampler(2, 0, 0.1, 100);
    let lastEnd = 0;
    const integrator = make(swing, {
      sampler,
      events: [{ value: (_t, y) => y[0]! - 0.5 }],
      onStep: (step) => {
        lastEnd = step.end;
      },
    });
    const result = integrator.run(0, 9, new Float64Array(2));
    expect(lastEnd).toBe(result.t);
    expect(sampler.filled).toBe(6);
  });
});

test("locateEvent finds a zero inside a step without stopping the run", () => {
  const found: number[] = [];
  const room = new Float64Array(2);
  integrate(swing, new Float64Array(2), 0, 12, {
    rtol: 1e-9,
    atol: 1e-11,
    onStep(step) {
      const t = locateEvent(step, { value: (_t, y) => y[0]! }, room);
      if (!Number.isNaN(t)) found.push(t);
    },
  });
  expect(found.length).toBe(3);
  found.forEach((t, i) => {
    expect(Math.abs(t - (i + 1) * Math.PI)).toBeLessThan(1e-7);
  });
});

describe("staying above zero", () => {
  test("sink: smooth, odd, halves at half, continuous slope through zero", () => {
    expect(sink(0, 2)).toBe(0);
    expect(sink(2, 2)).toBe(0.5);
    expect(sink(-2, 2)).toBe(-0.5);
    const slope = (y: number): number => (sink(y + 1e-7, 2) - sink(y - 1e-7, 2)) / 2e-7;
    expect(slope(1e-6)).toBeCloseTo(slope(-1e-6), 5);
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1e9, noNaN: true }),
        fc.double({ min: 1e-9, max: 1e3, noNaN: true }),
        (y, half) => {
          const share = sink(y, half);
          return share >= 0 && share <= 1;
        },
      ),
    );
  });

  /** A stock drained by a strong constant demand through `sink`; inflow and final loss are flows. */
  const drained = (inflow: () => number): OdeSystem => ({
    n: 2,
    flows: 2,
    autonomous: true,
    rates(_t, y, out) {
      const drain = 50 * sink(y[0]!, 1e-3);
      out[0] = inflow() - drain;
      out[1] = drain - 0.3 * y[1]!;
      out[2] = 0.3 * y[1]!;
      out[3] = inflow();
    },
  });

  test.each(methods)("no state falls below -atol, and nothing is created (%s)", (_name, make) => {
    const atol = 1e-6;
    let lowest = 0;
    let inflow = 0;
    const at = new Float64Array(4);
    const integrator = make(
      drained(() => inflow),
      {
        rtol: 1e-3,
        atol,
        nonNegative: [0, 1],
        onStep(step) {
          step.at(step.end, at);
          lowest = Math.min(lowest, at[0]!, at[1]!);
        },
      },
    );
    const y = Float64Array.from([3, 0, 0, 0]);
    expect(integrator.run(0, 1, y).status).toBe("done");
    inflow = 20;
    expect(integrator.run(1, 2, y).status).toBe("done");
    expect(lowest).toBeGreaterThanOrEqual(-atol);
    expect(Math.abs(y[0]! + y[1]! + y[2]! - 3 - y[3]!)).toBeLessThan(1e-12 * 23);
  });

  /**
   * A stock that ends abruptly beside many idle states, which dilute its error in the norm: the hardest case for step
   * control. Lowest value at step ends and inside steps.
   */
  const lowest = (
    make: (system: OdeSystem, options: IntegratorOptions) => Integrator,
    idle: number,
    half: number,
    rtol: number,
    nonNegative: number[],
  ): { ends: number; inside: number } => {
    const n = idle + 1;
    const at = new Float64Array(n + 1);
    let ends = 0;
    let inside = 0;
    const system: OdeSystem = {
      n,
      flows: 1,
      autonomous: true,
      rates(_t, y, out) {
        out.fill(0);
        out[n] = 5 * sink(y[0]!, half);
        out[0] = -out[n]!;
      },
    };
    const y = new Float64Array(n + 1);
    y[0] = 3;
    const result = make(system, {
      rtol,
      atol: 1e-5,
      nonNegative,
      onStep(step) {
        step.at(step.end, at);
        ends = Math.min(ends, at[0]!);
        for (let s = 0.05; s < 1; s += 0.05) {
          step.at(step.start + s * (step.end - step.start), at);
          inside = Math.min(inside, at[0]!);
        }
      },
    }).run(0, 1, y);
    expect(result.status).toBe("done");
    expect(Math.abs(y[0]! + y[n]! - 3)).toBeLessThan(1e-13);
    return { ends, inside };
  };
  const [rodas4p2, rodas, explicit] = methods.map(([, make]) => make);

  test("the rule rejects steps that would otherwise be accepted", () => {
    expect(lowest(rodas!, 60, 1e-5, 1e-2, []).ends).toBeLessThan(-4e-5);
    expect(lowest(rodas!, 60, 1e-5, 1e-2, [0]).ends).toBeGreaterThanOrEqual(-1e-5);
    expect(lowest(explicit!, 60, 1e-3, 1e-2, []).ends).toBeLessThan(-1e-3);
    expect(lowest(explicit!, 60, 1e-3, 1e-2, [0]).ends).toBeGreaterThanOrEqual(-1e-5);
  });

  test("and those whose interpolant dips: output between steps stays up too", () => {
    expect(lowest(rodas4p2!, 400, 1e-5, 1e-4, []).inside).toBeLessThan(-3e-5);
    // Only quarter points are looked at, so a little more than the allowance is possible between them.
    expect(lowest(rodas4p2!, 400, 1e-5, 1e-4, [0]).inside).toBeGreaterThan(-1.5e-5);
  });

  test("an outflow that does not fade ends in an honest failure that names the state and the time", () => {
    const leak: OdeSystem = { n: 1, flows: 0, autonomous: true, rates: (_t, _y, out) => out.set([-1]) };
    const y = Float64Array.from([1]);
    const result = integrate(leak, y, 0, 5, { atol: 1e-6, nonNegative: [0] });
    expect(result.status).toBe("negative");
    expect(result.state).toBe(0);
    expect(result.t).toBeCloseTo(1, 5);
    expect(y[0]).toBeGreaterThanOrEqual(-1e-6);
    expect(explainResult(result, ["leaking stock"])).toMatch(/leaking stock is driven below zero at t = 1\.0/);
  });

  test("a state that starts below zero is allowed to climb", () => {
    const climb: OdeSystem = { n: 1, flows: 0, autonomous: true, rates: (_t, y, out) => out.set([1 - y[0]!]) };
    const result = integrate(climb, Float64Array.from([-0.1]), 0, 1, { nonNegative: [0] });
    expect(result.status).toBe("done");
  });
});

describe("failures say where", () => {
  test.each(methods)("a solution that runs away to infinity (%s)", (_name, make) => {
    const blowUp: OdeSystem = { n: 2, flows: 0, rates: (_t, y, out) => out.set([1, y[1]! * y[1]!]) };
    const y = Float64Array.from([0, 1]);
    const result = make(blowUp, {}).run(0, 2, y);
    expect(["step-too-small", "not-finite"]).toContain(result.status);
    expect(result.t).toBeCloseTo(1, 4);
    expect(result.state).toBe(1);
    expect(explainResult(result, ["calm", "wild"])).toMatch(/wild/);
  });

  test.each(methods)("rates that are not numbers at the start, and later (%s)", (_name, make) => {
    const root: OdeSystem = {
      n: 1,
      flows: 1,
      autonomous: true,
      rates: (_t, y, out) => out.set([-1, Math.sqrt(y[0]!)]),
    };
    const atStart = make(root, {}).run(0, 1, Float64Array.from([-1, 0]));
    expect(atStart.status).toBe("not-finite");
    expect(atStart.t).toBe(0);
    const log: OdeSystem = { n: 1, flows: 0, rates: (t, _y, out) => out.set([Math.log(1 - t)]) };
    const later = make(log, {}).run(0, 3, Float64Array.from([0]));
    expect(later.status).not.toBe("done");
    expect(later.t).toBeGreaterThan(0.9);
    expect(later.t).toBeLessThanOrEqual(1);
  });

  test("maxSteps bounds the attempts", () => {
    const result = integrate(swing, new Float64Array(2), 0, 1e6, { maxSteps: 50 });
    expect(result.status).toBe("too-many-steps");
    expect(result.steps + result.rejected).toBe(50);
    expect(explainResult(result)).toContain("gave up at t =");
  });
});

describe("step control", () => {
  test.each(methods)("hMax holds, the end is met exactly, a good guess saves steps (%s)", (_name, make) => {
    const lengths: number[] = [];
    const integrator = make(swing, { hMax: 0.3, onStep: (step) => lengths.push(step.end - step.start) });
    const y = new Float64Array(2);
    const result = integrator.run(0, 7, y);
    expect(result.t).toBe(7);
    expect(Math.max(...lengths)).toBeLessThanOrEqual(0.3 * (1 + 1e-12));
    const guess = result.hNext;
    const cold = { ...integrator.run(7, 9, y.slice()) };
    const warm = { ...integrator.run(7, 9, y.slice(), guess) };
    expect(warm.steps).toBeLessThanOrEqual(cold.steps);
  });

  test("a rejected step is retried from the same Jacobian", () => {
    const kick: OdeSystem = {
      n: 1,
      flows: 0,
      rates: (t, y, out) => out.set([-y[0]! + 100 * Math.exp(-(((t - 1) / 0.01) ** 2))]),
    };
    const result = integrate(kick, new Float64Array(1), 0, 2, { rtol: 1e-5, hMax: 0.05 });
    expect(result.status).toBe("done");
    expect(result.rejected).toBeGreaterThan(0);
    expect(result.jacobians).toBe(result.steps);
  });
});
