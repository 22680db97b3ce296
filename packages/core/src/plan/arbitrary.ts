/**
 * Generated plans for property tests: `goodPlans` are always accepted, from thumb-sized to room-sized and with anything
 * left out that may be; `spoiledTexts` are plan texts damaged in ways that happen to people and disks. Not part of the
 * room's door: tests import this file.
 */
import fc from "fast-check";
import { stringify } from "yaml";
import { animals, plants, stones, substrates, woods } from "../facts/index.ts";
import { convert, convertAmount, molarMass, parseQuantity } from "../units/index.ts";
import type { Field, Measure } from "./field.ts";
import { fields } from "./fields.ts";
import type { Json, RawPlan } from "./plan.ts";

const fraction = fc.double({ min: 0, max: 1, noNaN: true });

type Shape = "even" | "by decades";

function between(low: number, high: number, shape: Shape = "even"): fc.Arbitrary<number> {
  return fraction.map((t) => (shape === "even" ? low + t * (high - low) : low * (high / low) ** t));
}

const marks = fc.constantFrom(
  "",
  "",
  "",
  " (measured)",
  " (label)",
  " (assumed)",
  " (note of its own)",
  " (measured, tape, 4 Nov)",
);

function measureOf(path: string): Measure & { readonly min: number; readonly max: number } {
  const field: Field | undefined = fields.find((f) => f.path === path);
  if (field?.kind !== "quantity") throw new Error(`${path} is no quantity`);
  return field;
}

/** A canonical value as one would type it, in a metric, US or other unit. */
function typedAs(measure: Measure, value: number, pick: number, mark: string): string {
  const { unit, metric, us, ion } = measure;
  if (ion) {
    if (pick > 0.5) return `${digits(value)} mmol/L${mark}`;
    return `${digits(convertAmount(value, "mmol/L", "mg/L", molarMass(ion)))} mg/L ${ion}${mark}`;
  }
  const units = [...new Set([metric, us, unit])].filter((u) => u !== "1");
  const shown = units[Math.min(units.length - 1, Math.floor(pick * units.length))] ?? metric;
  return `${digits(convert(value, unit, shown))} ${shown}${mark}`;
}

function digits(value: number): string {
  return String(Number(value.toPrecision(6)));
}

/** A quantity of the fields table, inside its bounds and inside what tanks are like. */
function quantity(path: string, low: number, high: number, shape: Shape = "even"): fc.Arbitrary<string> {
  const measure = measureOf(path);
  return fc
    .tuple(between(Math.max(low, measure.min), Math.min(high, measure.max), shape), fraction, marks)
    .map(([value, pick, mark]) => typedAs(measure, value, pick, mark));
}

function clock(minutes: number): string {
  return `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
}

const minuteOfDay = fc.integer({ min: 0, max: 24 * 60 });

/** Two times of a day, the second later by at least `least` minutes. */
function span(least: number): fc.Arbitrary<readonly [number, number]> {
  return fc
    .tuple(fc.integer({ min: 0, max: 24 * 60 - least }), fraction)
    .map(([from, t]) => [from, from + least + Math.floor(t * (24 * 60 - least - from))] as const);
}

/** Every key may be left out but those named. */
function some<T extends Readonly<Record<string, fc.Arbitrary<Json>>>>(shape: T, ...needed: (keyof T & string)[]) {
  return fc.record(shape, { requiredKeys: needed }) as fc.Arbitrary<RawPlan>;
}

function named(facts: readonly { readonly id: string }[]): fc.Arbitrary<string> {
  return fc.constantFrom(...facts.map((f) => f.id));
}

interface Box {
  readonly raw: RawPlan;
  /** Floor to water line, m, when nothing is left out. */
  readonly depth: number;
}

const box: fc.Arbitrary<Box> = fc
  .tuple(
    between(0.12, 4, "by decades"),
    between(0.12, 1.5, "by decades"),
    between(0.12, 1.2, "by decades"),
    fc.record({ pick: fraction, mark: marks, glass: fraction, rim: fraction, cover: fc.constantFrom("open", "lid") }),
    fc.subarray(["glass", "base", "below_rim", "cover"]),
  )
  .map(([length, width, height, { pick, mark, glass, rim, cover }, kept]) => {
    const size = (path: string, value: number) => typedAs(measureOf(path), value, pick, mark);
    const pane = 0.003 + glass * Math.min(0.02, Math.min(length, width, height) / 12);
    const below = rim * 0.2 * height;
    const optional: Record<string, Json> = {
      glass: size("tank.glass", pane),
      base: size("tank.base", pane),
      below_rim: size("tank.below_rim", below),
      cover,
    };
    const raw = {
      length: size("tank.length", length),
      width: size("tank.width", width),
      height: size("tank.height", height),
      ...Object.fromEntries(kept.map((key) => [key, optional[key] ?? null])),
    };
    // Least depth that any mixture of typed and default values can leave.
    return { raw, depth: height - 0.2 * height - Math.max(pane, 0.03) };
  });

const layer = fc.tuple(
  named(substrates),
  fc.constantFrom("even", "slope", "corners", "grid"),
  fc.array(fraction, { minLength: 4, maxLength: 4 }),
);

/** Layers that stay under water together. */
function substrate(
  depth: number,
  layers: readonly (readonly [string, string, readonly number[]])[],
  pick: number,
): Json {
  const most = (0.6 * Math.max(0, depth)) / Math.max(1, layers.length);
  return layers.map(([material, way, [a = 0, b = 0, c = 0, d = 0]]) => {
    const thick = (t: number) => typedAs(measureOf("substrate[].depth"), t * most, pick, "");
    if (way === "even") return { material, depth: thick(a) };
    if (way === "slope") return { material, front: thick(a), back: thick(b) };
    if (way === "grid") {
      const row = (...shares: readonly number[]) => `${shares.map((t) => (1000 * t * most).toFixed(2)).join(" ")} mm`;
      return { material, heights: [row(c, (c + d) / 2, d), row(b, a, b), row(a, (a + b) / 2, b)] };
    }
    return { material, front_left: thick(a), front_right: thick(b), back_left: thick(c), back_right: thick(d) };
  });
}

function pieces(kind: "stone" | "wood"): fc.Arbitrary<RawPlan> {
  const at = "hardscape[]";
  return some(
    {
      kind: fc.constant(kind),
      material: named(kind === "stone" ? stones : woods),
      mass: quantity(`${at}.mass`, 0.02, 30, "by decades"),
      at: quantity(`${at}.at`, 0, 1),
      depth: quantity(`${at}.depth`, 0, 1),
      width: quantity(`${at}.width`, 0.02, 0.8, "by decades"),
      height: quantity(`${at}.height`, 0.02, 0.6, "by decades"),
      lean: quantity(`${at}.lean`, -60, 60),
      breadth: quantity(`${at}.breadth`, 0.02, 0.6, "by decades"),
      tip: quantity(`${at}.tip`, -60, 60),
      turn: quantity(`${at}.turn`, -180, 180),
      raise: quantity(`${at}.raise`, -0.1, 0.1),
      shape: fc.constantFrom("irregular", "faceted", "layered", "rounded"),
      seed: fc.integer({ min: 0, max: 9999 }),
      branches: fc.integer({ min: 0, max: 8 }),
      locked: fc.boolean(),
      price: between(0, 90).map((v) => Number(v.toFixed(2))),
    },
    "kind",
  );
}

const water = fc.oneof(
  some({
    kh: quantity("water.kh", 0, 9),
    gh: quantity("water.gh", 0, 5),
    potassium: quantity("water.potassium", 0, 2),
    nitrate: quantity("water.nitrate", 0, 2),
    phosphate: quantity("water.phosphate", 0, 0.1),
    sulfate: quantity("water.sulfate", 0, 3),
    sodium: quantity("water.sodium", 0, 5),
    chloride: quantity("water.chloride", 0, 5),
  }),
  some({
    kh: quantity("water.kh", 0, 9),
    calcium: quantity("water.calcium", 0, 4),
    magnesium: quantity("water.magnesium", 0, 2),
  }),
);

const programmes = fc.uniqueArray(minuteOfDay, { minLength: 2, maxLength: 8 }).chain((times) =>
  fc.array(fc.integer({ min: 0, max: 1000 }), { minLength: times.length, maxLength: times.length }).map((strengths) =>
    [...times]
      .sort((a, b) => a - b)
      .map((m, i) => `${clock(m)} ${strengths[i]! / 10} %`)
      .join(", "),
  ),
);

const daylight = some({
  side: fc.constantFrom("front", "back", "left", "right", "top"),
  place: fc.constantFrom("at the window", "near the window", "deep in the room"),
  rise: fc.constantFrom("05:00", "08:30"),
  set: fc.constantFrom("16:00", "24:00"),
  lux: quantity("daylight.lux", 10, 5000, "by decades"),
  at: fc.constantFrom("11:00", "12:30"),
});

const light = fc.tuple(
  span(30),
  fraction,
  some({
    kind: fc.constantFrom("bar", "panel", "tube", "pendant"),
    power: quantity("light.power", 2, 800, "by decades"),
    efficacy: quantity("light.efficacy", 0.5, 3.5),
    length: quantity("light.length", 0.05, 2, "by decades"),
    above_rim: quantity("light.above_rim", 0, 1),
    strength: quantity("light.strength", 0.05, 1),
    ppfd: quantity("light.ppfd", 5, 400, "by decades"),
    photons: quantity("light.photons", 5, 800, "by decades"),
    lumens: quantity("light.lumens", 200, 50_000, "by decades"),
    spectrum: fc.constantFrom("2700 K", "4000 K", "6500 K"),
    beam: quantity("light.beam", 20, 150),
    width: quantity("light.width", 0.01, 0.4, "by decades"),
    at: quantity("light.at", 0, 1),
    depth: quantity("light.depth", 0, 1),
    turn: quantity("light.turn", -90, 90),
    tilt: quantity("light.tilt", -40, 40),
    programme: programmes,
    channels: fc
      .array(
        fc.tuple(
          fc.constantFrom("6500 K", "deep red", "450 nm 25 nm wide", "400 nm 0, 500 nm 1, 600 nm 0.2"),
          fraction,
        ),
      )
      .map(
        (list): Json => [
          ...list.slice(0, 6).map(([spectrum, t]) => ({
            spectrum,
            share: `${digits((99 * t) / 6)} %`,
            strength: `${digits(100 * t)} %`,
          })),
          { spectrum: "4000 K" },
        ],
      ),
  }),
  fc.boolean(),
);

function lightOf([[on, off], ramp, rest, ramped]: readonly [
  readonly [number, number],
  number,
  RawPlan,
  boolean,
]): RawPlan {
  const minutes = Math.floor(ramp * Math.min(360, (off - on) / 2));
  return { ...rest, on: clock(on), off: clock(off), ...(ramped ? { ramp: `${minutes} min` } : {}) };
}

const gas = fc
  .tuple(
    span(15),
    some({
      bubbles: quantity("co2.bubbles", 0.05, 20, "by decades"),
      bubble: quantity("co2.bubble", 0.03, 0.6, "by decades"),
      device: fc.constantFrom("fine plate", "coarse plate", "open line", "in-line", "reactor"),
      dissolved: quantity("co2.dissolved", 0.02, 1),
      wanted: quantity("co2.wanted", 5, 40),
      cylinder: quantity("co2.cylinder", 0.1, 20, "by decades"),
    }),
    fc.boolean(),
  )
  .map(([[opens, closes], rest, timed]) => (timed ? { ...rest, opens: clock(opens), closes: clock(closes) } : rest));

const filter = some({
  kind: fc.constantFrom("canister", "internal", "hang-on", "sump", "sponge"),
  rated: quantity("filter.rated", 50, 8000, "by decades"),
  flow: quantity("filter.flow", 20, 8000, "by decades"),
  power: quantity("filter.power", 1, 120, "by decades"),
});

const surface = some({
  ripple: fc.integer({ min: 0, max: 4 }),
  exchange: quantity("surface.exchange", 0.01, 2, "by decades"),
});

const air = fc
  .tuple(
    minuteOfDay,
    fc.integer({ min: 1, max: 24 * 60 - 1 }),
    some({ flow: quantity("air.flow", 5, 600, "by decades") }),
    fc.boolean(),
  )
  .map(([on, length, rest, timed]) =>
    timed ? { ...rest, on: clock(on % 1440), off: clock((on + length) % 1440) } : rest,
  );

const heater = some({
  power: quantity("heater.power", 5, 600, "by decades"),
  set: quantity("heater.set", 18, 30),
});

const room = some({
  day: quantity("room.day", 15, 35),
  night: quantity("room.night", 10, 30),
  humidity: quantity("room.humidity", 0.15, 0.95),
  co2: quantity("room.co2", 400, 3000, "by decades"),
  altitude: quantity("room.altitude", -50, 3000),
  volume: quantity("room.volume", 8, 2000, "by decades"),
});

const planting = some(
  {
    species: named(plants),
    cover: quantity("plants[].cover", 0.01, 0.8),
    height: quantity("plants[].height", 0.005, 0.6, "by decades"),
    at: quantity("plants[].at", 0, 1),
    biomass: quantity("plants[].biomass", 2, 400, "by decades"),
    depth: quantity("plants[].depth", 0, 1),
    portions: fc.integer({ min: 0, max: 90 }),
    raised: fc.constantFrom("emersed", "in vitro", "submerged"),
    cut_at: quantity("plants[].cut_at", 0.1, 0.6),
    cut_to: quantity("plants[].cut_to", 0.01, 0.09),
  },
  "species",
);

/** An area round a middle, so that it never crosses itself. */
const outline = fc
  .tuple(between(0.2, 0.8), between(0.2, 0.8), fc.array(between(0.02, 0.2), { minLength: 3, maxLength: 9 }))
  .map(([x, y, reaches]) =>
    reaches
      .map((reach, i) => {
        const turn = (2 * Math.PI * i) / reaches.length;
        return `${(100 * (x + reach * Math.cos(turn))).toFixed(2)} % ${(100 * (y + reach * Math.sin(turn))).toFixed(2)} %`;
      })
      .join(", "),
  );

/** A planting with a drawn area instead of a cover. */
const drawn = fc.tuple(planting, outline).map(([{ cover: _, ...rest }, area]): RawPlan => ({ ...rest, outline: area }));

const animal = some(
  {
    species: named(animals),
    count: fc.integer({ min: 1, max: 60 }),
    length: quantity("animals[].length", 0.005, 0.2, "by decades"),
  },
  "species",
  "count",
);

const feeding = some({
  food: quantity("feeding.food", 0, 5),
  at: minuteOfDay.map(clock),
  protein: quantity("feeding.protein", 0.1, 0.6),
});

const time = minuteOfDay.map(clock);
const reading = fc.oneof(
  some(
    {
      what: fc.constant("co2"),
      value: between(1, 60).map((v) => `${digits(v)} mg/L`),
      error: fc.constant("5 mg/L"),
      at: time,
    },
    "what",
    "value",
    "at",
  ),
  some(
    {
      what: fc.constant("oxygen"),
      value: between(2, 14).map((v) => `${digits(v)} mg/L`),
      error: fc.constant("0.4 mg/L"),
      at: time,
      note: fc.constant("meter"),
    },
    "what",
    "value",
    "at",
  ),
  some(
    { what: fc.constant("ph"), value: between(5, 9).map((v) => Number(digits(v))), error: fc.constant(0.1), at: time },
    "what",
    "value",
    "at",
  ),
  some(
    {
      what: fc.constant("temperature"),
      value: between(15, 32).map((v) => `${digits(v)} °C`),
      error: fc.constant("0.9 °F"),
      at: time,
    },
    "what",
    "value",
    "at",
  ),
);

const si = (typed: unknown): number => {
  const read = parseQuantity(String(typed).replace(/\s*\(.*$/, ""));
  return read.ok ? read.si : 0;
};

/** Reckoned apart from the plan room: pieces fill less than a fifth of the box, no equipment of a far larger tank. */
function roomy(raw: RawPlan): boolean {
  const tank = raw.tank as Record<string, unknown>;
  const floor = si(tank.length) * si(tank.width);
  const pieces = (raw.hardscape ?? []) as readonly Record<string, unknown>[];
  let solid = 0;
  for (const piece of pieces) {
    const [mass, width, height] = [si(piece.mass), si(piece.width), si(piece.height)];
    solid += Math.max(mass / 1000, Math.max(width, 0.3) * Math.max(height, 0.2) * Math.max(width, height, 0.2));
  }
  const watts = (group: unknown): number => si((group as Record<string, unknown> | undefined)?.power ?? "0 W");
  // a filter without a power of its own is taken at 12 W a 1000 L/h
  const pump = 43_200 * si((raw.filter as Record<string, unknown> | undefined)?.rated ?? "0 L/h");
  return (
    solid < 0.2 * floor * si(tank.height) && watts(raw.light) < 2000 * floor && watts(raw.filter) + pump < 2000 * floor
  );
}

/** Raw plans that are accepted. */
export const goodPlans: fc.Arbitrary<RawPlan> = fc
  .tuple(
    box,
    fc.option(fc.array(layer, { maxLength: 3 }), { nil: null }),
    fraction,
    some({
      name: fc.constantFrom("Hall", "Long tank", "Nr. 7: office", "# not a comment"),
      invented: fc.constant(true),
      place: fc.constantFrom("hall", "office, by the window"),
      started: fc.constantFrom("2026-02-28", "2024-02-29"),
      about: fc.constantFrom("One line.", "Several lines\nof text: with a colon\n"),
      hardscape: fc.array(fc.oneof(pieces("stone"), pieces("wood")), { maxLength: 4 }),
      water,
      light: light.map(lightOf),
      daylight,
      co2: gas,
      filter,
      surface,
      air,
      heater,
      room,
      plants: fc.array(fc.oneof(planting, drawn), { maxLength: 6 }),
      animals: fc.array(animal, { maxLength: 4 }),
      feeding,
      readings: fc.array(reading, { maxLength: 4 }),
      alternatives: some({ warmer: fc.constant({ heater: { set: "26 °C" } }), "no gas": fc.constant({ co2: null }) }),
    }),
  )
  .map(([{ raw: tank, depth }, layers, pick, rest]) => ({
    lentic: 1,
    tank,
    ...(layers === null ? {} : { substrate: substrate(depth, layers, pick) }),
    ...rest,
  }))
  .filter(roomy);

/** Texts of good plans: YAML in two layouts, or JSON. */
export const goodTexts: fc.Arbitrary<string> = fc
  .tuple(goodPlans, fc.constantFrom("block", "flow", "json", "tight json"))
  .map(([raw, layout]) => {
    if (layout === "json") return JSON.stringify(raw, null, 2);
    if (layout === "tight json") return JSON.stringify(raw);
    return stringify(raw, layout === "flow" ? { collectionStyle: "flow" } : {});
  });

const debris = fc.constantFrom(
  "\t",
  "{",
  "}",
  "[",
  ":",
  "- ",
  '"',
  "'",
  "#",
  "&a ",
  "*a",
  "!!x ",
  "|",
  ">",
  "%",
  "\n",
  "\r\n",
  "\0",
  "né",
  "0",
  "-",
  " cm",
  "(",
  ")",
  "null",
  "{}",
  "1e999",
  ".nan",
);

/** Texts of plans with pieces cut out, doubled, swapped or put in. Some of them may still read. */
export const spoiledTexts: fc.Arbitrary<string> = fc
  .tuple(
    goodTexts,
    fc.array(fc.tuple(fraction, fraction, debris, fc.constantFrom("cut", "double", "insert")), {
      minLength: 1,
      maxLength: 5,
    }),
  )
  .map(([text, hurts]) => {
    let spoiled = text;
    for (const [where, length, piece, how] of hurts) {
      const from = Math.floor(where * spoiled.length);
      const to = Math.min(spoiled.length, from + Math.floor(length * 30));
      if (how === "cut") spoiled = spoiled.slice(0, from) + spoiled.slice(to);
      else if (how === "double") spoiled = spoiled.slice(0, to) + spoiled.slice(from);
      else spoiled = spoiled.slice(0, from) + piece + spoiled.slice(from);
    }
    return spoiled;
  });

/** Raw plans of the right shape with any value anywhere. */
export const wildPlans: fc.Arbitrary<RawPlan> = fc
  .tuple(
    goodPlans,
    fc.array(fc.tuple(fc.constantFrom(...fields.map((f) => f.path)), fc.jsonValue()), { minLength: 1, maxLength: 6 }),
  )
  .map(([raw, changes]) => {
    let wild: RawPlan = raw;
    for (const [path, value] of changes) {
      const [group = "", key] = path.split(".");
      const list = group.endsWith("[]");
      const name = group.replace("[]", "");
      const inner: Json = key === undefined ? (value as Json) : { [key]: value as Json };
      wild = { ...wild, [name]: list ? [inner] : inner };
    }
    return wild;
  });
