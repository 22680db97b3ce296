import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  daylightSpectrum,
  equalEnergySpectrum,
  figuresOf,
  gaussianSpectrum,
  incandescentSpectrum,
  lampFlux,
  lampKind,
  lampKinds,
  lineSpectrum,
  luminosity,
  luxPerPhotonOfLine,
  mixedConstant,
  mixedSpectrum,
  parPhotons,
  photonsPerJoule,
  ppfdFromMeter,
  ppfdFromPhone,
  tabulatedSpectrum,
  whiteSpectrum,
} from "./index.ts";

describe("sensitivity of the eye", () => {
  test("1 at 555 nm (CIE 018:2019), the table's values at its points, nothing outside", () => {
    expect(luminosity(555)).toBeCloseTo(1, 3);
    expect([380, 510, 610, 780].map(luminosity)).toEqual([0.000039, 0.503, 0.503, 0.000015]);
    expect([379.9, 780.1, Number.NaN].map(luminosity)).toEqual([0, 0, 0]);
  });

  test("rises to its peak and falls after it, at every nanometre", () => {
    for (let nm = 381; nm <= 554; nm += 1) expect(luminosity(nm)).toBeGreaterThan(luminosity(nm - 1));
    for (let nm = 558; nm <= 780; nm += 1) expect(luminosity(nm)).toBeLessThan(luminosity(nm - 1));
  });
});

test("photons of a joule: 8.359347e-3 umol per nm, from the exact constants of the SI", () => {
  expect(photonsPerJoule(1)).toBeCloseTo(0.008359347, 9);
});

describe("spectra", () => {
  test("a line on the grid has the figures of its wavelength", () => {
    for (const nm of [450, 525, 630, 660]) {
      const f = figuresOf(lineSpectrum(nm));
      expect(f.luxPerPhoton / luxPerPhotonOfLine(nm)).toBeCloseTo(1, 12);
      expect(f.photonsPerJoule / photonsPerJoule(nm)).toBeCloseTo(1, 12);
    }
  });

  test("daylight: 55.5 lx for each umol/m2/s, shares .305/.356/.340 (CIE D65, integrated); 54 measured in the sun", () => {
    const d65 = figuresOf(daylightSpectrum);
    expect(d65.luxPerPhoton / 55.5).toBeCloseTo(1, 2);
    expect(d65.blue).toBeCloseTo(0.305, 2);
    expect(d65.green).toBeCloseTo(0.356, 2);
    expect(d65.red).toBeCloseTo(0.34, 2);
    // Thimijan & Heins 1983, HortScience 18:818-822: sun 54
    expect(Math.abs(d65.luxPerPhoton / 54 - 1)).toBeLessThan(0.05);
  });

  test("shares add up to 1; far-red is counted apart", () => {
    const all = [equalEnergySpectrum, incandescentSpectrum, whiteSpectrum(3500), gaussianSpectrum(660, 20)];
    for (const spectrum of all) {
      const f = figuresOf(spectrum);
      expect(f.blue + f.green + f.red).toBeCloseTo(1, 12);
      expect(f.farRed).toBeGreaterThanOrEqual(0);
    }
    expect(figuresOf(equalEnergySpectrum).farRed).toBeLessThan(0.01);
    expect(figuresOf(gaussianSpectrum(730, 20)).farRed).toBeGreaterThan(10);
  });

  test("a table is read straight between its points", () => {
    const s = tabulatedSpectrum([
      [450, 1],
      [470, 3],
      [500, 0],
    ]);
    expect([449, 450, 460, 470, 485, 500, 501].map((nm) => s[nm - 380])).toEqual([0, 1, 2, 3, 1.5, 0, 0]);
  });

  test("photons of a mixture are those of its parts, and its constant is their weighted mean, exactly", () => {
    const photons = fc.double({ min: 0.01, max: 100, noNaN: true });
    fc.assert(
      fc.property(photons, photons, fc.integer({ min: 2700, max: 6600 }), (a, b, kelvin) => {
        const parts = [
          { spectrum: whiteSpectrum(kelvin), photons: a },
          { spectrum: gaussianSpectrum(660, 20), photons: b },
        ];
        const mix = mixedSpectrum(parts);
        expect(parPhotons(mix) / (a + b)).toBeCloseTo(1, 10);
        const constants = parts.map((p) => figuresOf(p.spectrum).luxPerPhoton);
        expect(figuresOf(mix).luxPerPhoton / mixedConstant([a, b], constants)).toBeCloseTo(1, 10);
      }),
      { numRuns: 30, seed: 7 },
    );
  });

  test("whites between the tabulated ones grow bluer with every kelvin and hold one unit of photons", () => {
    let blue = 0;
    for (let kelvin = 2733; kelvin <= 6598; kelvin += 35) {
      const white = whiteSpectrum(kelvin);
      expect(parPhotons(white)).toBeCloseTo(1, 12);
      const now = figuresOf(white).blue;
      expect(now).toBeGreaterThan(blue);
      blue = now;
      // CIE 15: phosphor whites lie between 67.07 and 69.75 lux per photon; "good to 5 %"
      expect(Math.abs(figuresOf(white).luxPerPhoton / 69 - 1)).toBeLessThan(0.05);
    }
  });

  test("refusals say what is allowed", () => {
    expect(() => whiteSpectrum(8000)).toThrow("allowed is 2700 to 6600 K");
    expect(() => whiteSpectrum(Number.NaN)).toThrow(RangeError);
    expect(() => gaussianSpectrum(300, 20)).toThrow("allowed is 380 to 780 nm");
    expect(() => gaussianSpectrum(450, 0)).toThrow("allowed is 2 to 200 nm");
    expect(() => lineSpectrum(700)).toThrow("between 400 and 700 nm");
    expect(() => tabulatedSpectrum([[400, 1]])).toThrow("at least 2");
    expect(() =>
      tabulatedSpectrum([
        [400, 1],
        [400, 2],
      ]),
    ).toThrow("point 2 at 400 nm does not follow");
    expect(() =>
      tabulatedSpectrum([
        [400, 1],
        [500, -2],
      ]),
    ).toThrow("point 2");
    expect(() =>
      figuresOf(
        tabulatedSpectrum([
          [710, 1],
          [780, 1],
        ]),
      ),
    ).toThrow("no light between 400 and 700 nm");
    expect(() => figuresOf([1, 2, 3])).toThrow("401 are needed");
    expect(() => mixedSpectrum([{ spectrum: equalEnergySpectrum, photons: 0 }])).toThrow("at least one part");
    expect(() => mixedSpectrum([{ spectrum: equalEnergySpectrum, photons: -1 }])).toThrow("part 1 has -1");
    expect(() => mixedConstant([1, 2], [3])).toThrow("2 amounts of photons but 1 constants");
  });
});

describe("photon flux of a lamp", () => {
  test("the better known is taken before the worse", () => {
    const all = { photons: 70, lumens: 3000, luxPerPhoton: 60, watts: 30, efficacy: 2 };
    const { photons: _, ...withoutPhotons } = all;
    const { lumens: __, ...withoutLumens } = withoutPhotons;
    const { efficacy: ___, ...wattsAlone } = withoutLumens;
    expect(lampFlux(all)).toMatchObject({ photons: 70, from: "photons" });
    expect(lampFlux(withoutPhotons)).toMatchObject({ photons: 50, from: "lumens" });
    expect(lampFlux(withoutLumens)).toMatchObject({ photons: 60, from: "watts and efficacy" });
    expect(lampFlux(wattsAlone)).toEqual({ photons: 48, low: 36, high: 60, from: "watts alone" });
  });

  test("the less is known, the wider are the bounds", () => {
    const width = (known: Parameters<typeof lampFlux>[0]): number => {
      const { low, high } = lampFlux(known);
      return high / low;
    };
    const stated = width({ photons: 60 });
    const lumens = width({ lumens: 4000, luxPerPhoton: 69 });
    expect(lumens).toBeGreaterThan(stated);
    expect(width({ watts: 30 })).toBeGreaterThan(lumens);
  });

  test("nothing known, or lumens without a spectrum, is refused in words", () => {
    expect(() => lampFlux({})).toThrow("give its photon flux, its lumens and spectrum, or its power");
    expect(() => lampFlux({ lumens: 3000 })).toThrow("lumens need the lamp's spectrum");
    expect(() => lampFlux({ photons: -1 })).toThrow("photon flux in umol/s is -1");
    expect(() => lampFlux({ watts: Number.NaN })).toThrow(RangeError);
  });
});

describe("an owner's readings", () => {
  test("phone: the doubts of lamp and meter are both in the bounds", () => {
    const kind = lampKind("cool white LED");
    const sharp = ppfdFromPhone(5000, kind, 0);
    const phone = ppfdFromPhone(5000, kind);
    expect(sharp.ppfd).toBe(phone.ppfd);
    expect(sharp.high / sharp.ppfd).toBeCloseTo(1.05, 12);
    expect(phone.high / phone.ppfd).toBeCloseTo(1 + Math.hypot(0.05, 0.2), 12);
    expect(phone.low * phone.high).toBeCloseTo(phone.ppfd ** 2, 9);
    expect(() => lampKind("candle")).toThrow("there are daylight,");
  });

  test("meter: reads low under water by its factor", () => expect(ppfdFromMeter(50, 1.2)).toBe(60));

  test("the shares of every kind of lamp add up to 1 as printed", () => {
    for (const { id, shares } of lampKinds) {
      // three figures rounded to 0.001 each
      expect(Math.abs(shares.reduce((a, b) => a + b) - 1), id).toBeLessThanOrEqual(0.0021);
    }
  });
});
