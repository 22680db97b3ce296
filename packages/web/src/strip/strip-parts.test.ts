import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Labels, textWidth } from "./labels.ts";
import { scaleFor, widen } from "./scale.ts";
import { valueAt } from "./time.ts";

describe("axis of a row", () => {
  const values = fc.array(fc.double({ min: -50, max: 400, noNaN: true }), { minLength: 1, maxLength: 40 });

  test("holds every value, in round steps, with no more labels than asked", () => {
    fc.assert(
      fc.property(values, fc.integer({ min: 2, max: 8 }), (all, most) => {
        const scale = scaleFor(all, most);
        expect(Math.min(...all)).toBeGreaterThanOrEqual(scale.low);
        expect(Math.max(...all)).toBeLessThanOrEqual(scale.high);
        expect(scale.ticks.length).toBeLessThanOrEqual(most + 1);
        for (const tick of scale.ticks) expect(Number(tick.toFixed(scale.decimals))).toBeCloseTo(tick, 6);
      }),
    );
  });

  test("stays still while values move inside it, and grows when it must", () => {
    const kept = scaleFor([0, 20], 4, { floor: 0 });
    expect(widen(kept, scaleFor([4, 12], 4), 4)).toBe(kept);
    const grown = widen(kept, scaleFor([0, 60], 4), 4);
    expect(grown.high).toBeGreaterThan(60);
    expect(grown.low).toBeLessThanOrEqual(kept.low);
  });

  test("a row of one value, or of none that is a number, still has an axis", () => {
    expect(scaleFor([7], 3).high).toBeGreaterThan(scaleFor([7], 3).low);
    expect(scaleFor([Number.NaN], 3)).toMatchObject({ low: expect.any(Number), high: expect.any(Number) });
  });
});

describe("labels", () => {
  test("none covers another, none leaves the strip, and one that cannot stand is left out", () => {
    const spot = fc.record({
      x: fc.integer({ min: -20, max: 420 }),
      y: fc.integer({ min: -10, max: 220 }),
      anchor: fc.constantFrom("start" as const, "middle" as const, "end" as const),
    });
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.string({ minLength: 1, maxLength: 12 }), fc.array(spot, { maxLength: 4 })), {
          maxLength: 12,
        }),
        (asked) => {
          const labels = new Labels({ x: 0, y: 0, width: 400, height: 200 });
          const boxes = asked.flatMap(([text, spots]) => {
            const at = labels.place(text, spots);
            if (!at) return [];
            const width = textWidth(text);
            const x = at.anchor === "start" ? at.x : at.anchor === "end" ? at.x - width : at.x - width / 2;
            return [{ left: x, right: x + width, top: at.y - 12, bottom: at.y + 3 }];
          });
          for (const [i, a] of boxes.entries()) {
            expect(a.left).toBeGreaterThanOrEqual(0);
            expect(a.right).toBeLessThanOrEqual(400);
            for (const b of boxes.slice(i + 1)) {
              const apart = a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top;
              expect(apart).toBe(true);
            }
          }
        },
      ),
    );
  });
});

test("a curve is read straight between its points and held at its ends", () => {
  const hours = Float64Array.from([0, 1, 2]);
  const values = Float64Array.from([10, 20, 0]);
  expect([0, 0.5, 1, 1.75, 2, 3].map((h) => valueAt(hours, values, h))).toEqual([10, 15, 20, 5, 0, 0]);
});
