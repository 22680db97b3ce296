import { plants } from "@lentic/core/facts";
import { type Answers, type Fault, type Field, fields, newPlan, readPlan, tankVolumes } from "@lentic/core/plan";
import { convert } from "@lentic/core/units";

/** What the first questions ask for in words, and where the answer stands in the plan. */
interface Question {
  readonly key: "name" | "length" | "width" | "height" | "kh" | "lightPower";
  readonly label: string;
  readonly path: string;
  readonly hint: string;
  readonly usHint: string;
}

export const questions: readonly Question[] = [
  { key: "name", label: "Name", path: "name", hint: "what you call it", usHint: "what you call it" },
  { key: "length", label: "Length outside", path: "tank.length", hint: "60 cm", usHint: "24 in" },
  { key: "width", label: "Width, front to back", path: "tank.width", hint: "30 cm", usHint: "12 in" },
  { key: "height", label: "Height of the glass", path: "tank.height", hint: "36 cm", usHint: "14 in" },
  {
    key: "kh",
    label: "Carbonate hardness",
    path: "water.kh",
    hint: "4 dKH, if you know it",
    usHint: "4 dKH, if you know it",
  },
  {
    key: "lightPower",
    label: "Power of the lamp",
    path: "light.power",
    hint: "30 W; none if left out",
    usHint: "30 W; none if left out",
  },
];

export const fieldOf = (question: Question): Field => fields.find((f) => f.path === question.path)!;

/** Things that a tank has or has not. */
export const things = [
  { key: "filter", usual: true },
  { key: "heater", usual: true },
  { key: "gas", usual: false },
] as const;

/** Answers as typed, by key; "yes" and "no" for things, plants in one text. */
export type Typed = Readonly<Record<string, string>>;

export const has = (typed: Typed, thing: (typeof things)[number]): boolean =>
  typed[thing.key] === undefined ? thing.usual : typed[thing.key] === "yes";

export const plantsOf = (typed: Typed): readonly string[] => (typed.plants ?? "").split("\n").filter(Boolean);

const pace = ["slow", "medium", "fast"] as const;

/** Plants that ask little: no added gas, little light, least trimming; one of each growth form. */
export const easyPlants: readonly string[] = plants
  .filter((p) => p.co2Need === "none" && p.lightClass === "low" && p.form !== "floating")
  .sort((a, b) => pace.indexOf(a.growth) - pace.indexOf(b.growth) || a.ppfdMin - b.ppfdMin)
  .filter((p, i, all) => all.findIndex((q) => q.form === p.form) === i)
  .map((p) => p.name);

/** The text of the plan that the answers come to. */
export function planOf(typed: Typed): string {
  const said = (key: string): string | undefined => typed[key]?.trim() || undefined;
  const some = (key: Question["key"]): Partial<Answers> => {
    const text = said(key);
    return text === undefined ? {} : { [key]: text };
  };
  return newPlan({
    length: said("length") ?? "",
    width: said("width") ?? "",
    height: said("height") ?? "",
    ...some("name"),
    ...some("kh"),
    ...some("lightPower"),
    filter: has(typed, things[0]),
    heater: has(typed, things[1]),
    gas: has(typed, things[2]),
    plants: plantsOf(typed),
  });
}

interface Outcome {
  readonly faults: readonly Fault[];
  /** Water that it holds, in the readers' unit; null while the answers do not make a tank. */
  readonly water: string | null;
}

/** What the answers come to so far: the water, or what is wrong. */
export function outcomeOf(typed: Typed, us: boolean): Outcome {
  const reading = readPlan(planOf(typed));
  if (!reading.ok) return { faults: reading.faults, water: null };
  const unit = us ? "US gal" : "L";
  const water = convert(tankVolumes(reading.plan).net, "m3", unit);
  return { faults: [], water: `${water < 10 ? water.toFixed(1) : Math.round(water)} ${unit}` };
}
