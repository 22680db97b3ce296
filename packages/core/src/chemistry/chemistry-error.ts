/** What kind of refusal it is. */
export type ChemistryFault = "bad-input" | "no-solution" | "out-of-range" | "no-convergence";

/** A refusal of the chemistry room: which fault, which quantity it concerns, and a plain sentence. */
export class ChemistryError extends Error {
  readonly fault: ChemistryFault;
  /** The quantity or input concerned, e.g. "alk" or "totals.ca". */
  readonly where: string;
  /** The reason in words, without the place. */
  readonly what: string;
  constructor(fault: ChemistryFault, where: string, what: string) {
    super(`${where}: ${what}`);
    this.name = "ChemistryError";
    this.fault = fault;
    this.where = where;
    this.what = what;
  }
}

/** @throws ChemistryError when `value` is not a finite number within the limits (both inclusive). */
export function requireNumber(value: number, where: string, min: number, max: number, unit: string): number {
  if (!Number.isFinite(value) || value < min || value > max) {
    throw new ChemistryError("bad-input", where, `${value} ${unit} must be a number from ${min} to ${max} ${unit}`);
  }
  return value;
}
