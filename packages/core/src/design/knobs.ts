import { nearestSurfaceClass } from "../gas/index.ts";
import {
  applyToRaw,
  type Change,
  changeAt,
  type Entry,
  type FollowedLight,
  keepReading,
  movable,
  type Plan,
  type RawPlan,
  resolvePlan,
} from "../plan/index.ts";
import { compile, exchangeOf, repeatingDay, setupOf } from "../tank/index.ts";
import { convert } from "../units/index.ts";
import { co2Ceiling, oxygenLimit } from "./context.ts";
import { limitsOf } from "./limits.ts";
import { tried } from "./remedies.ts";
import { shown, spelled } from "./shown.ts";
import { leastOxygen, topOf } from "./solve.ts";
import type { UnitSystem } from "./types.ts";
import { clock, plain } from "./words.ts";

export type KnobId =
  | "bubbles"
  | "opens"
  | "closes"
  | "lamp-hours"
  | "lamp-on"
  | "lamp-off"
  | "strength"
  | "exchange"
  | "kh"
  | "room-night";

/** A setting that can be dragged, with its travel and how it is known. */
export interface Knob {
  readonly id: KnobId;
  readonly label: string;
  readonly value: number;
  readonly min: number;
  readonly max: number;
  readonly step: number;
  readonly text: string;
  readonly unit: string;
  readonly note?: string;
  readonly known: Entry["known"];
}

interface Handle {
  readonly id: KnobId;
  readonly label: string;
  /** Null when the tank has no such thing. */
  read(plan: Plan): { entry: Entry; value: number } | null;
  travel(plan: Plan, value: number): { min: number; max: number; step: number };
  show(value: number, plan: Plan, units: UnitSystem): { text: string; unit: string; note?: string };
  changes(raw: RawPlan, plan: Plan, value: number): readonly Change[];
}

const one = (raw: RawPlan, path: readonly string[], value: unknown, name: string): readonly Change[] => [
  changeAt(raw, path, value, name),
];
const nearTemperature = (plan: Plan): number =>
  plan.heater?.set.value ?? (plan.room.day.value + plan.room.night.value) / 2;

/** Least lit hours: room for both ramps, in steps of a timer. */
const shortest = (p: Plan): number => Math.max(0.5, Math.ceil(12 * p.light!.ramp.value) / 6);

/** Upper end of a slider: round, and wide enough for the present value. */
const roof = (value: number, usual: number): number => Math.max(usual, Math.ceil(value * 1.5));

const handles: readonly Handle[] = [
  {
    id: "bubbles",
    label: "bubble rate",
    read: (p) => p.co2 && { entry: p.co2.bubbles, value: p.co2.bubbles.value },
    travel: (_, v) => ({ min: 0.1, max: roof(v, 4), step: 0.1 }),
    show: (v) => ({ text: plain(v, 1), unit: "/s" }),
    changes: (raw, _, v) => one(raw, ["co2", "bubbles"], tried(`${plain(v, 1)} bubbles/s`), `${plain(v, 1)} bubbles/s`),
  },
  {
    id: "opens",
    label: "valve opens",
    read: (p) => p.co2 && { entry: p.co2.opens, value: p.co2.opens.value },
    travel: (p) => ({ min: 0, max: p.co2!.closes.value - 1 / 6, step: 1 / 6 }),
    show: (v) => ({ text: clock(v), unit: "" }),
    changes: (raw, _, v) => one(raw, ["co2", "opens"], clock(v), `valve opens at ${clock(v)}`),
  },
  {
    id: "closes",
    label: "valve closes",
    read: (p) => p.co2 && { entry: p.co2.closes, value: p.co2.closes.value },
    travel: (p) => ({ min: p.co2!.opens.value + 1 / 6, max: 24, step: 1 / 6 }),
    show: (v) => ({ text: clock(v), unit: "" }),
    changes: (raw, _, v) => one(raw, ["co2", "closes"], clock(v), `valve closes at ${clock(v)}`),
  },
  {
    id: "lamp-hours",
    label: "lamp hours",
    read: (p) =>
      p.light && movable(p.light) ? { entry: p.light.off, value: p.light.off.value - p.light.on.value } : null,
    travel: (p) => ({ min: Math.max(2, shortest(p)), max: Math.min(16, 24 - p.light!.on.value), step: 0.5 }),
    show: (v, p) => ({
      text: plain(v, v % 1 ? 1 : 0),
      unit: "h",
      note: `${clock(p.light!.on.value)} to ${clock(p.light!.on.value + v)}`,
    }),
    changes: (raw, p, v) => {
      const off = Math.min(24, p.light!.on.value + v);
      return one(raw, ["light", "off"], clock(off), `lamp off at ${clock(off)}`);
    },
  },
  {
    id: "lamp-on",
    label: "lamp on",
    read: (p) => (p.light && movable(p.light) ? { entry: p.light.on, value: p.light.on.value } : null),
    travel: (p) => ({ min: 0, max: Math.max(0, p.light!.off.value - shortest(p)), step: 1 / 6 }),
    show: (v) => ({ text: clock(v), unit: "" }),
    changes: (raw, p, v) => {
      const on = Math.min(v, p.light!.off.value - shortest(p));
      return one(raw, ["light", "on"], clock(on), `lamp on at ${clock(on)}`);
    },
  },
  {
    id: "lamp-off",
    label: "lamp off",
    read: (p) => (p.light && movable(p.light) ? { entry: p.light.off, value: p.light.off.value } : null),
    travel: (p) => ({ min: p.light!.on.value + shortest(p), max: 24, step: 1 / 6 }),
    show: (v) => ({ text: clock(v), unit: "" }),
    changes: (raw, p, v) => {
      const off = Math.max(v, p.light!.on.value + shortest(p));
      return one(raw, ["light", "off"], clock(off), `lamp off at ${clock(off)}`);
    },
  },
  {
    id: "strength",
    label: "lamp strength",
    read: (p) => p.light && { entry: p.light.strength, value: p.light.strength.value * 100 },
    travel: () => ({ min: 5, max: 100, step: 1 }),
    show: (v) => ({ text: plain(v, 0), unit: "%" }),
    changes: (raw, _, v) =>
      keepReading(raw, one(raw, ["light", "strength"], `${plain(v, 0)} %`, `lamp at ${plain(v, 0)} %`)),
  },
  {
    id: "exchange",
    label: "surface ripple",
    read: (p) => {
      const setup = setupOf(p);
      const entry = p.surface.exchange ?? p.surface.ripple;
      return { entry, value: exchangeOf(setup, nearTemperature(p)) };
    },
    travel: (_, v) => ({ min: 0.02, max: Math.max(1, Math.ceil(v * 2)), step: 0.01 }),
    show: (v, p) => {
      const setup = setupOf(p);
      const k600 = (setup.k600 * v) / exchangeOf(setup, nearTemperature(p));
      return { text: plain(v, 2), unit: "/h", note: `class ${nearestSurfaceClass(k600).id} of 0 to 4` };
    },
    changes: (raw, _, v) =>
      one(raw, ["surface", "exchange"], tried(`${plain(v, 2)} 1/h`), `surface exchange ${plain(v, 2)} /h`),
  },
  {
    id: "kh",
    label: "KH",
    read: (p) => ({ entry: p.water.kh, value: convert(p.water.kh.value, "meq/L", "dKH") }),
    travel: (_, v) => ({ min: 0.5, max: roof(v, 12), step: 0.1 }),
    show: (v, p) => ({
      text: plain(v, 1),
      unit: spelled("dKH"),
      ...(p.water.kh.note ? { note: p.water.kh.note } : {}),
    }),
    changes: (raw, _, v) => one(raw, ["water", "kh"], tried(`${plain(v, 1)} dKH`), `KH ${plain(v, 1)}`),
  },
  {
    id: "room-night",
    label: "room, at night",
    read: (p) => ({ entry: p.room.night, value: p.room.night.value }),
    travel: (p) => ({ min: 10, max: Math.max(30, p.room.day.value), step: 0.5 }),
    show: (v, _, units) => shown(v, "°C", 1, units),
    changes: (raw, p, v) => {
      const night = one(raw, ["room", "night"], tried(`${plain(v, 1)} °C`), `room at night ${plain(v, 1)} °C`);
      // a night warmer than the day moves the day along
      return v > p.room.day.value
        ? [...night, ...one(raw, ["room", "day"], tried(`${plain(v, 1)} °C`), `room by day ${plain(v, 1)} °C`)]
        : night;
    },
  },
];

/** The knobs that a tank has, as they stand. */
export function knobsOf(plan: Plan, units: UnitSystem): readonly Knob[] {
  return handles.flatMap((h) => {
    const state = h.read(plan);
    if (!state) return [];
    const display = h.show(state.value, plan, units);
    return [
      {
        id: h.id,
        label: h.label,
        value: state.value,
        known: state.entry.known,
        ...h.travel(plan, state.value),
        ...display,
      },
    ];
  });
}

/** The changes of the plan that set a knob. */
export function turn(raw: RawPlan, plan: Plan, id: KnobId, value: number): readonly Change[] {
  return handles.find((h) => h.id === id)!.changes(raw, plan, value);
}

/** How a knob's value reads. */
export function knobText(plan: Plan, id: KnobId, value: number, units: UnitSystem): string {
  const { text, unit } = handles.find((h) => h.id === id)!.show(value, plan, units);
  return unit ? `${text} ${unit}` : text;
}

/** Stretch of a knob in which the day suits what lives in the tank. */
export interface Suits {
  readonly from: number;
  readonly to: number;
}

/** Whether a plan's day keeps to its animals' limits and, with gas, brings four fifths of the wanted CO2 by lights-on. */
function suits(plan: Plan, start: Float64Array, light: readonly FollowedLight[]): boolean {
  const day = repeatingDay(compile(setupOf(plan, light)), { start, rtol: 1e-3, grid: 15 });
  const limits = limitsOf(plan, "metric");
  const oxygen = oxygenLimit(limits);
  if (oxygen && leastOxygen(day) < oxygen.value) return false;
  if (topOf(day) > co2Ceiling(limits) + 0.01) return false;
  for (const limit of limits) {
    if (limit.series !== "temperature") continue;
    for (const v of day.series.temperature) if (limit.side === "over" ? v > limit.value : v < limit.value) return false;
  }
  if (plan.co2 && plan.light) {
    const on = plan.light.on.value;
    const mark = day.marks.find((m) => Math.abs(m.hour - on) < 1e-3);
    if (mark && mark.co2 < 0.8 * plan.co2.wanted.value) return false;
  }
  return true;
}

const samples = 9;

/**
 * For each knob, the widest stretch of its travel around which the day suits what lives in the tank, all else as it is;
 * left out where no tried value does.
 * @param light lights that were followed
 */
export function suitable(
  raw: RawPlan,
  plan: Plan,
  start: Float64Array,
  light: readonly FollowedLight[] = [],
): Readonly<Partial<Record<KnobId, Suits>>> {
  const result: Partial<Record<KnobId, Suits>> = {};
  for (const h of handles) {
    const state = h.read(plan);
    if (!state || h.id === "lamp-on" || h.id === "lamp-off") continue;
    const { min, max } = h.travel(plan, state.value);
    let best: Suits | null = null;
    let from: number | null = null;
    const width = (max - min) / (samples - 1);
    for (let i = 0; i < samples; i += 1) {
      const value = min + i * width;
      const resolved = resolvePlan(applyToRaw(raw, h.changes(raw, plan, value)));
      const good = resolved.ok && suits(resolved.plan, start, light);
      if (good) {
        from ??= value;
        if (!best || value - from >= best.to - best.from) best = { from, to: value };
      } else from = null;
    }
    if (best) result[h.id] = { from: Math.max(min, best.from - width / 2), to: Math.min(max, best.to + width / 2) };
  }
  return result;
}
