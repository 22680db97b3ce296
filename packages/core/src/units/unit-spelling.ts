import type { Term } from "./unit-parts.ts";

const SUPERSCRIPTS = "⁰¹²³⁴⁵⁶⁷⁸⁹";
const SUBSCRIPTS = "₀₁₂₃₄₅₆₇₈₉";
const ENDS_RAISED = /[⁰¹²³⁴-⁹]$/;

export function superscript(exponent: number): string {
  return String(exponent).replace(/[\d-]/g, (c) => (c === "-" ? "⁻" : (SUPERSCRIPTS[Number(c)] as string)));
}

export function fromSuperscript(text: string): string {
  return text.replace(/./gu, (c) => (c === "⁻" ? "-" : c === "⁺" ? "" : String(SUPERSCRIPTS.indexOf(c))));
}

export function subscript(formula: string): string {
  return formula.replace(/\d/g, (c) => SUBSCRIPTS[Number(c)] as string);
}

export function fromSubscript(text: string): string {
  return text.replace(/[₀-₉]/g, (c) => String(SUBSCRIPTS.indexOf(c)));
}

type Write = (term: Term, exponent: number) => string;

/** The factors that stand above (or below) the line, each written with its power. */
function side(terms: readonly Term[], below: boolean, write: Write): string[] {
  return terms.flatMap((t) => {
    const isBelow = t.under !== t.exponent < 0;
    return t.atom && isBelow === below ? [write(t, Math.abs(t.exponent))] : [];
  });
}

/** Parts of a compound: above the line, below it, and counted parts such as "50 L" of "mL/d per 50 L". */
function parts(terms: readonly Term[], write: Write): { over: string[]; under: string[]; counted: string } {
  const isCounted = (t: Term) => t.under && t.count !== null;
  const plain = terms.filter((t) => !isCounted(t));
  const counted = terms.filter(isCounted).map((t) => ` per ${[t.count, ...side([t], true, write)].join(" ")}`);
  return { over: side(plain, false, write), under: side(plain, true, write), counted: counted.join("") };
}

/** House spelling of a compound, which reads back as the same unit: `W/m2/K`, `mL/d per 50 L`. */
export function symbolOf(terms: readonly Term[]): string {
  const { over, under, counted } = parts(terms, (t, e) => `${t.atom?.symbol}${e === 1 ? "" : e}`);
  return [over.join("*") || "1", ...under].join("/") + counted;
}

/** The compound as people see it: `W/m²K`, `mol/(L·atm)`. */
export function shownOf(terms: readonly Term[]): string {
  const { over, under, counted } = parts(terms, (t, e) => `${t.atom?.shown}${e === 1 ? "" : superscript(e)}`);
  // "m²s" stands without brackets, because a power closes its factor; "(L·d)" needs them.
  const open = under.slice(0, -1).some((f) => !ENDS_RAISED.test(f));
  const bottom = open ? `(${under.join("·")})` : under.join("");
  const top = over.join("·") || "1";
  return (bottom === "" ? top : `${top}/${bottom}`) + counted;
}
