import { sources as animalSources } from "../animals/index.ts";
import { sources as chemistrySources } from "../chemistry/index.ts";
import { co2AirEquilibrium, sources as gasSources, nearestSurfaceClass } from "../gas/index.ts";
import { sources as heatSources } from "../heat/index.ts";
import { sources as plantSources } from "../plants/index.ts";
import type { Source } from "../relation/index.ts";
import { exchangeOf, flowIndex, type LedgerLine, type Mark, type RepeatingDay, stateIds } from "../tank/index.ts";
import { co2Ceiling, type DayContext, oxygenLimit } from "./context.ts";
import { at, extremesOf } from "./curves.ts";
import { lightFigure } from "./light-figure.ts";
import { shown, shownDoubt, shownLength, spelled, unitFor } from "./shown.ts";
import type { DayDoubt, Figure, Verdict, Working, WorkingInput, WorkingTerm } from "./types.ts";
import { clock, plain } from "./words.ts";
import { computed, input, withShares } from "./working-parts.ts";

const co2Mass = 44.0095;
const oxygenMass = 31.998;

const everySource: Readonly<Record<string, Source>> = {
  ...heatSources,
  ...plantSources,
  ...animalSources,
  ...chemistrySources,
  ...gasSources,
};

/** Full citations; a key that no room knows is a mistake of ours. */
export function cite(keys: readonly string[]): string[] {
  return keys.map((key) => {
    const source = everySource[key];
    if (!source) throw new Error(`no room cites ${key}`);
    return `${source.cite} (${source.how})`;
  });
}

type Ranges = DayDoubt["figures"];

interface Part {
  readonly label: string;
  /** Signed, in the working's unit. */
  readonly value: number;
}

/** result = first + ... − ...: a ledger in words; parts that round to nothing are left out unless they are kept. */
function ledgerTerms(result: Part, start: Part, parts: readonly Part[], decimals: number, unit: string): WorkingTerm[] {
  const worth = parts.filter((p) => Math.abs(p.value) >= 0.5 * 10 ** -decimals);
  const numbers = [result.value, start.value, ...worth.map((p) => p.value)];
  const terms = [
    { sign: "" as const, value: shown(result.value, unit, decimals), label: result.label },
    { sign: "=" as const, value: shown(start.value, unit, decimals), label: start.label },
    ...worth.map((p) => ({
      sign: p.value < 0 ? ("−" as const) : ("+" as const),
      value: shown(Math.abs(p.value), unit, decimals),
      label: p.label,
    })),
  ];
  return withShares(terms, numbers);
}

export const markAt = (day: RepeatingDay, hour: number): Mark =>
  day.marks.reduce((best, m) => (Math.abs(m.hour - hour) < Math.abs(best.hour - hour) ? m : best));

/** What a flow moved between two marks, in its own unit. */
function moved(from: Mark, to: Mark, id: string): number {
  const k = stateIds.length + flowIndex.get(id)!;
  return to.y[k]! - from.y[k]!;
}

export const lightsOn = (ctx: DayContext): number => ctx.plan.light?.on.value ?? 8;

/** Adds the likely range to a figure. */
function ranged(
  figure: Omit<Figure, "shown" | "note"> & { decimals: number },
  ctx: DayContext,
  ranges: Ranges | null,
  verdict?: Verdict,
): Figure {
  const range = ranges?.[figure.id];
  const { decimals, ...rest } = figure;
  if (!range) {
    return {
      ...rest,
      shown: shown(figure.value, figure.unit, decimals, ctx.units),
      ...(verdict ? { verdict, note: verdict } : {}),
    };
  }
  const doubt = Math.max((range.high - range.low) / 2, 1e-9);
  const show = (v: number): string => shownDoubt(v, doubt, figure.unit, ctx.units).text;
  const words = `${show(range.low)} to ${show(range.high)}`;
  const unit = spelled(unitFor(figure.unit, ctx.units));
  const sure = verdict && sureVerdict(verdict, figure.value, range);
  return {
    ...rest,
    low: range.low,
    high: range.high,
    shown: shown(figure.value, figure.unit, decimals, ctx.units),
    ...(sure ? { verdict: sure } : {}),
    note: sure ? `${sure}, ${words}` : words,
    working: {
      ...figure.working,
      doubt: `Likely ${words} ${unit}; ${range.widest} widens it most.`,
    },
  };
}

/** A verdict that the range turns upside down is none: a range wider than the figure itself says "cannot tell". */
function sureVerdict(verdict: Verdict, value: number, range: { low: number; high: number }): Verdict {
  return range.high - range.low > 1.5 * Math.abs(value) ? "cannot tell" : verdict;
}

function gasInputs(ctx: DayContext): WorkingInput[] {
  const { plan, units, setup } = ctx;
  const { co2, surface, room } = plan;
  const temperature = ctx.day.marks[0]!.temperature;
  const inputs: WorkingInput[] = [];
  if (co2) {
    inputs.push(
      input("bubble rate", co2.bubbles, shown(co2.bubbles.value, "bubbles/s", 2), "co2.bubbles"),
      input("gas in a bubble", co2.bubble, shown(co2.bubble.value, "mg", 3), "co2.bubble"),
      input("share dissolved", co2.dissolved, shown(co2.dissolved.value * 100, "%", 0), "co2.dissolved"),
    );
  }
  const k = shown(exchangeOf(setup, temperature), "1/h", 2);
  inputs.push(
    surface.exchange
      ? input("surface exchange", surface.exchange, k, "surface.exchange")
      : input("surface exchange", surface.ripple, k, "surface.ripple"),
    input("CO2 of the room", room.co2, shown(room.co2.value, "ppm(v)", 0), "room.co2"),
    computed("water", shown(setup.volume * 1000, "L", 0, units), "from sizes, bed and stones"),
  );
  return inputs;
}

function co2AtLightsOn(ctx: DayContext, ranges: Ranges | null): Figure {
  const { plan, day, setup } = ctx;
  const on = lightsOn(ctx);
  const end = markAt(day, on);
  const opens = plan.co2?.opens.value;
  const start = opens !== undefined && opens < on ? markAt(day, opens) : day.marks[0]!;
  const toMg = co2Mass / setup.volume / 1000; // mol in the tank to mg/L
  const part = (label: string, sign: 1 | -1, ids: readonly string[]): Part => ({
    label,
    value: sign * toMg * 1000 * ids.reduce((sum, id) => sum + moved(start, end, id), 0),
  });
  const parts = [
    part("dissolved by the diffuser", 1, ["injection.dissolved"]),
    part("breathed out in the dark", 1, [
      "plants.respiration",
      "animals.respiration",
      "microbes.waste",
      "microbes.bed",
    ]),
    part("lost at the surface", -1, ["surface.co2", "air.co2", "pearling.co2"]),
    part("taken up by plants", -1, ["plants.fixation"]),
  ];
  const balance = end.co2 - start.co2 - parts.reduce((sum, p) => sum + p.value, 0);
  const from = opens !== undefined && opens < on ? `from the valve at ${clock(opens)}` : "from midnight";
  const wanted = plan.co2?.wanted.value;
  const ceiling = co2Ceiling(ctx.limits);
  const verdict: Verdict | undefined =
    end.co2 > ceiling ? "high" : wanted !== undefined ? (end.co2 < 0.92 * wanted ? "low" : "fine") : undefined;
  return ranged(
    {
      id: "co2-at-lights-on",
      label: "CO2 at lights-on",
      value: end.co2,
      unit: "mg/L",
      decimals: 1,
      known: "computed",
      working: {
        title: "CO2 at lights-on",
        span: `mg/L, ${from} to the lamp at ${clock(on)}`,
        terms: ledgerTerms(
          { label: "CO2 at lights-on", value: end.co2 },
          { label: "left from the night", value: start.co2 },
          [...parts, { label: balance > 0 ? "set free from bicarbonate" : "turned to bicarbonate", value: balance }],
          1,
          "mg/L",
        ),
        inputs: gasInputs(ctx),
        equation:
          "Stock at the start, plus gas dissolved and breath, less loss at the surface (transfer velocity x area x excess over the room) and uptake; integrated together with oxygen, heat and pH.",
        sources: cite(["weiss-1974", "wanninkhof-2014", "pb82"]),
        relation: "co2-lead-injection",
        caution:
          "Fish gasping at the surface outrank any figure: close the gas, move the surface, then look for the cause.",
      },
    },
    ctx,
    ranges,
    verdict,
  );
}

function oxygenAtDawn(ctx: DayContext, ranges: Ranges | null): Figure {
  const { plan, day, setup } = ctx;
  const on = lightsOn(ctx);
  const off = plan.light?.off.value ?? 22;
  const toMg = oxygenMass / setup.volume;
  const end = markAt(day, on);
  // the night runs through midnight: lamp-off to 24 h, then 0 h to lamp-on
  const dusk = markAt(day, off);
  const midnight = day.marks.at(-1)!;
  const first = day.marks[0]!;
  const night = (id: string): number =>
    (off > on ? moved(dusk, midnight, id) : 0) + moved(off > on ? first : dusk, end, id);
  const part = (label: string, sign: 1 | -1, ids: readonly string[]): Part => ({
    label,
    value: sign * (toMg / 1) * ids.reduce((sum, id) => sum + night(id), 0),
  });
  const air = part("from the air", 1, ["surface.oxygen", "air.oxygen"]);
  const parts = [
    air.value < 0 ? { ...air, label: "given to the air" } : air,
    part("breathed by plants", -1, ["plants.breathing"]),
    part("breathed by animals", -1, ["animals.breathing"]),
    part("used by bed, filter and waste", -1, ["microbes.bedOxygen", "microbes.wasteOxygen"]),
    part("lost as bubbles", -1, ["pearling.oxygen"]),
  ];
  const limit = oxygenLimit(ctx.limits)?.value ?? 5;
  const verdict: Verdict = end.oxygen < limit ? "low" : "fine";
  return ranged(
    {
      id: "oxygen-at-dawn",
      label: "O2 at dawn",
      value: end.oxygen,
      unit: "mg/L",
      decimals: 1,
      known: "computed",
      working: {
        title: "O2 at dawn",
        span: `mg/L, from lights-off at ${clock(off)} to lights-on at ${clock(on)}`,
        terms: ledgerTerms(
          { label: "O2 at lights-on", value: end.oxygen },
          { label: "at lights-off", value: dusk.oxygen },
          parts,
          1,
          "mg/L",
        ),
        inputs: [
          ...gasInputs(ctx).filter((i) => i.label === "surface exchange" || i.label === "water"),
          computed("in balance with air", shown(at(day, day.series.oxygenAtAir, on), "mg/L", 1)),
          ...(plan.animals.length > 0
            ? [
                computed(
                  "animals",
                  { text: String(plan.animals.reduce((n, a) => n + a.count.value, 0)), unit: "" },
                  "by species and length",
                ),
              ]
            : []),
        ],
        equation:
          "Stock at lights-off, plus what the surface lets in, less what plants, animals, bed and waste breathe.",
        sources: cite(["benson-krause-1984", "wanninkhof-2014", "clarke-johnston-1999"]),
        relation: "oxygen-saturation",
      },
    },
    ctx,
    ranges,
    verdict,
  );
}

function heatWorking(ctx: DayContext, title: string, spanWords: string): Working {
  const { day, plan, units, setup } = ctx;
  const lines = day.ledgers.find((l) => l.of === "heat")!.lines;
  const watts = (ids: readonly string[]): number =>
    lines.filter((l: LedgerLine) => ids.includes(l.id)).reduce((sum, l) => sum + l.into, 0) / 86400;
  const gains: Part[] = [
    { label: "heater", value: watts(["heat.heater"]) },
    { label: "lamp", value: watts(["heat.lamp"]) },
    { label: "pump", value: watts(["heat.pump"]) },
  ];
  const losses: Part[] = [
    { label: "through the panes", value: -watts(["heat.panes"]) },
    { label: "through the base", value: -watts(["heat.base"]) },
    {
      label: plan.tank.cover.value === "lid" ? "through the lid" : "off the surface",
      value: -watts(["heat.convection", "heat.radiation"]),
    },
    {
      label: "by evaporation",
      value: -watts(["heat.evaporation", "heat.vapour", "heat.topUp", "event.with the top-up"]),
    },
  ];
  const all = [...gains, ...losses];
  const terms: Omit<WorkingTerm, "share">[] = all.map((p, i) => ({
    sign: i === 0 ? ("" as const) : i === gains.length ? ("=" as const) : p.value < 0 ? ("−" as const) : ("+" as const),
    value: shown(Math.abs(p.value), "W", 0),
    label: p.label,
  }));
  return {
    title,
    span: spanWords,
    terms: withShares(
      terms,
      all.map((p) => p.value),
    ),
    inputs: [
      ...(plan.heater
        ? [
            input("heater", plan.heater.power, shown(plan.heater.power.value, "W", 0), "heater.power"),
            input("set to", plan.heater.set, shown(plan.heater.set.value, "°C", 1, units), "heater.set"),
          ]
        : []),
      input("room by day", plan.room.day, shown(plan.room.day.value, "°C", 1, units), "room.day"),
      input("room at night", plan.room.night, shown(plan.room.night.value, "°C", 1, units), "room.night"),
      input("humidity", plan.room.humidity, shown(plan.room.humidity.value * 100, "%", 0), "room.humidity"),
      computed("water", shown(setup.volume * 1000, "L", 0, units)),
    ],
    equation:
      "Mean of the day in watts: heat given by heater, lamp and pump equals heat lost through panes, base, surface and evaporation.",
    sources: cite(["churchill-chu-1975", "ashrae-fundamentals"]),
    relation: "tank-heat-loss",
    caution:
      "Electricity near water: unplug everything before hands go in; a heater must stay under water while it is on.",
  };
}

function temperatureFigure(ctx: DayContext, ranges: Ranges | null, hour: number): Figure {
  const value = at(ctx.day, ctx.day.series.temperature, hour);
  const { high, low } = extremesOf(ctx.day, "temperature");
  const over = ctx.limits.find((l) => l.series === "temperature" && l.side === "over");
  const under = ctx.limits.find((l) => l.series === "temperature" && l.side === "under");
  const verdict: Verdict = over && high.value > over.value ? "high" : under && low.value < under.value ? "low" : "fine";
  return ranged(
    {
      id: "water-temperature",
      label: "water, now",
      value,
      unit: "°C",
      decimals: 1,
      known: "computed",
      working: heatWorking(
        ctx,
        "Water temperature",
        `mean heat over the day; ${shown(low.value, "°C", 1, ctx.units).text} to ${shown(high.value, "°C", 1, ctx.units).text} ${unitFor("°C", ctx.units)}`,
      ),
    },
    ctx,
    ranges,
    verdict,
  );
}

function phFigure(ctx: DayContext, ranges: Ranges | null): Figure {
  const { high, low } = extremesOf(ctx.day, "ph");
  const { plan } = ctx;
  const co2 = extremesOf(ctx.day, "co2").high.value;
  return ranged(
    {
      id: "lowest-ph",
      label: "lowest pH",
      value: low.value,
      unit: "1",
      decimals: 2,
      known: "computed",
      working: {
        title: "pH",
        span: `lowest at ${clock(low.at)}; highest ${plain(high.value, 2)} at ${clock(high.at)}`,
        terms: [],
        inputs: [
          input("KH", plan.water.kh, shown(plan.water.kh.value / 0.356652, "dKH", 1), "water.kh"),
          computed("CO2 then", shown(co2, "mg/L", 1)),
          computed("water", shown(at(ctx.day, ctx.day.series.temperature, low.at), "°C", 1, ctx.units)),
        ],
        equation:
          "pH follows from alkalinity and CO2 through the carbonate equilibria with activities and ion pairs; other acids and buffers are left out.",
        sources: cite(["pb82", "munhoven-2013"]),
        relation: "water-from-co2-and-alkalinity",
      },
    },
    ctx,
    ranges,
  );
}

function plainFigures(ctx: DayContext): Figure[] {
  const { plan, setup, units, day } = ctx;
  const figures: Figure[] = [];
  const { filter, co2 } = plan;
  const k = exchangeOf(setup, day.marks[0]!.temperature);
  const look = nearestSurfaceClass(setup.k600);
  if (filter) {
    figures.push({
      id: "outlet-flow",
      label: `outlet, ${filter.flow.known}`,
      value: filter.flow.value,
      unit: "L/h",
      shown: shown(filter.flow.value, "L/h", 0, units),
      note: `of ${shown(filter.rated.value, "L/h", 0, units).text} rated`,
      known: filter.flow.known,
      path: "filter.flow",
      working: {
        title: "Flow at the outlet",
        span: `${plain(filter.flow.value / (setup.volume * 1000), 1)} times the water an hour`,
        terms: [],
        inputs: [
          input("flow", filter.flow, shown(filter.flow.value, "L/h", 0, units), "filter.flow"),
          input("rated", filter.rated, shown(filter.rated.value, "L/h", 0, units), "filter.rated"),
        ],
        equation:
          "Fill a bucket of known size with the stopwatch running: litres over seconds x 3600. Rated figures hold without media and height.",
        sources: ["common practice, no source"],
      },
    });
  }
  const open = plan.tank.cover.value === "open";
  figures.push({
    id: "surface-exchange",
    label: "surface exchange",
    value: k,
    unit: "1/h",
    shown: shown(k, "1/h", 2),
    note: look.look,
    known: plan.surface.exchange ? plan.surface.exchange.known : plan.surface.ripple.known,
    path: plan.surface.exchange ? "surface.exchange" : "surface.ripple",
    working: {
      title: "Exchange at the surface",
      span: `the share of CO2 above the room's level that leaves in an hour; half is gone in ${plain(Math.LN2 / k, 1)} h`,
      terms: [],
      inputs: [
        plan.surface.exchange
          ? input("exchange", plan.surface.exchange, shown(plan.surface.exchange.value, "1/h", 2), "surface.exchange")
          : input(
              "ripple, class 0 to 4",
              plan.surface.ripple,
              shown(plan.surface.ripple.value, "1", 1),
              "surface.ripple",
            ),
        computed("transfer velocity (Schmidt number 600)", shown(setup.k600, "cm/h", 1)),
        computed(
          "surface over water",
          shown(setup.area / setup.volume, "1/m", 2),
          open ? "open top" : "under a lid: slower than shown",
        ),
      ],
      equation:
        "Exchange = transfer velocity x surface / volume. Measure it: gas off, lamp off, log pH for some hours, then lentic calc decay-fit.",
      sources: cite(["wanninkhof-2014", "closure-design"]),
      relation: "surface-class",
    },
  });
  if (co2 && setup.gas) {
    const grams = setup.gas.rate * co2Mass * 3600;
    const hours = (co2.closes.value - co2.opens.value + 24) % 24 || 24;
    figures.push({
      id: "gas-rate",
      label: co2.bubbles.known === "measured" ? "diffuser, counted" : "diffuser",
      value: co2.bubbles.value,
      unit: "bubbles/s",
      shown: shown(co2.bubbles.value, "bubbles/s", 1),
      note: `${plain(co2.bubble.value, 2)} mg each`,
      known: co2.bubbles.known,
      path: "co2.bubbles",
      working: {
        title: "Gas",
        span: `${plain(grams, 2)} g/h while the valve is open, ${plain(grams * hours, 1)} g a day; the cylinder lasts about ${Math.round((co2.cylinder.value * 1000) / Math.max(1e-9, grams * hours))} days`,
        terms: [],
        inputs: [
          ...gasInputs(ctx).slice(0, 3),
          input("gas in a full cylinder", co2.cylinder, shown(co2.cylinder.value, "kg", 1, units), "co2.cylinder"),
        ],
        equation:
          "Grams an hour = 3.6 x bubbles a second x mg in a bubble. One bubble can hold 0.05 to 0.35 mg: weigh the cylinder over a week to know yours.",
        sources: cite(["span-wagner-1996"]),
        relation: "co2-rate-from-bubbles",
        caution:
          "A cylinder that empties into a small room is a danger to people. Keep it upright and fastened, air the room, fit a CO2 alarm, and follow local codes and the gas supplier.",
      },
    });
  }
  const lit = lightFigure(ctx);
  if (lit) figures.push(lit);
  const v = setup.volumes;
  figures.push({
    id: "net-water",
    label: "water in the tank",
    value: v.net * 1000,
    unit: "L",
    shown: shown(v.net * 1000, "L", 0, units),
    note: `of ${shown(v.nominal * 1000, "L", 0, units).text} outside`,
    known: "computed",
    working: {
      title: "Water in the tank",
      span: `${units === "us" ? "US gal" : "L"}, inside the glass to the water line`,
      terms: withShares(
        [
          { sign: "", value: shown(v.net * 1000, "L", 1, units), label: "water" },
          { sign: "=", value: shown(v.toWaterLine * 1000, "L", 1, units), label: "box to the water line" },
          { sign: "−", value: shown(v.grains * 1000, "L", 1, units), label: "grains of the bed" },
          { sign: "−", value: shown(v.solids * 1000, "L", 1, units), label: "stones and wood" },
        ],
        [v.net, v.toWaterLine, v.grains, v.solids],
      ),
      inputs: [
        input("length", plan.tank.length, shownLength(plan.tank.length.value, units), "tank.length"),
        input("width", plan.tank.width, shownLength(plan.tank.width.value, units), "tank.width"),
        input("height", plan.tank.height, shownLength(plan.tank.height.value, units), "tank.height"),
        input("glass", plan.tank.glass, shownLength(plan.tank.glass.value, units), "tank.glass"),
        input(
          "water line below the rim",
          plan.tank.belowRim,
          shownLength(plan.tank.belowRim.value, units),
          "tank.below_rim",
        ),
        computed("pores of the bed", shown(v.poreWater * 1000, "L", 1, units), "hold water too"),
      ],
      equation:
        "Net water = inside box to the water line − grains (bed x (1 − pores)) − stone and wood (mass / density).",
      sources: ["geometry (definition); pores and densities: material table, common practice"],
      relation: "net-water",
    },
  });
  const masses = v.masses;
  figures.push({
    id: "total-mass",
    label: "weight of the filled tank",
    value: masses.total,
    unit: "kg",
    shown: shown(masses.total, "kg", 0, units),
    note: "without stand",
    known: "computed",
    working: {
      title: "Weight of the filled tank",
      span: `on ${plain(plan.tank.length.value * plan.tank.width.value, 2)} m² of footprint`,
      terms: withShares(
        [
          { sign: "", value: shown(masses.total, "kg", 0, units), label: "in all" },
          { sign: "=", value: shown(masses.water, "kg", 0, units), label: "water" },
          { sign: "+", value: shown(masses.glass, "kg", 0, units), label: "glass" },
          { sign: "+", value: shown(masses.substrate, "kg", 0, units), label: "bed, dry" },
          { sign: "+", value: shown(masses.solids, "kg", 0, units), label: "stones and wood" },
        ],
        [masses.total, masses.water, masses.glass, masses.substrate, masses.solids],
      ),
      inputs: [],
      equation: "Sum of the masses; stand, lamp and people leaning on it come on top.",
      sources: ["densities: material table, common practice"],
      relation: "net-water",
      caution:
        "This is arithmetic, not a verdict on a floor, a stand or a pane: ask the maker, and for floors a structural engineer.",
    },
  });
  return figures;
}

/** All figures of a day. `hour` is the time at which "now" figures are read. */
export function figuresOf(ctx: DayContext, ranges: Ranges | null, hour: number): readonly Figure[] {
  const air = co2AirEquilibrium(ctx.day.marks[0]!.temperature, ctx.plan.room.co2.value, ctx.setup.pressure);
  const main = [
    co2AtLightsOn(ctx, ranges),
    oxygenAtDawn(ctx, ranges),
    temperatureFigure(ctx, ranges, hour),
    phFigure(ctx, ranges),
  ];
  const rest = plainFigures(ctx);
  return [
    ...main,
    ...rest,
    {
      id: "co2-of-room",
      label: "CO2 in balance with the room",
      value: air,
      unit: "mg/L",
      shown: shown(air, "mg/L", 2),
      known: "computed",
      working: {
        title: "CO2 in balance with the room",
        span: "what water holds when it has stood open for a day",
        terms: [],
        inputs: [input("CO2 of the room", ctx.plan.room.co2, shown(ctx.plan.room.co2.value, "ppm(v)", 0), "room.co2")],
        equation: "Henry's constant x share of CO2 in the air x air pressure less water vapour.",
        sources: cite(["weiss-1974"]),
        relation: "co2-air-equilibrium",
      },
    },
  ];
}
