import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { createRandom } from "../numerics/index.ts";
import {
  backscatterShare,
  beamAngleOf,
  beamFootprint,
  bentRay,
  cornerFactor,
  diffusePaneTransmission,
  diffuseReflectance,
  diffuseReflectanceInside,
  diffuseThroughWater,
  discInAir,
  evenEscape,
  floorEscape,
  fresnel,
  lampOutOfWater,
  lampThroughSurface,
  lobeFromBeamAngle,
  lobeIntensity,
  lobeShareWithin,
  panelInAir,
  panelToOpening,
  phaseFunction,
  pointByPoint,
  pointInAir,
  rectangle,
  reflectance,
  returnedFromSurface,
  rippleFocus,
  rippleSlope,
  stripInAir,
  windSlopes,
} from "./index.ts";

/** Midpoint rule, independent of the room's own quadrature. */
function sum(f: (x: number) => number, a: number, b: number, steps: number): number {
  const h = (b - a) / steps;
  let total = 0;
  for (let i = 0; i < steps; i += 1) total += f(a + (i + 0.5) * h);
  return total * h;
}

describe("lobes", () => {
  test("hold the whole flux, and half of the peak at half the beam angle", () => {
    for (const beam of [15, 45, 90, 120]) {
      const m = lobeFromBeamAngle(beam);
      expect(beamAngleOf(m)).toBeCloseTo(beam, 9);
      expect(lobeIntensity(1, m, Math.cos((beam * Math.PI) / 360)) / lobeIntensity(1, m, 1)).toBeCloseTo(0.5, 12);
      const flux = sum((t) => 2 * Math.PI * lobeIntensity(3, m, Math.cos(t)) * Math.sin(t), 0, Math.PI / 2, 20_000);
      expect(flux).toBeCloseTo(3, 5);
      expect(lobeShareWithin(m, Math.PI / 2)).toBeCloseTo(1, 12);
    }
    expect(lobeIntensity(1, 0, -0.1)).toBe(0);
    expect(() => lobeFromBeamAngle(180)).toThrow("above 0 and below 180 deg");
  });

  test("a beam narrows in water", () => {
    expect(beamFootprint(60, 0.2, 0, 1.333)).toBeCloseTo(0.2 * Math.tan(Math.PI / 6), 12);
    expect(beamFootprint(60, 0.2, 0.4, 1.333)).toBeLessThan(0.6 * Math.tan(Math.PI / 6));
    expect(beamFootprint(60, 0.2, 0.4, 1)).toBeCloseTo(0.6 * Math.tan(Math.PI / 6), 12);
  });
});

describe("fields in air against summed points", () => {
  const matt = (flux: number, h: number, off: number): number =>
    pointInAir(lobeIntensity(flux, 1, h / Math.hypot(h, off)), h, off);

  test("panel and strip", () => {
    const at = (x: number, y: number): number => {
      let e = 0;
      for (let i = 0; i < 160; i += 1) {
        for (let j = 0; j < 48; j += 1) {
          const px = -0.2 + (0.4 * (i + 0.5)) / 160;
          const py = -0.06 + (0.12 * (j + 0.5)) / 48;
          e += matt(100 / (160 * 48), 0.45, Math.hypot(px - x, py - y));
        }
      }
      return e;
    };
    for (const [x, y] of [
      [0, 0],
      [0.15, 0.05],
      [-0.28, 0.13],
    ] as const) {
      expect(panelInAir(100, 0.4, 0.12, 0.45, x, y) / at(x, y)).toBeCloseTo(1, 4);
    }
    const strip = sum((x) => matt(100 / 0.6, 0.3, Math.hypot(x, 0.15)), -0.3, 0.3, 4000);
    expect(stripInAir(100, 0.6, 0.3, 0.15) / strip).toBeCloseTo(1, 6);
  });

  test("everything small is a point; at five times its size within 1 %", () => {
    const point = matt(1, 1, 0.4);
    expect(stripInAir(1, 1e-6, 1, 0.4) / point).toBeCloseTo(1, 9);
    expect(stripInAir(1, 1.01e-4, 1, 0.4) / stripInAir(1, 2.16e-4, 1, 0.4)).toBeCloseTo(1, 7);
    expect(panelInAir(1, 1e-3, 1e-3, 1, 0.4, 0) / point).toBeCloseTo(1, 5);
    expect(Math.abs(discInAir(1, 0.1, 1) / matt(1, 1, 0) - 1)).toBeLessThan(0.0101);
  });

  test("a wide rectangle fills a quarter of the view from opposite its corner; negative sides count negative", () => {
    expect(cornerFactor(1e6, 1e6)).toBeCloseTo(0.25, 5);
    expect(cornerFactor(-1, 2)).toBe(-cornerFactor(1, 2));
  });

  test("a source behind the receiver gives nothing; at no distance there is no answer", () => {
    expect(
      pointByPoint([
        { intensity: 9, cosine: -1, distance: 1 },
        { intensity: 8, cosine: 0.5, distance: 2 },
      ]),
    ).toBe(1);
    expect(() => pointByPoint([{ intensity: 1, cosine: 1, distance: 0 }])).toThrow("source 1: distance 0 m");
    expect(() => discInAir(1, 1, 0)).toThrow("height above the plane: 0 m");
    expect(() => panelInAir(1, 0, 1, 1, 0, 0)).toThrow("both must be above 0");
  });

  test("panel to opening: the irradiance summed over the opening; all of it when the opening is wide", () => {
    let e = 0;
    for (let i = 0; i < 80; i += 1) {
      for (let j = 0; j < 80; j += 1) {
        e += panelInAir(
          1,
          0.4,
          0.12,
          0.15,
          -0.3 + (0.6 * (i + 0.5)) / 80 - 0.07,
          -0.15 + (0.3 * (j + 0.5)) / 80 + 0.03,
        );
      }
    }
    const shifted = panelToOpening(rectangle(0.4, 0.12, 0.07, -0.03), rectangle(0.6, 0.3), 0.15);
    expect(shifted).toBeCloseTo((e * 0.18) / 6400, 4);
    expect(panelToOpening(rectangle(0.4, 0.12), rectangle(2000, 2000), 0.15)).toBeCloseTo(1, 6);
    expect(() => panelToOpening(rectangle(0, 1), rectangle(1, 1), 1)).toThrow("from a lower to a higher end");
  });

  test("two panels: each sees as much of the other as reciprocity asks", () => {
    const size = fc.double({ min: 0.05, max: 2, noNaN: true });
    fc.assert(
      fc.property(size, size, size, size, size, fc.double({ min: -1, max: 1, noNaN: true }), (a, b, c, d, gap, x) => {
        const one = rectangle(a, b, x, 0);
        const other = rectangle(c, d);
        expect(a * b * panelToOpening(one, other, gap)).toBeCloseTo(c * d * panelToOpening(other, one, gap), 9);
      }),
      { numRuns: 100, seed: 3 },
    );
  });
});

describe("the surface", () => {
  test("reflects alike from both sides along the same ray", () => {
    for (const angle of [0, 0.3, 0.9, 1.3, 1.5]) {
      const inside = Math.sqrt(1 - (Math.sin(angle) / 1.333) ** 2);
      expect(reflectance(Math.cos(angle), 1, 1.333)).toBeCloseTo(reflectance(inside, 1.333, 1), 12);
    }
  });

  test("Brewster's angle has none of one polarisation", () => {
    expect(fresnel(Math.cos(Math.atan(1.333)), 1, 1.333).p).toBeCloseTo(0, 12);
  });

  test("diffuse reflection from below agrees with its own integral (identity of both ways)", () => {
    const limit = Math.sqrt(1 - 1 / 1.333 ** 2);
    // cosines from the limit on by their square root, which the steep start at the critical angle asks for
    const partly = sum(
      (t) => 2 * (limit + t * t) * reflectance(limit + t * t, 1.333, 1) * 2 * t,
      0,
      Math.sqrt(1 - limit),
      40_000,
    );
    expect(limit ** 2 + partly).toBeCloseTo(diffuseReflectanceInside(1.333), 8);
    expect(returnedFromSurface(0, 1.333)).toBeCloseTo(diffuseReflectanceInside(1.333), 8);
    expect(diffuseThroughWater(0, 1.333)).toBeCloseTo(1 - diffuseReflectance(1.333), 12);
    // a pane of the water's own index is none; one of glass takes some per cent more
    expect(diffusePaneTransmission(1.333, 1.333)).toBeCloseTo(1 - diffuseReflectance(1.333), 8);
    const glass = diffusePaneTransmission(1.333) / diffusePaneTransmission(1.333, 1.333);
    expect(glass).toBeGreaterThan(0.95);
    expect(glass).toBeLessThan(0.99);
  });

  test("diffuse light runs 1.19 depths of water on its way down", () => {
    const path = Math.log(diffuseThroughWater(0, 1.333) / diffuseThroughWater(0.05, 1.333)) / 0.05;
    expect(path).toBeCloseTo(1.19, 2);
  });
});

describe("a lamp through the surface", () => {
  const path = { height: 0.15, depth: 0.4, offset: 0, index: 1.333, absorption: 0 };

  test("on the axis the distance is h + d/n, from below n h + d", () => {
    const passed = 1 - reflectance(1, 1, 1.333);
    expect(lampThroughSurface(() => 1, path)).toBeCloseTo(passed / (0.15 + 0.4 / 1.333) ** 2, 12);
    expect(lampOutOfWater(() => 1, path)).toBeCloseTo(passed / (1.333 * 0.15 + 0.4) ** 2, 12);
  });

  test("flux over the plane is the flux that passed: 5.1857146 within 1.55 rad", () => {
    const far = 0.15 * Math.tan(1.55) + 0.4 * Math.tan(Math.asin(Math.sin(1.55) / 1.333));
    // rings spaced by the logarithm, for the far ones are wide
    const flux = sum(
      (s) => {
        const r = 1e-4 * Math.expm1(s);
        return 2 * Math.PI * r * lampThroughSurface(() => 1, { ...path, offset: r }) * 1e-4 * Math.exp(s);
      },
      0,
      Math.log1p(far / 1e-4),
      20_000,
    );
    expect(flux).toBeCloseTo(5.1857146, 5);
  });

  test("lamp and cosine receiver may change places: the ray is the same, the spread n2 apart", () => {
    const lengths = fc.double({ min: 0.01, max: 2, noNaN: true });
    fc.assert(
      fc.property(lengths, lengths, fc.double({ min: 0, max: 3, noNaN: true }), (height, depth, offset) => {
        const p = { height, depth, offset, index: 1.333, absorption: 0.4 };
        const { cosineAir, cosineWater } = bentRay(p);
        const down = lampThroughSurface(() => 1, p) / cosineWater;
        const up = lampOutOfWater(() => 1, p) / cosineAir;
        expect(down / (1.333 ** 2 * up)).toBeCloseTo(1, 7);
      }),
      { numRuns: 300, seed: 5 },
    );
  });

  test("the ray ends where it should, also from very low lamps and far away", () => {
    const lengths = fc.double({ min: 1e-6, max: 50, noNaN: true });
    fc.assert(
      fc.property(lengths, fc.double({ min: 0, max: 50, noNaN: true }), lengths, (height, depth, offset) => {
        const { cosineAir, cosineWater, entry, tangents } = bentRay({ height, depth, offset, index: 1.333 });
        const tangent = entry / height;
        expect((tangent * cosineAir) / (1.333 * tangent * tangents * cosineWater)).toBeCloseTo(1, 9);
        expect((entry + depth * tangent * tangents) / offset).toBeCloseTo(1, 9);
      }),
      { numRuns: 500, seed: 6 },
    );
    const steep = bentRay({ height: 0.2, depth: 0.4, offset: 1e-11, index: 1.333 });
    expect(steep.entry / 1e-11).toBeCloseTo(0.2 / (0.2 + 0.4 / 1.333), 9);
    expect(() => bentRay({ height: 0, depth: 1, offset: 1, index: 1.333 })).toThrow("height must be above 0");
  });

  test("panel over wide water: the published scene by image points", () => {
    // panel 0.40 x 0.12 m at 0.15 m over 0.30 m of water, unit flux; figures computed apart, by the same law, to 4 digits
    const panel = (x: number, y: number, absorption: number): number => {
      let e = 0;
      for (let i = 0; i < 60; i += 1) {
        for (let j = 0; j < 18; j += 1) {
          const px = -0.2 + (0.4 * (i + 0.5)) / 60;
          const py = -0.06 + (0.12 * (j + 0.5)) / 18;
          const place = { height: 0.15, depth: 0.3, offset: Math.hypot(px - x, py - y), index: 1.333, absorption };
          e += lampThroughSurface((c) => lobeIntensity(1 / 1080, 1, c), place);
        }
      }
      return e;
    };
    const rows = [
      [0, 0, 1.9295, 1.706],
      [0.2, 0, 1.462, 1.287],
      [0, 0.2, 1.342, 1.177],
    ] as const;
    for (const [x, y, clear, absorbing] of rows) {
      expect(panel(x, y, 0) / clear, `${x} ${y}`).toBeCloseTo(1, 3);
      expect(panel(x, y, 0.4) / absorbing, `${x} ${y}`).toBeCloseTo(1, 3);
    }
  });
});

describe("the walls", () => {
  test("shares of scattered light against 400 000 sampled directions", () => {
    const edge = Math.sqrt(1 - 1 / 1.333 ** 2);
    const random = createRandom(20251125);
    const n = 400_000;
    const seen = { top: 0, wall: 0, both: 0, none: 0, evenNone: 0 };
    for (let k = 0; k < n; k += 1) {
      const turn = 2 * Math.PI * random.uniform();
      const u = random.uniform();
      const across = Math.max(Math.abs(Math.cos(turn)), Math.abs(Math.sin(turn)));
      const top = Math.sqrt(1 - u) > edge;
      const wall = Math.sqrt(u) * across > edge;
      seen.top += Number(top);
      seen.wall += Number(wall);
      seen.both += Number(top && wall);
      seen.none += Number(!top && !wall);
      const z = random.uniform();
      seen.evenNone += Number(z < edge && Math.sqrt(1 - z * z) * across < edge);
    }
    const want = { ...floorEscape(1.333), evenNone: evenEscape(1.333).none };
    for (const [name, count] of Object.entries(seen)) {
      // four standard errors of a share near one half
      expect(Math.abs(count / n - want[name as keyof typeof want]), name).toBeLessThan(0.0032);
    }
  });

  test("denser media keep more: nothing of an even field lies outside the cones of air", () => {
    expect(floorEscape(1.0001).none).toBeLessThan(1e-3);
    expect(floorEscape(1.5).none).toBeGreaterThan(floorEscape(1.333).none);
    expect(evenEscape(1.5).none).toBeGreaterThan(evenEscape(1.333).none);
  });
});

describe("ripples and haze", () => {
  test("slope of a sine is the root of the mean of its squared slopes", () => {
    const square = sum((x) => ((2 * Math.PI * 1) / 50) ** 2 * Math.cos(x) ** 2, 0, 2 * Math.PI, 1000) / (2 * Math.PI);
    expect(rippleSlope(1, 50)).toBeCloseTo(Math.sqrt(square), 12);
    expect(rippleFocus(2, 50, 1.333)).toBeCloseTo(rippleFocus(1, 50, 1.333) / 2, 12);
  });

  test("slopes of a wind-blown sea add up to 0.003 + 5.12e-3 U in the square (Cox & Munk 1954, from memory)", () => {
    const { along, across } = windSlopes(5);
    // the parts are printed to three digits: 3.16 + 1.92 against 5.12
    expect(along + across).toBeCloseTo(0.003 + 5.12e-3 * 5, 3);
  });

  test("scattering goes somewhere: the law integrates to 1, its back half to the share", () => {
    for (const g of [-0.5, 0, 1e-7, 0.5, 0.92]) {
      const around = (a: number, b: number): number => sum((c) => 2 * Math.PI * phaseFunction(c, g), a, b, 200_000);
      expect(around(-1, 1)).toBeCloseTo(1, 6);
      expect(around(-1, 0)).toBeCloseTo(backscatterShare(g), 6);
    }
    expect(backscatterShare(9.9e-6)).toBeCloseTo(backscatterShare(1.01e-5) + 0.75 * 0.2e-6, 9);
  });
});
