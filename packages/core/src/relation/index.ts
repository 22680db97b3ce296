/**
 * The shape of a relation: a pure function with a descriptor, from which `lentic calc`, the documentation page and the
 * "working" panel of a figure are made. Numbers go in and come out in the units that the descriptor names.
 */

/** How a source or value is held: `read` seen in a stored copy, `memory` recalled, the rest as they say. */
export type How = "read" | "memory" | "common practice" | "derived" | "design value" | "definition";

/** One entry of a room's bibliography. */
export interface Source {
  readonly cite: string;
  readonly how: How;
}

export interface NumberInput {
  readonly kind: "number";
  readonly label: string;
  /** Unit as the units room parses it; "1" for a pure number. */
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  readonly default?: number;
}

export interface ChoiceInput {
  readonly kind: "choice";
  readonly label: string;
  readonly options: readonly string[];
  readonly default?: string;
}

/** A list of numbers in one unit, e.g. times of readings. */
export interface SeriesInput {
  readonly kind: "series";
  readonly label: string;
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  readonly atLeast: number;
}

export type Input = NumberInput | ChoiceInput | SeriesInput;

export interface Output {
  readonly label: string;
  readonly unit: string;
  /** 1 stands for yes, 0 for no. */
  readonly yesNo?: true;
  /** Input that names the unit, where the reader chooses it; `unit` is then "1". */
  readonly unitFrom?: string;
}

export type InputValue<I extends Input> = I extends NumberInput
  ? number
  : I extends SeriesInput
    ? readonly number[]
    : I extends { readonly options: readonly (infer S)[] }
      ? S
      : never;

export interface Relation<
  I extends Readonly<Record<string, Input>> = Readonly<Record<string, Input>>,
  O extends Readonly<Record<string, Output>> = Readonly<Record<string, Output>>,
> {
  /** Stable name for `lentic calc`, kebab-case. */
  readonly id: string;
  readonly title: string;
  /** The room it belongs to. */
  readonly room: string;
  readonly inputs: I;
  readonly outputs: O;
  /** Equation in words or plain symbols. */
  readonly equation: string;
  /** Keys into the room's bibliography. */
  readonly sources: readonly string[];
  /** Where the relation holds, beyond the inputs' own ranges. */
  readonly validity?: string;
  /** A caution printed with every result, where people or animals can be hurt. */
  readonly caution?: string;
  readonly compute: (inputs: { readonly [K in keyof I]: InputValue<I[K]> }) => {
    readonly [K in keyof O]: number | readonly number[];
  };
}

/** A relation whose exact input and output names have been forgotten, as lists of relations hold them. */
export interface AnyRelation extends Omit<Relation, "compute"> {
  readonly compute: (inputs: never) => Readonly<Record<string, number | readonly number[]>>;
}

/** A number input, shortly written. */
/* @__NO_SIDE_EFFECTS__ */
export function quantity(label: string, unit: string, min: number, max: number, preset?: number): NumberInput {
  const input = { kind: "number", label, unit, min, max } as const;
  return preset === undefined ? input : { ...input, default: preset };
}

/** A choice input, shortly written; the options stay literal so that `compute` sees them. */
/* @__NO_SIDE_EFFECTS__ */
export function choice<const S extends readonly string[]>(
  label: string,
  options: S,
  preset: S[number],
): ChoiceInput & { readonly options: S } {
  return { kind: "choice", label, options, default: preset };
}

/** A list of numbers, shortly written. */
/* @__NO_SIDE_EFFECTS__ */
export function series(label: string, unit: string, min: number, max: number, atLeast = 1): SeriesInput {
  return { kind: "series", label, unit, min, max, atLeast };
}

/** An output, shortly written. */
/* @__NO_SIDE_EFFECTS__ */
export function output(label: string, unit: string): Output {
  return { label, unit };
}

/** An output that answers yes (1) or no (0). */
/* @__NO_SIDE_EFFECTS__ */
export function yesNo(label: string): Output {
  return { label, unit: "1", yesNo: true };
}

/** Declares a relation; exists for type inference alone, so a bundle that uses none carries none. */
/* @__NO_SIDE_EFFECTS__ */
export function relation<
  const I extends Readonly<Record<string, Input>>,
  const O extends Readonly<Record<string, Output>>,
>(r: Relation<I, O>): Relation<I, O> {
  return r;
}

/** Several lists as one; written so that a bundle that never asks for relations carries none. */
/* @__NO_SIDE_EFFECTS__ */
export function joined(...lists: readonly (readonly AnyRelation[])[]): readonly AnyRelation[] {
  return lists.flat();
}

export interface RelationFault {
  readonly input: string;
  readonly message: string;
}

/** Bad inputs of a relation: every fault at once, each with what is allowed. */
export class RelationError extends Error {
  readonly relation: string;
  readonly faults: readonly RelationFault[];
  constructor(id: string, faults: readonly RelationFault[]) {
    super(`${id}: ${faults.map((f) => `${f.input}: ${f.message}`).join("; ")}`);
    this.name = "RelationError";
    this.relation = id;
    this.faults = faults;
  }
}

export type RawInputs = Readonly<Record<string, number | string | readonly number[] | undefined>>;
export type RawOutputs = Readonly<Record<string, number | readonly number[]>>;

/** More options than these are not all named. */
const longList = 20;

/** What an input may be, in words. */
function allowed(spec: Input): string {
  if (spec.kind === "choice") {
    const rest = spec.options.length - longList;
    return `one of ${spec.options.slice(0, longList).join(", ")}${rest > 0 ? ` and ${rest} more` : ""}`;
  }
  const range = `${spec.min} to ${spec.max}${spec.unit === "1" ? "" : ` ${spec.unit}`}`;
  return spec.kind === "series" ? `at least ${spec.atLeast} numbers of ${range}` : range;
}

function checkNumber(value: unknown, spec: NumberInput | SeriesInput): string | null {
  const unit = spec.unit === "1" ? "" : ` ${spec.unit}`;
  if (typeof value !== "number" || !Number.isFinite(value)) return `must be a number in${unit || " plain units"}`;
  if (value < spec.min || value > spec.max) return `${value}${unit} lies outside ${spec.min} to ${spec.max}${unit}`;
  return null;
}

function checkInput(value: RawInputs[string], spec: Input): string | null {
  if (spec.kind === "choice") {
    return typeof value === "string" && spec.options.includes(value)
      ? null
      : `must be one of ${spec.options.join(", ")}`;
  }
  if (spec.kind === "number") return checkNumber(value, spec);
  if (!Array.isArray(value) || value.length < spec.atLeast) return `needs at least ${spec.atLeast} numbers`;
  for (const v of value as readonly unknown[]) {
    const fault = checkNumber(v, spec);
    if (fault) return fault;
  }
  return null;
}

/**
 * Evaluates a relation on untyped inputs (numbers already in the descriptor's units), filling defaults.
 * @throws RelationError naming every missing, unknown or out-of-range input, or saying that they have no answer together.
 */
export function evaluate(r: AnyRelation, raw: RawInputs): RawOutputs {
  const faults: RelationFault[] = [];
  const inputs: Record<string, unknown> = {};
  for (const name of Object.keys(raw)) {
    if (!Object.hasOwn(r.inputs, name)) {
      faults.push({ input: name, message: `is not an input; allowed: ${Object.keys(r.inputs).join(", ")}` });
    }
  }
  for (const [name, spec] of Object.entries(r.inputs)) {
    const value = raw[name] ?? ("default" in spec ? spec.default : undefined);
    const fault = value === undefined ? `is missing: ${spec.label}, ${allowed(spec)}` : checkInput(value, spec);
    if (fault) faults.push({ input: name, message: fault });
    inputs[name] = value;
  }
  if (faults.length > 0) throw new RelationError(r.id, faults);
  const outputs = answer(r, inputs);
  for (const [name, value] of Object.entries(outputs)) {
    if (typeof value === "number" ? Number.isNaN(value) : value.some(Number.isNaN)) {
      throw new RelationError(r.id, [
        { input: "inputs", message: `give no ${name} together, though each is in range` },
      ]);
    }
  }
  return outputs;
}

/** Inputs that are each in range may still contradict each other: the room's own words for that become a fault of the inputs. */
function answer(r: AnyRelation, inputs: Record<string, unknown>): RawOutputs {
  try {
    return r.compute(inputs as never);
  } catch (error) {
    if (error instanceof RelationError || error instanceof TypeError || !(error instanceof Error)) throw error;
    throw new RelationError(r.id, [{ input: "inputs", message: error.message }]);
  }
}
