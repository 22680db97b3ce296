/** A unit that cannot be read, or two that do not fit each other. Names the units and, where it helps, what was meant. */
export class UnitError extends Error {
  readonly units: readonly string[];
  /** Units that the text may have meant. */
  readonly candidates: readonly string[];
  constructor(message: string, units: readonly string[], candidates: readonly string[] = []) {
    super(message);
    this.name = "UnitError";
    this.units = units;
    this.candidates = candidates;
  }
}
