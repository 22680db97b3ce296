import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { createIntegrator, dormandPrince, integrate, type OdeSystem, setIdentity } from "./index.ts";

/** Smooth, nonlinear, time-dependent; solution phi(t), and the flow is the integral of the product. */
const phi = (t: number): [number, number] => [1 + 0.5 * Math.sin(t), Math.exp(-t / 2)];
const flowOfPhi = (t: number): number => {
  const at = (x: number): number => -2 * Math.exp(-x / 2) - 0.4 * Math.exp(-x / 2) * (0.5 * Math.sin(x) + Math.cos(x));
  return at(t) - at(0);
};
const pull = (a: number, b: number): [number, number] => [
  a * b - 0.7 * b * b - 2 * a,
  -a * a + Math.sin(2 * b) - 3 * b,
];
const manufactured: OdeSystem = {
  n: 2,
  flows: 1,
  rates(t, y, out) {
    const [p, q] = phi(t);
    const here = pull(y[0]!, y[1]!);
    const there = pull(p, q);
    out[0] = here[0] - there[0] + 0.5 * Math.cos(t);
    out[1] = here[1] - there[1] - 0.5 * q;
    out[2] = y[0]! * y[1]!;
  },
  jacobian(_t, y, out) {
    out.set([y[1]! - 2, y[0]! - 1.4 * y[1]!, -2 * y[0]!, 2 * Math.cos(2 * y[1]!) - 3, y[1]!, y[0]!]);
  },
};

const stiffTarget = (lambda: number): OdeSystem => ({
  n: 1,
  flows: 0,
  rates(t, y, out) {
    out[0] = lambda * (y[0]! - Math.sin(t)) + Math.cos(t);
  },
  jacobian(_t, _y, out) {
    out[0] = lambda;
  },
});

/** Largest error at step ends and inside steps, with steps of fixed length (a vast atol accepts each). */
function fixedStepErrors(
  system: OdeSystem,
  start: readonly number[],
  exact: (t: number) => readonly number[],
  steps: number,
  method: "rodas" | "rodas4p2",
): { ends: number; inside: number } {
  const h = 2 / steps;
  const y = Float64Array.from(start);
  const at = new Float64Array(start.length);
  let ends = 0;
  let inside = 0;
  const miss = (t: number): number => exact(t).reduce((m, v, i) => Math.max(m, Math.abs(v - at[i]!)), 0);
  const result = integrate(system, y, 0, 2, {
    method,
    rtol: 1e-13,
    atol: 1e6,
    h0: h,
    hMax: h,
    onStep(step) {
      for (const s of [0.25, 0.5, 0.75]) {
        const t = step.start + s * (step.end - step.start);
        step.at(t, at);
        inside = Math.max(inside, miss(t));
      }
      step.at(step.end, at);
      ends = Math.max(ends, miss(step.end));
    },
  });
  expect(result.steps).toBe(steps);
  return { ends, inside };
}

const order = (coarse: number, fine: number): number => Math.log2(coarse / fine);

describe.each(["rodas", "rodas4p2"] as const)("observed order of %s", (method) => {
  const exact = (t: number): number[] => [...phi(t), flowOfPhi(t)];
  test("4 at step ends and 4 (3 + 1) inside on a smooth problem with flow", () => {
    const [a, b, c, d] = [20, 40, 80, 160].map((n) => fixedStepErrors(manufactured, exact(0), exact, n, method));
    expect(order(a!.ends, b!.ends)).toBeGreaterThan(3.8);
    expect(order(b!.ends, c!.ends)).toBeGreaterThan(3.8);
    expect(order(c!.inside, d!.inside)).toBeGreaterThan(3.8);
  });
});

describe("stiff target (prothero_robinson_1974)", () => {
  const exact = (t: number): number[] => [Math.sin(t)];
  test.each([-1e5, -1e7])("RODAS4P2 keeps order 3 at step ends and 4 inside, lambda = %d", (lambda) => {
    const [a, b] = [10, 20].map((n) => fixedStepErrors(stiffTarget(lambda), [0], exact, n, "rodas4p2"));
    expect(order(a!.ends, b!.ends)).toBeGreaterThan(2.8);
    expect(a!.ends).toBeLessThan(1e-4 / Math.abs(lambda));
    expect(order(a!.inside, b!.inside)).toBeGreaterThan(3.8);
  });
  test("RODAS falls to order 1 there, with a tiny constant", () => {
    const [a, b] = [20, 40].map((n) => fixedStepErrors(stiffTarget(-1e5), [0], exact, n, "rodas"));
    expect(order(a!.ends, b!.ends)).toBeGreaterThan(0.7);
    expect(order(a!.ends, b!.ends)).toBeLessThan(1.5);
    expect(a!.ends).toBeLessThan(1e-2 / 1e5);
  });
});

describe("tolerance", () => {
  test("error follows the tolerance with a difference Jacobian", () => {
    const numeric: OdeSystem = { n: 2, flows: 1, rates: manufactured.rates };
    for (const rtol of [1e-3, 1e-5, 1e-7, 1e-9]) {
      const y = Float64Array.from([...phi(0), 0]);
      const result = integrate(numeric, y, 0, 10, { rtol, atol: rtol * 0.1 });
      expect(result.status).toBe("done");
      const error = Math.max(Math.abs(y[0]! - phi(10)[0]), Math.abs(y[1]! - phi(10)[1]));
      expect(error).toBeLessThan(10 * rtol);
      expect(Math.abs(y[2]! - flowOfPhi(10))).toBeLessThan(10 * rtol);
    }
  });

  test("an exact Jacobian and a difference one take the same steps, within a tenth", () => {
    for (const rtol of [1e-3, 1e-6, 1e-9]) {
      const steps = [manufactured, { n: 2, flows: 1, rates: manufactured.rates }].map(
        (s) => integrate(s, Float64Array.from([...phi(0), 0]), 0, 20, { rtol, atol: rtol }).steps,
      );
      expect(Math.abs(steps[0]! / steps[1]! - 1)).toBeLessThan(0.1);
    }
  });

  test("agrees with the explicit method to 1e-8 on problems that are not stiff", () => {
    const pendulumAndPredators: OdeSystem = {
      n: 4,
      flows: 1,
      rates(t, y, out) {
        out[0] = y[1]!;
        out[1] = -Math.sin(y[0]!) - 0.1 * y[1]! + 0.3 * Math.cos(1.3 * t);
        out[2] = y[2]! * (1.1 - 0.7 * y[3]!);
        out[3] = y[3]! * (0.5 * y[2]! - 0.9);
        out[4] = y[2]! * y[3]!;
      },
    };
    const a = Float64Array.from([1, 0, 1.5, 0.8, 0]);
    const b = a.slice();
    integrate(pendulumAndPredators, a, 0, 15, { rtol: 1e-10, atol: 1e-12 });
    dormandPrince(pendulumAndPredators, b, 0, 15, { rtol: 1e-11, atol: 1e-13 });
    a.forEach((v, i) => {
      expect(Math.abs(v - b[i]!)).toBeLessThan(1e-8 * Math.max(1, Math.abs(v)));
    });
  });
});

describe("conservation", () => {
  const leafN = 0.1506;
  const grazerN = 0.1932;
  const wasteN = 0.0871;
  /** Invented food web with odd element ratios, fast gas exchange and exports: nitrogen and carbon close. */
  const foodWeb: OdeSystem = {
    n: 6,
    flows: 4,
    rates(t, y, out) {
      const [nitrogen, leaf, grazer, waste, carbon, oxygen] = y as unknown as [
        number,
        number,
        number,
        number,
        number,
        number,
      ];
      const light = 1 + 0.9 * Math.sin(6.283 * t);
      const growth = (2.3 * light * leaf * nitrogen * carbon) / ((nitrogen + 0.05) * (carbon + 0.3));
      const grazed = (1.7 * grazer * leaf * leaf) / (leaf * leaf + 0.09);
      const kept = 0.6 * (leafN / grazerN);
      const shed = 0.13 * leaf;
      const dead = 0.21 * grazer;
      const breath = 0.05 * grazer;
      const decay = 0.37 * waste;
      const exported = 0.11 * waste;
      const lost = 50 * (carbon - 1.03);
      const gained = 20_000 * (0.25 - oxygen);
      out[0] =
        -leafN * growth +
        wasteN * decay +
        grazerN * breath +
        (leafN - wasteN) * shed +
        (grazerN - wasteN) * dead +
        (leafN - kept * grazerN - (1 - kept) * wasteN) * grazed;
      out[1] = growth - grazed - shed;
      out[2] = kept * grazed - dead - breath;
      out[3] = shed + dead + (1 - kept) * grazed - decay - exported;
      out[4] = -growth + decay + breath - lost;
      out[5] = 1.3 * growth - 1.1 * decay + gained;
      out[6] = exported;
      out[7] = lost;
      out[8] = gained;
      out[9] = 1.3 * growth - 1.1 * decay;
    },
  };
  const totals = (y: Float64Array): number[] => [
    y[0]! + leafN * y[1]! + grazerN * y[2]! + wasteN * (y[3]! + y[6]!),
    y[1]! + y[2]! + y[3]! + y[4]! + y[6]! + y[7]!,
    y[5]! - y[8]! - y[9]!,
  ];
  const begin = [1, 0.1, 0.05, 0.2, 1, 0.25, 0, 0, 0, 0];

  test.each([1e-2, 1e-3, 1e-4, 1e-6, 1e-8])(
    "linear invariants of states and flows hold to 1e-12 at rtol %d",
    (rtol) => {
      for (const method of ["rodas", "rodas4p2"] as const) {
        const y = Float64Array.from(begin);
        const before = totals(y);
        // At rtol 1e-2 the states themselves are off by about a percent; the sums must not be.
        const result = integrate(foodWeb, y, 0, 60, { rtol, atol: rtol * 0.01, method });
        expect(result.status).toBe("done");
        const scale = [before[0]!, before[1]!, Math.max(Math.abs(y[8]!), Math.abs(y[9]!))];
        totals(y).forEach((v, i) => {
          expect(Math.abs(v - before[i]!) / scale[i]!).toBeLessThan(1e-12);
        });
      }
    },
  );

  test("they hold inside steps too", () => {
    const before = totals(Float64Array.from(begin));
    const at = new Float64Array(10);
    let worst = 0;
    integrate(foodWeb, Float64Array.from(begin), 0, 20, {
      rtol: 1e-2,
      atol: 1e-4,
      onStep(step) {
        step.at(0.3 * step.start + 0.7 * step.end, at);
        totals(at).forEach((v, i) => {
          worst = Math.max(worst, Math.abs(v - before[i]!));
        });
      },
    });
    expect(worst).toBeLessThan(1e-12 * 20);
  });

  test("random exchange networks keep every conserved sum", () => {
    const network = fc.record({
      rates: fc.array(
        fc.record({
          from: fc.integer({ min: 0, max: 4 }),
          to: fc.integer({ min: 0, max: 4 }),
          k: fc.double({ min: -3, max: 5, noNaN: true }),
          order: fc.constantFrom(1, 2),
        }),
        { minLength: 1, maxLength: 12 },
      ),
      content: fc.array(fc.double({ min: 0.05, max: 3, noNaN: true }), { minLength: 5, maxLength: 5 }),
    });
    fc.assert(
      fc.property(network, ({ rates, content }) => {
        // An exchange moves matter between pools of different element content: content . y stays constant.
        const system: OdeSystem = {
          n: 5,
          flows: 1,
          autonomous: true,
          rates(_t, y, out) {
            out.fill(0);
            for (const { from, to, k, order: power } of rates) {
              if (from === to) continue;
              const r = 10 ** k * y[from]! ** power;
              out[5] = out[5]! + r;
              out[from] = out[from]! - r / content[from]!;
              out[to] = out[to]! + r / content[to]!;
            }
          },
        };
        const y = Float64Array.from([1, 0.5, 0.2, 2, 0.1, 0]);
        const total = (): number => content.reduce((sum, c, i) => sum + c * y[i]!, 0);
        const before = total();
        integrate(system, y, 0, 3, { rtol: 1e-2, atol: 1e-4 });
        // The rates round to a part in 1e16 of the gross exchange, which may be far more than the stock.
        expect(Math.abs(total() - before)).toBeLessThan(1e-12 * before + 1e-14 * y[5]!);
      }),
      { numRuns: 60 },
    );
  });
});

describe("sensitivity", () => {
  test("equals the matrix exponential on a linear system, to second order", () => {
    const k = 3;
    const w = 2;
    const linear: OdeSystem = {
      n: 2,
      flows: 0,
      autonomous: true,
      rates(_t, y, out) {
        out[0] = -k * y[0]! + w * y[1]!;
        out[1] = -w * y[0]! - k * y[1]!;
      },
    };
    const error = (h: number): number => {
      const phiMatrix = new Float64Array(4);
      setIdentity(phiMatrix, 2);
      integrate(linear, Float64Array.from([1, 0]), 0, 1, {
        atol: 1e6,
        h0: h,
        hMax: h,
        rtol: 1e-10,
        sensitivity: phiMatrix,
      });
      const decay = Math.exp(-k);
      const exact = [decay * Math.cos(w), decay * Math.sin(w), -decay * Math.sin(w), decay * Math.cos(w)];
      return Math.max(...exact.map((v, i) => Math.abs(v - phiMatrix[i]!)));
    };
    // A linear system lets the difference quotient be as wide as the vast atol makes it.
    expect(error(0.05)).toBeLessThan(1e-3);
    expect(order(error(0.05), error(0.025))).toBeGreaterThan(1.8);
  });

  test("approximates differences of solutions of a stiff nonlinear system, and chains over runs", () => {
    const system: OdeSystem = {
      n: 3,
      flows: 1,
      rates(t, y, out) {
        const uptake = (y[0]! * y[1]!) / (0.2 + y[0]!);
        out[0] = 1 + 0.5 * Math.sin(t) - uptake - 0.1 * y[0]!;
        out[1] = 0.5 * uptake - 0.2 * y[1]!;
        out[2] = 1000 * (y[0]! - y[2]!);
        out[3] = uptake;
      },
    };
    const phiMatrix = new Float64Array(9);
    setIdentity(phiMatrix, 3);
    const start = [0.5, 1, 0.4, 0];
    const integrator = createIntegrator(system, { rtol: 1e-4, atol: 1e-6, sensitivity: phiMatrix });
    const y = Float64Array.from(start);
    integrator.run(0, 2, y);
    integrator.run(2, 5, y);
    for (let j = 0; j < 3; j++) {
      const [up, down] = [1, -1].map((sign) => {
        const z = Float64Array.from(start);
        z[j] = z[j]! + sign * 1e-4;
        integrate(system, z, 0, 5, { rtol: 1e-10, atol: 1e-12 });
        return z;
      });
      for (let i = 0; i < 3; i++) {
        const exact = (up![i]! - down![i]!) / 2e-4;
        expect(Math.abs(phiMatrix[i * 3 + j]! - exact)).toBeLessThan(0.03);
      }
    }
  });
});

describe("workspace", () => {
  test("runs in pieces end where one run ends, and a later run does not remember an earlier one", () => {
    const options = { rtol: 1e-8, atol: 1e-10 };
    const whole = Float64Array.from([...phi(0), 0]);
    integrate(manufactured, whole, 0, 6, options);
    const integrator = createIntegrator(manufactured, options);
    const piece = Float64Array.from([...phi(0), 0]);
    for (const [a, b] of [
      [0, 1.5],
      [1.5, 1.5],
      [1.5, 4],
      [4, 6],
    ] as const) {
      expect(integrator.run(a, b, piece).t).toBe(b);
    }
    whole.forEach((v, i) => {
      expect(Math.abs(v - piece[i]!)).toBeLessThan(1e-7);
    });
    const again = Float64Array.from([...phi(0), 0]);
    const first = integrator.run(0, 6, again);
    const counts = [first.steps, first.rateCalls, first.factorizations];
    const fresh = Float64Array.from([...phi(0), 0]);
    const second = createIntegrator(manufactured, options).run(0, 6, fresh);
    expect([second.steps, second.rateCalls, second.factorizations]).toEqual(counts);
    expect(again).toEqual(fresh);
  });

  test("counts its work: 5 stages, n columns, one time derivative and one slope per step", () => {
    const plain: OdeSystem = { n: 2, flows: 1, rates: manufactured.rates };
    let calls = 0;
    const counted: OdeSystem = {
      ...plain,
      rates(t, y, out) {
        calls++;
        plain.rates(t, y, out);
      },
    };
    const result = integrate(counted, Float64Array.from([...phi(0), 0]), 0, 10, { rtol: 1e-5, atol: 1e-6, h0: 0.01 });
    expect(result.rateCalls).toBe(calls);
    expect(result.jacobians).toBe(result.steps);
    expect(result.factorizations).toBe(result.steps + result.rejected);
    expect(calls).toBe(result.steps * (5 + 2 + 1 + 1) + result.rejected * 5);
  });

  test("refuses options and arguments that make no sense", () => {
    expect(() => createIntegrator(manufactured, { rtol: 0 })).toThrow(/rtol/);
    expect(() => createIntegrator(manufactured, { atol: 0 })).toThrow(/atol of state 0/);
    expect(() => createIntegrator(manufactured, { atol: new Float64Array(3).fill(1) })).toThrow(/3 entries for 2/);
    expect(() => createIntegrator(manufactured, { nonNegative: [2] })).toThrow(/not a state/);
    expect(() => createIntegrator(manufactured, { sensitivity: new Float64Array(3) })).toThrow(/2 x 2/);
    expect(() => createIntegrator({ ...manufactured, n: 0 })).toThrow(/at least one state/);
    const integrator = createIntegrator(manufactured);
    expect(() => integrator.run(0, 1, new Float64Array(2))).toThrow(/the system has 3/);
    expect(() => integrator.run(1, 0, new Float64Array(3))).toThrow(/from t = 1 to t = 0/);
  });
});
