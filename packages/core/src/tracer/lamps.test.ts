import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { shineOf } from "./beam.ts";
import { type Beam, type IntensityTable, type Lamp, rectangleLamp, trace } from "./index.ts";
import { rapidRandom } from "./rapid-random.ts";
import { cellAt, meanOf, panel, sumOf, tank } from "./scenes.testing.ts";

const aimed = (beam: Beam, tip = 0, turn = 0, lean = 0): Lamp => ({
  ...rectangleLamp({ x: 0.3, y: 0.15, z: 0.5, length: 0.2, width: 0.05, tip, turn, lean }, 0.3),
  beam,
});

/** The lobe cos^m told as a table. */
function tabulated(exponent: number, step: number, horizontal: readonly number[]): IntensityTable {
  const vertical = Array.from({ length: Math.round(90 / step) + 1 }, (_, i) => i * step);
  const row = vertical.map((angle) => 500 * Math.max(0, Math.cos((angle * Math.PI) / 180)) ** exponent);
  return { kind: "table", vertical, horizontal, intensity: Float64Array.from(horizontal.flatMap(() => row)) };
}

/** Flux by a sum over a fine even grid of directions. */
function flux(lamp: Lamp): number {
  const { value } = shineOf(lamp);
  let sum = 0;
  const [rings, turns] = [400, 400];
  for (let i = 0; i < rings; i++) {
    const c = 1 - (2 * (i + 0.5)) / rings;
    const s = Math.sqrt(1 - c * c);
    for (let j = 0; j < turns; j++) {
      const phi = (2 * Math.PI * (j + 0.5)) / turns;
      sum += value(s * Math.cos(phi), s * Math.sin(phi), c);
    }
  }
  return (sum * 4 * Math.PI) / (rings * turns);
}

const lopsided: IntensityTable = {
  kind: "table",
  vertical: [0, 20, 45, 70],
  horizontal: [0, 90, 180],
  intensity: Float64Array.of(5, 4, 2, 0, 5, 9, 3, 1, 5, 1, 0, 0),
};

describe("beams", () => {
  test("every beam is scaled to unit flux, whatever its table's scale and symmetry", () => {
    const beams: Beam[] = [
      { kind: "lobe", exponent: 0 },
      { kind: "lobe", exponent: 4.8 },
      tabulated(1, 5, [0]),
      tabulated(2, 10, [0, 45, 90]),
      lopsided,
      { ...lopsided, horizontal: [0, 200, 360] },
      { ...lopsided, horizontal: [0, 40, 90] },
    ];
    for (const beam of beams) expect(Math.abs(flux(aimed(beam, 20, 30, 10)) - 1)).toBeLessThan(0.004);
  });

  test("directions are drawn as the intensity has them", () => {
    for (const beam of [lopsided, { kind: "lobe", exponent: 3 } as const, tabulated(3, 15, [0])]) {
      const shine = shineOf(aimed(beam, 25, 40));
      const random = rapidRandom(3, 0);
      const out = new Float64Array(3);
      // Mean direction drawn against the one that the intensity's own sum gives.
      const drawn = [0, 0, 0];
      const count = 2e5;
      for (let k = 0; k < count; k++) {
        shine.sample(random, out);
        for (let axis = 0; axis < 3; axis++) drawn[axis]! += out[axis]! / count;
      }
      const summed = [0, 0, 0];
      const n = 300;
      for (let i = 0; i < n; i++) {
        const c = 1 - (2 * (i + 0.5)) / n;
        for (let j = 0; j < n; j++) {
          const phi = (2 * Math.PI * (j + 0.5)) / n;
          const s = Math.sqrt(1 - c * c);
          const d = [s * Math.cos(phi), s * Math.sin(phi), c] as const;
          const weight = (shine.value(...d) * 4 * Math.PI) / (n * n);
          for (let axis = 0; axis < 3; axis++) summed[axis]! += weight * d[axis]!;
        }
      }
      for (let axis = 0; axis < 3; axis++) expect(Math.abs(drawn[axis]! - summed[axis]!)).toBeLessThan(0.005);
    }
  });

  test("a tilted lamp with a tabulated beam gives the map of the lobe that was tabulated", () => {
    const map = (beam: Beam) => trace(tank({ lamps: [aimed(beam, 25, 15)] }), { photons: 0 }).lamps[0]!.ground[0]!;
    const lobe = map({ kind: "lobe", exponent: 2 });
    for (const table of [tabulated(2, 2.5, [0]), tabulated(2, 2.5, [0, 30, 60, 90, 180, 360])]) {
      const own = map(table);
      const rms = Math.sqrt(meanOf(own.map((value, k) => (value - lobe[k]!) ** 2))) / meanOf(lobe);
      // A table that is straight between 2.5 degrees lies up to 0.05 % of its peak off the lobe.
      expect(rms).toBeLessThan(0.001);
    }
  });

  test("tip sends the beam to the back, lean to the right, a half turn the other way", () => {
    const beam: Beam = { kind: "lobe", exponent: 20 };
    const skew = (lamp: Lamp): readonly [number, number] => {
      const scene = tank({ lamps: [lamp] });
      const map = trace(scene, { photons: 0, directNoise: 0.01 }).lamps[0]!.ground[0]!;
      return [
        cellAt(map, scene, 0.11, 0) / cellAt(map, scene, -0.11, 0),
        cellAt(map, scene, 0, 0.1) / cellAt(map, scene, 0, -0.1),
      ];
    };
    expect(skew(aimed(beam, 20))[1]).toBeGreaterThan(1.5);
    expect(skew(aimed(beam, 20, 180))[1]).toBeLessThan(0.67);
    expect(skew(aimed(beam, 0, 0, 20))[0]).toBeGreaterThan(1.5);
    expect(Math.abs(skew(aimed(beam))[0] - 1)).toBeLessThan(0.05);
  });

  test("parts of a rectangle keep to a quarter of the height and share the flux", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 1, noNaN: true }),
        fc.double({ min: 0.02, max: 0.4, noNaN: true }),
        fc.double({ min: 0.1, max: 0.6, noNaN: true }),
        fc.double({ min: -180, max: 180, noNaN: true }),
        (length, width, h, turn) => {
          const { emitters, axis } = rectangleLamp({ x: 0, y: 0, z: 0.3 + h, length, width, turn }, 0.3);
          expect(Math.abs(sumOf(emitters.map((e) => e.share)) - 1)).toBeLessThan(1e-9);
          expect(axis[2]).toBeCloseTo(-1, 12);
          for (const { halves } of emitters) {
            for (const half of halves!) expect(2 * Math.hypot(...half)).toBeLessThanOrEqual(h / 4 + 1e-9);
          }
          expect(sumOf(emitters.map((e) => e.x))).toBeCloseTo(0, 9);
        },
      ),
      { numRuns: 50 },
    );
    expect(() => rectangleLamp({ x: 0, y: 0, z: 0.32, length: 0.1, width: 0.1, tip: 45 }, 0.3)).toThrow(/lowest edge/);
    expect(() => rectangleLamp({ x: 0, y: 0, z: 0.4, length: 0, width: 0.1 }, 0.3)).toThrow(RangeError);
  });
});

describe("transport is linear and symmetric", () => {
  test("two lamps together are the sum of each, alone or as one lamp of two parts", () => {
    const one = panel([0.15, 0.1, 0.45], 0.1, 0.1, 0.3);
    const other = panel([0.4, 0.2, 0.42], 0.2, 0.06, 0.3);
    const halved = (lamp: Lamp) => lamp.emitters.map((e) => ({ ...e, share: e.share / 2 }));
    const both: Lamp = { ...one, emitters: [...halved(one), ...halved(other)] };
    const options = { photons: 0, directNoise: 0.003 };
    const cells = { columns: 12, rows: 6 };
    const apart = trace(tank({ cells, lamps: [one, other] }), options).lamps.map((lamp) => lamp.ground[0]!);
    const joined = trace(tank({ cells, lamps: [both] }), options).lamps[0]!.ground[0]!;
    const rms = Math.sqrt(meanOf(joined.map((v, k) => (v - (apart[0]![k]! + apart[1]![k]!) / 2) ** 2)));
    expect(rms / meanOf(joined)).toBeLessThan(0.006);
    const alone = trace(tank({ cells, lamps: [other] }), options).lamps[0]!.ground[0]!;
    expect(Math.max(...alone.map((v, k) => Math.abs(v / apart[1]![k]! - 1)))).toBeLessThan(1e-12);
  });

  test("mirror cells of the symmetric tank agree within the stated noise", () => {
    const lamp = trace(tank(), { photons: 0 }).lamps[0]!;
    const map = lamp.ground[0]!;
    let square = 0;
    for (let j = 0; j < 15; j++) for (let i = 0; i < 30; i++) square += (map[j * 30 + i]! - map[j * 30 + 29 - i]!) ** 2;
    const rms = Math.sqrt(square / 450 / 2) / meanOf(map);
    expect(rms).toBeLessThan(1.2 * lamp.noise.direct);
    expect(lamp.noise.direct).toBeLessThanOrEqual(0.003);
  });
});
