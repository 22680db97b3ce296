import { elements } from "./elements.ts";

/** A chemical formula that cannot be read, with the reason. */
export class FormulaError extends Error {
  readonly formula: string;
  constructor(formula: string, reason: string) {
    super(`${formula}: ${reason}`);
    this.name = "FormulaError";
    this.formula = formula;
  }
}

const TOKEN = /([A-Z][a-z]?)|([([])|([)\]])|(\d{1,4})/y;
const SUBSCRIPTS = "₀₁₂₃₄₅₆₇₈₉";

/** Adds up one part of a formula between hydrate dots, counting each element `times`. */
function countPart(part: string, formula: string, counts: Map<string, number>): void {
  const lead = /^\d{1,4}/.exec(part)?.[0] ?? "";
  const levels: Map<string, number>[] = [new Map()];
  let last: ReadonlyMap<string, number> | null = null;
  TOKEN.lastIndex = lead.length;
  const add = (from: ReadonlyMap<string, number>, times: number) => {
    const into = levels[levels.length - 1] as Map<string, number>;
    for (const [element, n] of from) into.set(element, (into.get(element) ?? 0) + n * times);
  };
  while (TOKEN.lastIndex < part.length) {
    const at = TOKEN.lastIndex;
    const match = TOKEN.exec(part);
    if (!match)
      throw new FormulaError(formula, `"${part.slice(at)}" is not part of a formula (write it without charge)`);
    const [, element, open, close, number] = match;
    if (element !== undefined) {
      if (elements[element] === undefined) throw new FormulaError(formula, `no element ${element} in the table`);
      last = new Map([[element, 1]]);
      add(last, 1);
    } else if (open !== undefined) {
      levels.push(new Map());
      last = null;
    } else if (close !== undefined) {
      const group = levels.pop();
      if (!group || levels.length === 0) throw new FormulaError(formula, "a bracket closes that was not opened");
      last = group;
      add(last, 1);
    } else {
      if (!last || Number(number) === 0) throw new FormulaError(formula, `the number ${number} counts nothing`);
      add(last, Number(number) - 1);
      last = null;
    }
  }
  if (levels.length > 1) throw new FormulaError(formula, "a bracket is not closed");
  const times = lead === "" ? 1 : Number(lead);
  const total = levels[0] as Map<string, number>;
  if (total.size === 0 || times === 0) throw new FormulaError(formula, "names no element");
  for (const [element, n] of total) counts.set(element, (counts.get(element) ?? 0) + n * times);
}

/**
 * Atoms of each element in a formula such as `KNO3`, `Ca(NO3)2·4H2O`, `MgSO4.7H2O`; hydrate dots may be · . * or •.
 * @throws FormulaError
 */
export function atomCounts(formula: string): ReadonlyMap<string, number> {
  if (formula.length > 80) throw new FormulaError(`${formula.slice(0, 20)}…`, "is too long for a formula");
  const plain = formula.trim().replace(/[₀-₉]/g, (c) => String(SUBSCRIPTS.indexOf(c)));
  const counts = new Map<string, number>();
  for (const part of plain.split(/\s*[·.*•⋅]\s*/)) countPart(part, formula, counts);
  return counts;
}

/**
 * Molar mass of a formula, g/mol, from the abridged standard atomic weights of {@link elements}.
 * @throws FormulaError
 */
export function molarMass(formula: string): number {
  let sum = 0;
  for (const [element, n] of atomCounts(formula)) sum += (elements[element] as number) * n;
  // The weights have at most three decimals; the sum is freed of binary dust.
  return Math.round(sum * 1000) / 1000;
}

/**
 * Mass of an element in a mass of the pure compound, g/g (0 when the compound has none of it).
 * @throws FormulaError
 */
export function elementShare(formula: string, element: string): number {
  const weight = Object.hasOwn(elements, element) ? elements[element] : undefined;
  if (weight === undefined) throw new FormulaError(formula, `no element ${element} in the table`);
  return ((atomCounts(formula).get(element) ?? 0) * weight) / molarMass(formula);
}
