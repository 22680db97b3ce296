import { relation } from "../relation/index.ts";
import { lossRate, quantity, waterVolume } from "./usual-inputs.ts";

/**
 * CO2 in a tank that gains a steady amount and loses through its surface: dC/dt = s - k (C - C_eq), where s is
 * injection less plant uptake plus respiration. Closed forms, so that a plan is judged without running the model.
 * A constant uptake knows no bottom: levels below 0 mean that plants would have run short.
 */
export interface Exchange {
  /** Loss rate, 1/h, above 0. */
  readonly k: number;
  /** CO2 at equilibrium with the air, mg/L. */
  readonly cEq: number;
}

/**
 * Level that is reached after long.
 * @param s net source, mg/L/h
 * @returns mg/L. A stuck valve runs to this level.
 */
export function steadyLevel({ k, cEq }: Exchange, s: number): number {
  return cEq + s / k;
}

/**
 * Level after a time under a steady source.
 * @param s net source, mg/L/h
 * @param c0 first level, mg/L
 * @param hours h
 * @returns mg/L
 */
export function levelAfter({ k, cEq }: Exchange, s: number, c0: number, hours: number): number {
  return cEq + (c0 - cEq) * Math.exp(-k * hours) - (s / k) * Math.expm1(-k * hours);
}

/**
 * Time to go from one level to another under a steady source.
 * @param s net source, mg/L/h
 * @param c0 first level, mg/L
 * @param c1 wanted level, mg/L
 * @returns h; infinite if the level is never met
 */
export function timeToLevel(exchange: Exchange, s: number, c0: number, c1: number): number {
  if (c0 === c1) return 0;
  const end = steadyLevel(exchange, s);
  const ratio = (end - c0) / (end - c1);
  return ratio > 1 ? Math.log(ratio) / exchange.k : Number.POSITIVE_INFINITY;
}

/**
 * Time for a share of the way to the steady level, which depends on the loss rate alone.
 * @param k loss rate, 1/h
 * @param share 0 to below 1
 * @returns h; 2.303/k for nine tenths
 */
export function riseTime(k: number, share: number): number {
  return -Math.log1p(-share) / k;
}

/**
 * Share of the way to the steady level that is done after a time.
 * @param k loss rate, 1/h
 * @param hours h
 * @returns 0 to 1
 */
export function riseShare(k: number, hours: number): number {
  return -Math.expm1(-k * hours);
}

/**
 * Highest and lowest level when a source is on for part of every period.
 * @param s net source while on, mg/L/h
 * @param onHours h, up to the period
 * @param period h
 * @returns mg/L
 */
export function squareWave(
  { k, cEq }: Exchange,
  s: number,
  onHours: number,
  period = 24,
): { readonly max: number; readonly min: number } {
  const above = ((s / k) * Math.expm1(-k * onHours)) / Math.expm1(-k * period);
  return { max: cEq + above, min: cEq + above * Math.exp(-k * (period - onHours)) };
}

/**
 * Steady source that takes the water from one level to another in a given time, as before lights-on.
 * @param c0 first level, mg/L
 * @param c1 wanted level, mg/L
 * @param leadHours h
 * @returns net source, mg/L/h; add plant uptake and take off respiration for the injection
 */
export function leadSource({ k, cEq }: Exchange, c0: number, c1: number, leadHours: number): number {
  return (k * (c1 - cEq - (c0 - cEq) * Math.exp(-k * leadHours))) / -Math.expm1(-k * leadHours);
}

/**
 * Injection that holds a level.
 * @param level mg/L
 * @param uptake of plants, mg/L/h
 * @param respiration mg/L/h
 * @returns mg/L/h
 */
export function holdInjection({ k, cEq }: Exchange, level: number, uptake = 0, respiration = 0): number {
  return k * (level - cEq) + uptake - respiration;
}

export interface Stretch {
  readonly hours: number;
  /** Net source, mg/L/h. */
  readonly source: number;
}

/**
 * A day of stretches with steady sources that repeats for ever.
 * @param stretches one after the other; together one period
 * @returns level at the start of each stretch, mg/L
 */
export function periodicLevels(exchange: Exchange, stretches: readonly Stretch[]): readonly number[] {
  const period = stretches.reduce((sum, s) => sum + s.hours, 0);
  // One period from level 0; the map is linear, so its fixed point follows.
  let fromZero = 0;
  for (const { hours, source } of stretches) fromZero = levelAfter(exchange, source, fromZero, hours);
  let level = fromZero / -Math.expm1(-exchange.k * period);
  return stretches.map(({ hours, source }) => {
    const start = level;
    level = levelAfter(exchange, source, level, hours);
    return start;
  });
}

export interface Co2Day extends Exchange {
  /** CO2 dissolved while the valve is open, mg/L/h. */
  readonly injection: number;
  /** Clock times, h; an end before its start runs through midnight, 24 h apart is all day, equal is never. */
  readonly gasOn: number;
  readonly gasOff: number;
  readonly lightOn: number;
  readonly lightOff: number;
  /** Uptake of plants in the light, and respiration at all hours, mg/L/h. */
  readonly uptake: number;
  readonly respiration: number;
}

export interface Co2DayLevels {
  /** Levels at the four clock times, mg/L. */
  readonly gasOn: number;
  readonly lightOn: number;
  readonly gasOff: number;
  readonly lightOff: number;
  readonly max: number;
  readonly min: number;
  /** Level that a valve stuck open in the dark would reach, mg/L. */
  readonly stuckValve: number;
  /** Level at a clock time, h, of the repeating day, mg/L. */
  readonly at: (clock: number) => number;
}

const wrap = (h: number) => ((h % 24) + 24) % 24;

/** Whether a clock time lies in a stretch that may run through midnight. */
function within(clock: number, on: number, off: number): boolean {
  if (off - on >= 24) return true;
  return wrap(clock - on) < wrap(off - on);
}

/**
 * The CO2 of a repeating day with a gas timer and a light timer.
 * @returns see `Co2DayLevels`; exact for sources that are steady between the switches
 */
export function co2Day(day: Co2Day): Co2DayLevels {
  const edges = [...new Set([day.gasOn, day.gasOff, day.lightOn, day.lightOff].map(wrap))].sort((a, b) => a - b);
  const stretches = edges.map((start, i) => {
    const end = edges[i + 1] ?? edges[0]! + 24;
    const middle = 0.5 * (start + end);
    const gas = within(middle, day.gasOn, day.gasOff) ? day.injection : 0;
    const uptake = within(middle, day.lightOn, day.lightOff) ? day.uptake : 0;
    return { hours: end - start, source: gas - uptake + day.respiration };
  });
  const levels = periodicLevels(day, stretches);
  const at = (clock: number): number => {
    const hour = wrap(clock);
    let i = edges.length - 1;
    while (i >= 0 && edges[i]! > hour) i--;
    const index = i < 0 ? edges.length - 1 : i;
    return levelAfter(day, stretches[index]!.source, levels[index]!, wrap(hour - edges[index]!));
  };
  return {
    gasOn: at(day.gasOn),
    lightOn: at(day.lightOn),
    gasOff: at(day.gasOff),
    lightOff: at(day.lightOff),
    max: Math.max(...levels),
    min: Math.min(...levels),
    stuckValve: steadyLevel(day, day.injection + day.respiration),
    at,
  };
}

const equilibrium = quantity("CO2 at equilibrium with the air", "mg/L", 0, 10, 0.6);
const level = (label: string, preset?: number) => quantity(label, "mg/L", 0, 500, preset);
const rate = (label: string, max: number, preset?: number) => quantity(label, "mg/L/h", 0, max, preset);
const netSource = quantity("net source: injection - uptake + respiration", "mg/L/h", -100, 1000);
const clock = (label: string, preset?: number) => quantity(label, "h", 0, 48, preset);
const caution =
  "Animals are endangered above 40 mg/L, earlier in warm or poorly aired water. A level worked out is not a level measured: watch the animals and test.";

export const dayCycleRelations = [
  relation({
    id: "co2-steady-level",
    title: "CO2 level that a steady injection reaches",
    room: "gas",
    inputs: { loss_rate: lossRate, equilibrium, source: netSource },
    outputs: { level: { label: "level after long", unit: "mg/L" } },
    equation: "C = C_eq + s/k",
    sources: ["definition"],
    caution,
    compute: ({ loss_rate, equilibrium, source }) => ({
      level: steadyLevel({ k: loss_rate, cEq: equilibrium }, source),
    }),
  }),
  relation({
    id: "co2-level-after",
    title: "CO2 level after a time",
    room: "gas",
    inputs: {
      loss_rate: lossRate,
      equilibrium,
      source: netSource,
      start: level("level at the start"),
      hours: quantity("time", "h", 0, 10000),
    },
    outputs: { level: { label: "level", unit: "mg/L" } },
    equation: "C(t) = C_eq + s/k + (C0 - C_eq - s/k) e^-kt",
    sources: ["definition"],
    caution,
    compute: ({ loss_rate, equilibrium, source, start, hours }) => ({
      level: levelAfter({ k: loss_rate, cEq: equilibrium }, source, start, hours),
    }),
  }),
  relation({
    id: "co2-time-to-level",
    title: "Time until CO2 meets a level",
    room: "gas",
    inputs: {
      loss_rate: lossRate,
      equilibrium,
      source: netSource,
      start: level("level at the start"),
      wanted: level("level wanted"),
    },
    outputs: { hours: { label: "time from now", unit: "h" } },
    equation: "t = ln((Css - C0)/(Css - C1))/k",
    sources: ["definition"],
    caution,
    compute: ({ loss_rate, equilibrium, source, start, wanted }) => ({
      hours: timeToLevel({ k: loss_rate, cEq: equilibrium }, source, start, wanted),
    }),
  }),
  relation({
    id: "co2-response-time",
    title: "How fast CO2 answers, by the loss rate alone",
    room: "gas",
    inputs: { loss_rate: lossRate },
    outputs: {
      half_life: { label: "half-life", unit: "h" },
      t90: { label: "nine tenths of the way", unit: "h" },
      t95: { label: "19 of 20 parts of the way", unit: "h" },
      share_1h: { label: "share of the way after 1 h", unit: "%" },
      share_2h: { label: "share of the way after 2 h", unit: "%" },
    },
    equation: "t = -ln(1 - share)/k",
    sources: ["definition"],
    validity: "Opening the valve 1 to 2 h before the light suits a fast surface (k 0.5 to 1) only.",
    compute: ({ loss_rate: k }) => ({
      half_life: riseTime(k, 0.5),
      t90: riseTime(k, 0.9),
      t95: riseTime(k, 0.95),
      share_1h: 100 * riseShare(k, 1),
      share_2h: 100 * riseShare(k, 2),
    }),
  }),
  relation({
    id: "co2-square-wave",
    title: "CO2 through the day with gas for some hours, no plants",
    room: "gas",
    inputs: {
      loss_rate: lossRate,
      equilibrium,
      source: netSource,
      on: quantity("hours on", "h", 0, 24),
      period: quantity("period", "h", 0.1, 240, 24),
    },
    outputs: { max: { label: "highest level", unit: "mg/L" }, min: { label: "lowest level", unit: "mg/L" } },
    equation: "Cmax = C_eq + (s/k)(1 - e^(-k on))/(1 - e^(-k T)); Cmin = C_eq + (Cmax - C_eq) e^(-k(T - on))",
    sources: ["definition"],
    caution,
    compute: ({ loss_rate, equilibrium, source, on, period }) =>
      squareWave({ k: loss_rate, cEq: equilibrium }, source, Math.min(on, period), period),
  }),
  relation({
    id: "co2-lead-injection",
    title: "Injection that meets a level by lights-on, and that then holds it",
    room: "gas",
    inputs: {
      loss_rate: lossRate,
      equilibrium,
      volume: waterVolume,
      start: level("level at the start"),
      wanted: level("level wanted"),
      lead: quantity("lead time", "h", 0.05, 24),
      uptake: rate("uptake of plants in the light", 100, 0),
      respiration: rate("respiration", 100, 0),
    },
    outputs: {
      lead_rate: { label: "CO2 to dissolve until lights-on", unit: "g/h" },
      hold_rate: { label: "CO2 to dissolve to hold it in the light", unit: "g/h" },
    },
    equation: "S = k((C1 - C_eq) - (C0 - C_eq) e^(-kp))/(1 - e^(-kp)) - R; then S = k(C1 - C_eq) + U - R",
    sources: ["definition"],
    caution,
    compute: ({ loss_rate, equilibrium, volume, start, wanted, lead, uptake, respiration }) => {
      const exchange = { k: loss_rate, cEq: equilibrium };
      return {
        lead_rate: ((leadSource(exchange, start, wanted, lead) - respiration) * volume) / 1000,
        hold_rate: (holdInjection(exchange, wanted, uptake, respiration) * volume) / 1000,
      };
    },
  }),
  relation({
    id: "co2-day",
    title: "CO2 through a repeating day with gas and light timers",
    room: "gas",
    inputs: {
      loss_rate: lossRate,
      equilibrium,
      injection: rate("CO2 dissolved while the valve is open", 1000),
      gas_on: clock("valve opens"),
      gas_off: clock("valve closes"),
      light_on: clock("light on"),
      light_off: clock("light off"),
      uptake: rate("uptake of plants in the light", 100, 0),
      respiration: rate("respiration at all hours", 100, 0),
    },
    outputs: {
      at_gas_on: { label: "level as the valve opens", unit: "mg/L" },
      at_light_on: { label: "level at lights-on", unit: "mg/L" },
      at_gas_off: { label: "level as the valve closes", unit: "mg/L" },
      at_light_off: { label: "level at lights-off", unit: "mg/L" },
      max: { label: "highest level", unit: "mg/L" },
      min: { label: "lowest level", unit: "mg/L" },
      stuck_valve: { label: "level if the valve stuck open in the dark", unit: "mg/L" },
    },
    equation: "C(t) = C_eq + s/k + (C0 - C_eq - s/k) e^-kt on each stretch; start and end of the day agree",
    sources: ["definition"],
    caution,
    compute: (i) => {
      const day = co2Day({
        k: i.loss_rate,
        cEq: i.equilibrium,
        injection: i.injection,
        gasOn: i.gas_on,
        gasOff: i.gas_off,
        lightOn: i.light_on,
        lightOff: i.light_off,
        uptake: i.uptake,
        respiration: i.respiration,
      });
      return {
        at_gas_on: day.gasOn,
        at_light_on: day.lightOn,
        at_gas_off: day.gasOff,
        at_light_off: day.lightOff,
        max: day.max,
        min: day.min,
        stuck_valve: day.stuckValve,
      };
    },
  }),
] as const;
