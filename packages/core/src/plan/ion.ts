/** Concentrations of ions: as amount, or as mass of a species that has to be named where two are in use. */
import { convert, convertAmount, molarMass, parseQuantity } from "../units/index.ts";

/** What a mass of each ion may be told as; the first is the ion itself. */
const toldAs: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  NO3: { NO3: "NO3", "NO3-N": "N", N: "N" },
  PO4: { PO4: "PO4", "PO4-P": "P", P: "P" },
  SO4: { SO4: "SO4", "SO4-S": "S", S: "S" },
};

/** Ions of which keepers' tests and reports are told both ways, so that mg/L alone says too little. */
const mustSay: Readonly<Record<string, readonly [ion: string, element: string]>> = {
  NO3: ["NO3", "NO3-N"],
  PO4: ["PO4", "PO4-P"],
};

const hardnessIons: readonly string[] = ["Ca", "Mg"];

type IonRead =
  | { readonly ok: true; readonly value: number; readonly shownUnit: string }
  | { readonly ok: false; readonly message: string; readonly allowed: string };

/** Reads `8 mg/L NO3`, `1.8 mg/L as N`, `0.13 mmol/L`; calcium and magnesium also as `20 mg/L CaCO3`. In mmol/L. */
export function readIon(words: string, ion: string): IonRead {
  const species = toldAs[ion] ?? { [ion]: ion };
  const named = /^(.*?)(?:\s+as)?\s+([A-Z][A-Za-z0-9]*(?:-[NPS])?)$/.exec(words);
  const formula = named?.[2] === undefined || !Object.hasOwn(species, named[2]) ? undefined : species[named[2]];
  const head = formula === undefined ? words : (named?.[1] ?? words);
  const amount = parseQuantity(head, { expect: "mmol/L" });
  if (amount.ok && (amount.unit.includes("mol") || hardnessIons.includes(ion))) {
    return { ok: true, value: convert(amount.value, amount.unit, "mmol/L"), shownUnit: "mmol/L" };
  }
  const mass = parseQuantity(head, { expect: "mg/L" });
  if (!mass.ok) {
    const allowed = mass.candidates?.map((c) => c.text).join(" or ") ?? `an amount in mg/L ${ion} or mmol/L`;
    return { ok: false, message: mass.message, allowed };
  }
  const both = mustSay[ion];
  if (formula === undefined && both) {
    return {
      ok: false,
      message: `mg/L of ${both[0]} or of ${both[1]}? They differ by a factor of ${(molarMass(ion) / molarMass(species[both[1]] ?? ion)).toFixed(1)}`,
      allowed: `${head} ${both[0]} or ${head} ${both[1]}`,
    };
  }
  const value = convertAmount(mass.value, mass.unit, "mmol/L", molarMass(formula ?? ion));
  return { ok: true, value, shownUnit: mass.unit };
}
