import fc from "fast-check";
import { expect, test } from "vitest";
import { type AcidSystem, hydrogenRoot, noAcids } from "./hydrogen-root.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const maybe = (low: number, high: number) =>
  fc.oneof(
    fc.constant(0),
    between(Math.log10(low), Math.log10(high)).map((x) => 10 ** x),
  );

function alkalinityAt(h: number, s: AcidSystem): number {
  const q = s.dic / (h * h + s.k1 * h + s.k1 * s.k2);
  const p3 = s.kPO4 / h;
  const p1 = s.kH2PO4 * h;
  const p0 = s.kH3PO4 * h * h;
  return (
    q * s.k1 * (h + 2 * s.k2) +
    s.kw / h -
    h * s.hydrogen +
    (s.boron * s.kBoric) / (s.kBoric + h) +
    (s.ammonium * s.kAmmonium) / (s.kAmmonium + h) +
    (s.phosphate * (1 + 2 * p3 - p0)) / (1 + p3 + p1 + p0) -
    (s.sulfate * s.kHSO4 * h) / (1 + s.kHSO4 * h)
  );
}

const acids: fc.Arbitrary<AcidSystem> = fc
  .record({
    dic: maybe(1e-9, 0.05),
    boron: maybe(1e-8, 1e-3),
    ammonium: maybe(1e-8, 1e-3),
    phosphate: maybe(1e-8, 1e-2),
    sulfate: maybe(1e-8, 1e-2),
  })
  .map((x) => ({
    ...noAcids(),
    ...x,
    k1: 10 ** -6.35,
    k2: 10 ** -10.33,
    kw: 1e-14,
    hydrogen: 1.1,
    kBoric: 10 ** -9.24,
    kAmmonium: 10 ** -9.24,
    kPO4: 10 ** -12.35,
    kH2PO4: 10 ** 7.2,
    kH3PO4: 10 ** 9.35,
    kHSO4: 10 ** 1.99,
  }));

test("finds the one root from any water, within few evaluations", () => {
  let most = 0;
  const root = { h: 0, evaluations: 0 };
  fc.assert(
    fc.property(acids, between(-0.05, 0.05), between(-9, -2), fc.boolean(), (s, big, small, tiny) => {
      const alk = tiny ? Math.sign(big) * 10 ** small : big;
      hydrogenRoot(alk, s, 1e-12, root);
      most = Math.max(most, root.evaluations);
      // Alkalinity falls as h rises: the sign must change across the root.
      expect(alkalinityAt(root.h * (1 - 1e-8), s)).toBeGreaterThan(alk - 1e-15);
      expect(alkalinityAt(root.h * (1 + 1e-8), s)).toBeLessThan(alk + 1e-15);
    }),
    { numRuns: 3000 },
  );
  expect(most).toBeLessThan(60);
});

test("ordinary waters take at most eight evaluations", () => {
  const root = { h: 0, evaluations: 0 };
  const s = { ...noAcids(), k1: 10 ** -6.352, k2: 10 ** -10.329, kw: 1e-14 };
  for (const alk of [1e-4, 1e-3, 2e-3, 5e-3]) {
    for (const dic of [1e-4, 1e-3, 2e-3, 1e-2]) {
      hydrogenRoot(alk, { ...s, dic }, 1e-8, root);
      expect(root.evaluations).toBeLessThanOrEqual(8);
    }
  }
});
