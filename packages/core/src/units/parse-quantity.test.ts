import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dimensions, parseQuantity, type RefusedQuantity, UnitError } from "./index.ts";
import { unitSymbols } from "./unit-expression.ts";

function refused(text: string, expect_?: string): RefusedQuantity {
  const result = parseQuantity(text, expect_ === undefined ? {} : { expect: expect_ });
  if (result.ok) throw new Error(`${text} was read as ${result.value} ${result.unit}`);
  expect(result.message.length).toBeGreaterThan(5);
  expect(result.allowed.length).toBeGreaterThan(5);
  return result;
}

/** A quantity as it would be typed: a pure number stands alone. */
const typed = (value: number, unit: string) => (unit === "1" ? String(value) : `${value} ${unit}`);
const units = (r: RefusedQuantity) => (r.candidates ?? []).map((c) => c.unit);

describe("what is read", () => {
  test.each([
    ["2.5 bubbles/s", 2.5, "bubbles/s", 2.5],
    ["12 mL/day", 12, "mL/d", 12e-6 / 86400],
    ["36 in", 36, "in", 0.9144],
    ["36in", 36, "in", 0.9144],
    ['36"', 36, "in", 0.9144],
    ["4 dKH", 4, "dKH", 1.42661],
    ["71.6 °F", 71.6, "°F", 295.15],
    ["24 °C", 24, "°C", 297.15],
    ["24 C", 24, "°C", 297.15],
    ["300 K", 300, "K", 300],
    ["2 mL/day per 50 L", 2, "mL/d per 50 L", 2e-6 / 86400 / 0.05],
    ["11 3/4 in", 11.75, "in", 0.29845],
    ["11-3/4 in", 11.75, "in", 0.29845],
    ["3/4 in", 0.75, "in", 0.01905],
    ["1½ L", 1.5, "L", 0.0015],
    ["½ h", 0.5, "h", 1800],
    ["3 ft 6 in", 42, "in", 1.0668],
    ["3' 6\"", 42, "in", 1.0668],
    ["3'6\"", 42, "in", 1.0668],
    ["3′ 6½″", 42.5, "in", 1.0795],
    ["-3 ft 6 in", -42, "in", -1.0668],
    ["2 lb 3 oz", 35, "avdp oz", 35 * 0.028349523125],
    ["1 h 30 min", 90, "min", 5400],
    ["1 d 2 h 30 min", 1590, "min", 95400],
    ["3 ft2", 3, "ft2", 0.27870912],
    ["2,5 bubbles/s", 2.5, "bubbles/s", 2.5],
    ["0,125 g", 0.125, "g", 0.000125],
    ["1234,567 L", 1234.567, "L", 1.234567],
    ["1,234.5 L", 1234.5, "L", 1.2345],
    ["1.234,5 L", 1234.5, "L", 1.2345],
    ["1,234,567 L", 1234567, "L", 1234.567],
    ["1\u00a0000 L", 1000, "L", 1],
    ["1\u2009000,5 L", 1000.5, "L", 1.0005],
    [".5 L", 0.5, "L", 0.0005],
    ["5. L", 5, "L", 0.005],
    ["+5 L", 5, "L", 0.005],
    ["−5 °C", -5, "°C", 268.15],
    ["1e3 L", 1000, "L", 1],
    ["2.5×10^-3 m3", 0.0025, "m3", 0.0025],
    ["2.5×10⁻³ m3", 0.0025, "m3", 0.0025],
    ["50 %", 50, "%", 0.5],
    ["5/h", 5, "1/h", 5 / 3600],
    ["0.5 1/h", 0.5, "1/h", 0.5 / 3600],
    ["1 1/d", 1, "1/d", 1 / 86400],
    ["200 µmol/m²s", 200, "umol/m2/s", 0.0002],
    ["6.8", 6.8, "1", 6.8],
    ["2 eq", 2, "eq", 2],
    ["  60   L ", 60, "L", 0.06],
    ["90\u00a0cm", 90, "cm", 0.9],
    ["100 mg/L HCO3", 100, "mg/L HCO3", 100 / 61.016],
  ])("%s", (text, value, unit, si) => {
    const result = parseQuantity(text);
    expect(result).toMatchObject({ ok: true, unit, text: text.trim() });
    if (!result.ok) return;
    expect(result.value).toBeCloseTo(value, 12);
    expect(Math.abs(result.si - si)).toBeLessThanOrEqual(1e-6 * Math.abs(si));
  });

  test("-0 becomes 0", () => {
    const result = parseQuantity("-0 L");
    expect(result.ok && Object.is(result.value, 0)).toBe(true);
  });

  test("any value in any unit reads back from its own spelling", () => {
    fc.assert(
      fc.property(
        fc.double({ noNaN: true, noDefaultInfinity: true }),
        fc.constantFrom(...unitSymbols),
        (value, unit) => {
          fc.pre(unit !== "deg" && Math.abs(value) < 1e290);
          const result = parseQuantity(typed(value, unit));
          expect(result).toMatchObject({ ok: true, value: value === 0 ? 0 : value, unit });
        },
      ),
    );
  });

  test("every unit that a dimension offers is read where that dimension is expected", () => {
    for (const [name, { units: offered }] of Object.entries(dimensions)) {
      for (const unit of offered) {
        expect(parseQuantity(typed(1, unit), { expect: name }), `${unit} as ${name}`).toMatchObject({ ok: true });
      }
    }
  });
});

describe("what is asked about", () => {
  test("a comma that may part thousands", () => {
    const r = refused("1,234 L", "volume");
    expect(r.candidates?.map((c) => c.text)).toEqual(["1.234 L", "1234 L"]);
    expect(refused("-12,345 L").candidates?.map((c) => c.text)).toEqual(["-12.345 L", "-12345 L"]);
    expect(refused("1 000 L").candidates?.map((c) => c.text)).toEqual(["1000 L"]);
  });

  test.each([
    ["10 gal", undefined, ["US gal", "imp gal"]],
    ["10 gallons", "volume", ["US gal", "imp gal"]],
    ["200 gph", "flow", ["US gal/h", "imp gal/h"]],
    ["2 W/gal", undefined, ["W/US gal", "W/imp gal"]],
    ["20 ppm", undefined, ["mg/L", "mg/L CaCO3 (alkalinity)", "mg/L CaCO3 (hardness)", "ppm(v)"]],
    ["20 ppm", "concentrationMass", ["mg/L"]],
    ["80 ppm", "alkalinity", ["mg/L CaCO3 (alkalinity)"]],
    ["4°", "alkalinity", ["dKH", "°fH (alkalinity)", "°e (alkalinity)"]],
    ["24 degrees", "temperature", ["°C", "°F"]],
    ["24 deg", "°C", ["°C", "°F"]],
    ["8 oz", undefined, ["avdp oz", "US fl oz", "imp fl oz"]],
    ["8 oz", "volume", ["US fl oz", "imp fl oz"]],
    ["3 ton", "mass", ["t", "short ton", "long ton"]],
    ["5 gr", "mass", ["g", "grain"]],
    ["1 tsp", "volume", ["US tsp", "metric tsp"]],
    ["5 KH", "alkalinity", ["dKH", "mg/L CaCO3 (alkalinity)"]],
    ["6 GH", "hardness", ["dGH", "mg/L CaCO3 (hardness)"]],
    ["5 °dH", undefined, ["dGH", "dKH"]],
    ["120 mg/L CaCO3", undefined, ["mg/L CaCO3 (hardness)", "mg/L CaCO3 (alkalinity)"]],
    ["10 gpg", undefined, ["gpg (hardness)", "gpg (alkalinity)"]],
    ["120 mg/L", "alkalinity", ["mg/L CaCO3 (alkalinity)", "mg/L HCO3"]],
    ["5 °C", "K", ["Δ°C", "K"]],
    ["50", "volume", ["L", "mL", "m3"]],
    ["50", "cm", ["cm", "mm", "m"]],
    ["50", "%", ["%"]],
  ])("%s where %s is expected", (text, expected, candidates) => {
    expect(units(refused(text, expected))).toEqual(candidates);
  });

  test("every candidate, put in place of the text, is read", () => {
    const texts = [
      "10 gal",
      "20 ppm",
      "4°",
      "8 oz",
      "3 ton",
      "5 KH",
      "5 °dH",
      "2 W/gal",
      "7 psf",
      "1,234 L",
      "9 tbsp",
      "3 ppb",
      "1 cup",
    ];
    for (const text of texts) {
      for (const c of refused(text).candidates ?? []) {
        const taken = parseQuantity(c.text, c.unit === "deg" ? { expect: "angle" } : {});
        expect(taken, c.text).toMatchObject({ ok: true, unit: c.unit });
      }
    }
  });

  test.each([
    ["8 oz", "mass", "avdp oz"],
    ["420 ppm", "ppm(v)", "ppm(v)"],
    ["420 ppm", "fraction", "ppm(v)"],
    ["30°", "angle", "deg"],
    ["30 deg", "deg", "deg"],
    ["5 °dH", "alkalinity", "dKH"],
    ["5 °dH", "hardness", "dGH"],
    ["120 mg/L as CaCO3", "alkalinity", "mg/L CaCO3 (alkalinity)"],
    ["120 ppm CaCO3", "dGH", "mg/L CaCO3 (hardness)"],
    ["10 gpg", "dGH", "gpg (hardness)"],
    ["40 psf", "kg/m2", "lb/ft2"],
    ["40 psf", "kN/m2", "lbf/ft2"],
    ["78 °f", "temperature", "°F"],
    ["2 °C", "temperatureDifference", "Δ°C"],
    ["2 K", "temperatureDifference", "K"],
  ])("%s is settled by a field of %s", (text, expected, unit) => {
    expect(parseQuantity(text, { expect: expected })).toMatchObject({ ok: true, unit });
  });

  test("a difference in °F is no reading in °F", () => {
    expect(parseQuantity("9 °F", { expect: "temperatureDifference" })).toMatchObject({ ok: true, si: 5 });
    refused("2 Δ°C", "temperature");
  });

  test("answers given before are used where they fit, and only there", () => {
    const context = { gal: "US gallons", ppm: "mg/L" };
    expect(parseQuantity("10 gal", { context })).toMatchObject({ ok: true, unit: "US gal" });
    expect(parseQuantity("10 gph", { expect: "L/h", context })).toMatchObject({ ok: true, unit: "US gal/h" });
    expect(parseQuantity("20 ppm", { expect: "mg/L", context })).toMatchObject({ ok: true, unit: "mg/L" });
    expect(parseQuantity("420 ppm", { expect: "ppm(v)", context })).toMatchObject({ ok: true, unit: "ppm(v)" });
    expect(parseQuantity("80 ppm", { expect: "alkalinity", context }).ok).toBe(false);
    expect(parseQuantity("10 gal", { context: { gal: "barrel" } }).ok).toBe(false);
  });
});

describe("what is refused", () => {
  test.each([
    "",
    "   ",
    "L",
    "NaN",
    "NaN L",
    "Infinity cm",
    "-",
    "+ 5 L",
    "--5 L",
    "1e999 L",
    "1e-999 L",
    "-1e999 L",
    "1e308 km",
    "1.2.3 L",
    "1,2,3 L",
    "1,23,456 L",
    "12,34.5 L",
    "0x10 L",
    "5 3/0 in",
    "5 4/3 in",
    "1/0 L",
    "٣ L",
    "五 L",
    "5 💧",
    "5 L\u200b",
    "5 Litresss of water",
    "5 L 6",
    "3 ft 14 in",
    "3.5 ft 6 in",
    "3 ft 6 L",
    "3 in 2 ft",
    "3 ft -2 in",
    "24-26 °C",
    "24 to 26 °C",
    "6.8 ± 0.1",
    "~5 L",
    "<5 mg/L",
    "5 W/m2 K",
    "2 x 30 W",
    "5 months",
    "3 drops",
    "120 PAR",
    "20 mg/L NO3",
    "20 mg/L NO3-N",
    "3 CM",
    "<script>alert(1)</script>",
    "5 constructor",
    "5 __proto__",
    `5 ${"m".repeat(5000)}`,
    `${"9".repeat(5000)} L`,
    `${"(".repeat(100)}`,
  ])("%j", (text) => {
    const result = refused(text);
    expect(result.message).not.toMatch(/NaN is|undefined|\[object/);
    expect(result.message.length).toBeLessThan(300);
  });

  test("says what is wrong and what is allowed", () => {
    const r = refused("12 cm", "volume");
    expect(r.message).toBe('"12 cm" is a length; a volume is needed');
    expect(r.allowed).toBe("a volume in L, mL, m3, US gal or imp gal");
    expect(refused("3 lites").candidates?.map((c) => c.unit)).toContain("litres");
    expect(refused("5 dGH", "alkalinity").message).toContain("hardness");
    expect(refused("5 kg*m", "volume").message).toContain("a quantity in m*kg");
    expect(refused("20 mg/L Fe").message.length).toBeGreaterThan(10);
  });

  test("an expectation that is neither dimension nor unit is the caller's slip", () => {
    expect(() => parseQuantity("5 L", { expect: "colour" })).toThrow(UnitError);
  });

  test("never throws and never lets a number through that is not finite", () => {
    const bits = fc.constantFrom(
      ..."0123456789.,+-eE/ '\"½²×x",
      " ",
      "L",
      "ft",
      "in",
      "gal",
      "ppm",
      "°",
      "C",
      "/",
      "per",
      "mg",
      "(",
      ")",
      "%",
      "m",
      "d",
    );
    const text = fc.oneof(
      fc.string({ unit: "grapheme", maxLength: 40 }),
      fc.array(bits, { maxLength: 20 }).map((b) => b.join("")),
    );
    fc.assert(
      fc.property(text, fc.option(fc.constantFrom(...Object.keys(dimensions)), { nil: undefined }), (t, expected) => {
        const result = parseQuantity(t, expected === undefined ? {} : { expect: expected });
        if (!result.ok) return;
        expect(Number.isFinite(result.value) && Number.isFinite(result.si)).toBe(true);
        // What was read is the same when it is written out and read again.
        const options = expected === undefined ? {} : { expect: expected };
        const again = parseQuantity(typed(result.value, result.unit), options);
        expect(again).toMatchObject({ ok: true, value: result.value, unit: result.unit });
      }),
      { numRuns: 5000 },
    );
  });
});
