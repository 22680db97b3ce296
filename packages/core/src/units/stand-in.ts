import { baseDimension, timesPower } from "./dimension.ts";
import { molarMass } from "./molar-mass.ts";
import { divide, multiply, ratio, ZERO } from "./ratio.ts";
import type { Atom, Measure } from "./unit-parts.ts";
import { subscript } from "./unit-spelling.ts";

/** What a concentration told as a mass of some salt stands for. */
export type StandsFor = "hardness" | "alkalinity";

/** Salts in which hardness and alkalinity are told, with the equivalents of one mole; bicarbonate tells alkalinity only. */
const SALTS: Readonly<Record<string, { readonly equivalents: string; readonly tells: readonly StandsFor[] }>> = {
  CaCO3: { equivalents: "2", tells: ["hardness", "alkalinity"] },
  CaO: { equivalents: "2", tells: ["hardness", "alkalinity"] },
  HCO3: { equivalents: "1", tells: ["alkalinity"] },
};

const MASS_PER_VOLUME = timesPower(baseDimension("mass"), baseDimension("length"), -3);
const CONCENTRATION: Readonly<Record<StandsFor, ReturnType<typeof baseDimension>>> = {
  hardness: timesPower(baseDimension("amount"), baseDimension("length"), -3),
  alkalinity: timesPower(baseDimension("equivalents"), baseDimension("length"), -3),
};

const TAGGED = /^(.+?)(?:\s+as)?\s+(CaCO3|CaO|HCO3)(\/\S+)?(?:\s*\((hardness|alkalinity)\))?$/;

export interface Tagged {
  /** The mass concentration. */
  readonly head: string;
  readonly salt: string;
  /** Null when the text leaves it open. */
  readonly standsFor: StandsFor | null;
}

/** Splits "mg/L CaCO3 (alkalinity)", "mg CaCO3/L", "mg/L as CaCO3"; null when the text is nothing like it. */
export function splitTagged(text: string): Tagged | null {
  const match = TAGGED.exec(text);
  if (!match) return null;
  const [, head = "", salt = "", tail = "", qualifier] = match;
  const tells = SALTS[salt]?.tells ?? [];
  const only = tells.length === 1 ? (tells[0] as StandsFor) : null;
  return { head: head + tail, salt, standsFor: (qualifier as StandsFor | undefined) ?? only };
}

/** The unit "so much of a salt per volume", or null when the head is no mass per volume or the salt cannot tell it. */
export function standInAtom(
  head: Measure & { readonly symbol: string; readonly shown: string },
  salt: string,
  standsFor: StandsFor,
): Atom | null {
  const rule = SALTS[salt];
  if (!rule?.tells.includes(standsFor) || head.dimension.key !== MASS_PER_VOLUME.key) return null;
  const perKilogram = divide(ratio("1000"), ratio(molarMass(salt).toFixed(3)));
  const each = standsFor === "alkalinity" ? ratio(rule.equivalents) : ratio("1");
  return {
    symbol: `${head.symbol} ${salt}${rule.tells.length > 1 ? ` (${standsFor})` : ""}`,
    shown: `${head.shown} ${subscript(salt)}`,
    dimension: CONCENTRATION[standsFor],
    ratio: multiply(head.ratio, multiply(perKilogram, each)),
    zero: ZERO,
    scale: "plain",
    alone: true,
  };
}
