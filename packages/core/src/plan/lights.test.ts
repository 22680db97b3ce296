import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  daylightLevel,
  fullHoursOf,
  hoursProgramme,
  lightsOf,
  litHours,
  movedTo,
  type Programme,
  type ProgrammePoint,
  programmeText,
  type RawPlan,
  readProgramme,
  readSpectrum,
  resolvePlan,
  strengthAt,
  stretchesOf,
} from "./index.ts";

const read = (text: string): Programme => {
  const got = readProgramme(text);
  if (!got.ok) throw new Error(got.message);
  return got.programme;
};
const siesta = "10:00 0 %, 10:30 65 %, 14:00 40 %, 16:00 65 %, 18:00 0 %";

const tank: RawPlan = { length: "60 cm", width: "30 cm", height: "36 cm" };
const planOf = (more: RawPlan) => {
  const made = resolvePlan({ lentic: 1, tank, ...more });
  if (!made.ok) throw new Error(JSON.stringify(made.faults));
  return made;
};
const faultsOf = (more: RawPlan) => {
  const made = resolvePlan({ lentic: 1, tank, ...more });
  return made.ok ? [] : made.faults;
};

describe("a day point by point", () => {
  test("the light of a day is the area under straight lines", () => {
    // by hand: 0.5 h x 0.325 + 3.5 h x 0.525 + 2 h x 0.525 + 2 h x 0.325
    expect(fullHoursOf(read(siesta))).toBeCloseTo(0.1625 + 1.8375 + 1.05 + 0.65, 12);
    expect(strengthAt(read(siesta), 10.25)).toBeCloseTo(0.325, 12);
    expect(strengthAt(read(siesta), 15)).toBeCloseTo(0.525, 12);
    expect(strengthAt(read(siesta), 3)).toBe(0);
  });

  test("hours and ramps are a programme too: each ramp counts half", () => {
    expect(fullHoursOf(hoursProgramme(10, 18, 1))).toBeCloseTo(7, 12);
    expect(fullHoursOf(hoursProgramme(10, 18, 0))).toBeCloseTo(8, 12);
    expect(fullHoursOf(hoursProgramme(0, 24, 0))).toBeCloseTo(24, 12);
  });

  test("it goes on over midnight", () => {
    const late = read("20:00 0 %, 21:00 80 %, 01:00 80 %, 02:00 0 %");
    expect(late.map(([hour]) => hour)).toEqual([20, 21, 25, 26]);
    expect(fullHoursOf(late)).toBeCloseTo(0.4 + 3.2 + 0.4, 12);
    expect(strengthAt(late, 0.5)).toBeCloseTo(0.8, 12);
    expect(strengthAt(late, 25.5)).toBeCloseTo(0.4, 12);
    expect(litHours(late)).toEqual({ on: 20, off: 26 });
    expect(programmeText(late)).toBe("20:00 0 %, 21:00 80 %, 01:00 80 %, 02:00 0 %");
    // moonlight that never ends has no hours
    expect(litHours(read("00:00 5 %, 12:00 100 %"))).toBeNull();
  });

  test("two points of one time are a switch", () => {
    const switched = read("10:00 0 %, 10:00 70 %, 18:00 70 %, 18:00 0 %");
    expect(strengthAt(switched, 9.999)).toBe(0);
    expect(strengthAt(switched, 10)).toBeCloseTo(0.7, 12);
    expect(strengthAt(switched, 18)).toBe(0);
    expect(fullHoursOf(switched)).toBeCloseTo(5.6, 12);
  });

  test.each([
    ["10:00 0 %", /1 point is given/],
    ["10:00 0 %, half past ten 40 %", /point 2, half past ten 40 %, is no time of day with a strength/],
    ["10:00 0 %, 25:00 40 %", /point 2.* no time of day/],
    ["10:00 0 %, 12:00 140 %", /point 2.* more than full strength/],
    ["10:00 0 %, 09:00 40 %, 08:00 10 %", /point 3.* second time/],
    ["10:00 0 %, 09:00 40 %, 11:00 10 %", /point 3.* second time/],
    ["10:00 0 %, 10:00 40 %, 10:00 50 %", /point 3.* third of one time/],
    ["", /point 1, empty/],
  ])("%j is told with its place", (text, told) => {
    expect(readProgramme(text)).toMatchObject({ ok: false, message: expect.stringMatching(told) });
  });

  const minutes = fc.uniqueArray(fc.integer({ min: 0, max: 1439 }), { minLength: 2, maxLength: 12 });
  const programmes = fc
    .tuple(minutes, fc.array(fc.integer({ min: 0, max: 100 }), { minLength: 12, maxLength: 12 }))
    .map(
      ([times, strengths]): Programme =>
        times
          .sort((a, b) => a - b)
          .map((m, i): ProgrammePoint => [m / 60, i === 0 || i === times.length - 1 ? 0 : strengths[i]! / 100]),
    );

  test("text and programme are one; the integral is that of many small steps; moving changes nothing else", () => {
    fc.assert(
      fc.property(programmes, fc.integer({ min: 0, max: 23 }), (programme, on) => {
        const again = read(programmeText(programme));
        expect(again).toHaveLength(programme.length);
        for (const [i, [hour, strength]] of again.entries()) {
          expect(hour).toBeCloseTo(programme[i]![0], 9);
          expect(strength).toBeCloseTo(programme[i]![1], 9);
        }
        let sum = 0;
        for (let m = 0; m < 2880; m += 1) sum += strengthAt(programme, (m + 0.5) / 120) / 120;
        expect(sum).toBeCloseTo(fullHoursOf(programme), 2);
        const moved = movedTo(programme, on);
        expect(fullHoursOf(moved)).toBeCloseTo(fullHoursOf(programme), 6);
        const lit = litHours(programme);
        if (!lit) return;
        expect(litHours(moved)!.on).toBeCloseTo(on, 4);
        const stretched = movedTo(programme, on, on + 2 * (lit.off - lit.on) > on + 24 ? on + 12 : on + 6);
        const factor = (litHours(stretched)!.off - litHours(stretched)!.on) / (lit.off - lit.on);
        if (factor > 0) expect(fullHoursOf(stretched)).toBeCloseTo(factor * fullHoursOf(programme), 4);
      }),
      { numRuns: 200 },
    );
  });
});

describe("the light of a channel in words", () => {
  test.each([
    ["6500 K", { kind: "white", kelvin: 6500 }],
    ["white 4000 K", { kind: "white", kelvin: 4000 }],
    ["deep red", { kind: "colour", peak: 660, width: 20 }],
    ["Red 660 nm", { kind: "colour", peak: 660, width: 20 }],
    ["525 nm 35 nm wide", { kind: "colour", peak: 525, width: 35 }],
  ])("%s", (text, spectrum) => {
    expect(readSpectrum(text)).toEqual({ ok: true, spectrum });
  });

  test("a table", () => {
    expect(readSpectrum("400 nm 0, 450 nm 1, 500 0.2")).toEqual({
      ok: true,
      spectrum: {
        kind: "table",
        points: [
          [400, 0],
          [450, 1],
          [500, 0.2],
        ],
      },
    });
  });

  test.each([
    ["10000 K", /cooler one is a 6500 K white beside a blue channel/],
    ["far red", /outside/],
    ["730 nm", /beyond the ends/],
    ["660 nm 3 nm", /width of 3 nm/],
    ["sunny", /no light that is known/],
    ["450 nm 1, 440 nm 2", /row 2 .* does not rise/],
    ["710 nm 1, 720 nm 2", /no light of 400 to 700/],
  ])("%s is refused in words", (text, told) => {
    expect(readSpectrum(text)).toMatchObject({ ok: false, message: expect.stringMatching(told) });
  });
});

describe("channels and programmes in a plan", () => {
  const channels = [
    { spectrum: "6500 K", share: "70 %" },
    { spectrum: "deep red", strength: "50 %", programme: "12:00 0 %, 14:00 100 %, 16:00 0 %" },
  ];

  test("each channel is a light with its own dimmer and day", () => {
    const { plan } = planOf({ light: { strength: "80 %", programme: siesta, channels } });
    const lights = lightsOf(plan);
    expect(lights.map(({ lamp, channel }) => [lamp, channel])).toEqual([
      [0, 0],
      [0, 1],
    ]);
    expect(lights.map(({ strength }) => strength)).toEqual([0.8, 0.4]);
    expect(fullHoursOf(lights[0]!.programme)).toBeCloseTo(3.7, 9);
    expect(fullHoursOf(lights[1]!.programme)).toBeCloseTo(2, 9);
    // hours follow from the programme, and the valve's from them
    expect(plan.light!.on).toMatchObject({ value: 10, reason: "from its programme" });
    expect(plan.light!.off.value).toBe(18);
  });

  test("hours typed beside a programme move and stretch it, channels with it, and a note says so", () => {
    const made = planOf({ light: { programme: siesta, channels, on: "11:00" } });
    const [white, red] = lightsOf(made.plan);
    expect(litHours(white!.programme)).toEqual({ on: 11, off: 19 });
    expect(litHours(red!.programme)).toEqual({ on: 13, off: 17 });
    expect(made.notes.map((n) => [n.path, n.message])).toContainEqual([
      "light.on",
      expect.stringMatching(/moved to begin at 11:00/),
    ]);
    const longer = lightsOf(planOf({ light: { programme: siesta, channels, on: "08:00", off: "20:00" } }).plan);
    expect(fullHoursOf(longer[0]!.programme)).toBeCloseTo(3.7 * 1.5, 6);
    expect(litHours(longer[1]!.programme)!.on).toBeCloseTo(11, 6);
  });

  test("a further lamp without hours goes with the first one's programme", () => {
    const { plan } = planOf({ light: { programme: siesta }, lamps: [{}, { on: "12:00", off: "14:00" }] });
    expect(lightsOf(plan).map((l) => Number(fullHoursOf(l.programme).toFixed(6)))).toEqual([3.7, 3.7, 2]);
  });

  test.each<[string, RawPlan, string, RegExp]>([
    ["programme", { light: { programme: "noon 10 %" } }, "light.programme", /no time of day/],
    ["channel's light", { light: { channels: [{ spectrum: "sunny" }] } }, "light.channels[0].spectrum", /no light/],
    ["missing light", { light: { channels: [{ share: "10 %" }] } }, "light.channels[0].spectrum", /is missing/],
    [
      "unknown key",
      { light: { channels: [{ spectrum: "red", colour: "red" }] } },
      "light.channels[0].colour",
      /not known/,
    ],
    [
      "further lamp",
      { light: {}, lamps: [{ channels: [{ spectrum: "1 K" }] }] },
      "lamps[0].channels[0].spectrum",
      /light/,
    ],
    ["no list", { light: { channels: "red" } }, "light.channels", /must be a list/],
    [
      "shares",
      {
        light: {
          channels: [
            { spectrum: "red", share: "60 %" },
            { spectrum: "blue", share: "60 %" },
          ],
        },
      },
      "light.channels",
      /add up to 120 %/,
    ],
    [
      "half told",
      { light: { channels: [{ spectrum: "red", photons: "6 umol/s" }, { spectrum: "blue" }] } },
      "light.channels[1]",
      /channel 1 has an output of its own and this one has none/,
    ],
    ["night reading", { daylight: { lux: "500 lx", at: "23:00" } }, "daylight.at", /dusk or at night/],
    ["upside down", { daylight: { rise: "18:00", set: "06:00" } }, "daylight.set", /ends before it begins/],
  ])("a fault of the %s is told with its place", (_, raw, path, message) => {
    expect(faultsOf(raw).map((f) => [f.path, f.message])).toContainEqual([path, expect.stringMatching(message)]);
  });
});

describe("daylight", () => {
  test("a reading is scaled to the brightest hour; its day is half a sine", () => {
    const { daylight } = planOf({ daylight: { lux: "555 lx", rise: "06:00", set: "18:00", at: "08:00" } }).plan;
    // D65: 55.5 lx for each umol/m2/s (CIE 15); sin(30 deg) = 1/2
    expect(daylightLevel(daylight!).ppfd).toBeCloseTo(20, 9);
    const [light] = lightsOf(planOf({ daylight: { rise: "06:00", set: "18:00" } }).plan);
    // integral of half a sine: 2/pi of its length
    expect(fullHoursOf(light!.programme) / (12 * (2 / Math.PI))).toBeCloseTo(1, 2);
    expect(Math.max(...stretchesOf(light!.programme).map((s) => s.last))).toBeCloseTo(1, 12);
  });

  test("a covered back pane lets none in, and a note says so", () => {
    const made = planOf({ tank: { ...tank, background: "black" }, daylight: { side: "back" } });
    expect(made.notes.map((n) => n.path)).toContain("daylight.side");
  });
});
