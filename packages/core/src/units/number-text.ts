import { quoted } from "./unit-expression.ts";
import { fromSuperscript } from "./unit-spelling.ts";

/** A number at the head of a text, and what follows it. */
export type NumberText =
  | { readonly kind: "number"; readonly value: number; readonly rest: string }
  /** Two numbers are possible: the rest is the same for both. */
  | { readonly kind: "ask"; readonly message: string; readonly numbers: readonly string[]; readonly rest: string }
  | { readonly kind: "fault"; readonly message: string };

const PLAIN = /^[+-]?(?:\d+(?:\.\d+)?|\.\d+)(?:[eE][+-]?\d+)?(?=\s*(?:[^\s\d.,/⁄×*+\-−½¼¾⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞x]|$))/;
const SIGN = /^[+\-−]/;
const MIXED = /^(\d{1,9})(?:\s+|-)(\d{1,9})\s*[/⁄]\s*(\d{1,9})(?![\d.,])/;
const FRACTION = /^(\d{1,9})\s*[/⁄]\s*(\d{1,9})(?![\d.,])/;
const VULGAR = /^(\d{0,9})\s?([½¼¾⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞])/;
/** Digits with any separators between them; a thin or no-break space groups three digits. */
const DIGITS = /^(?:\d|[.,](?=\d)|(?<=\d)[\u00a0\u2009\u202f](?=\d{3}(?!\d)))+\.?/;
const POWER = /^(?:[eE]([+\-−]?\d+)(?![\d.,])|\s*[×x*·]\s*10(?:\^([+\-−]?\d+)|([⁺⁻]?[⁰¹²³⁴-⁹]+)))/;
/** More digits after the number, unless they begin a rate: 0.5 1/h. */
const SECOND_NUMBER = /^\s*\d(?!(?<=\s1)\s*(?:\/\s*\D|per\b))/;

const VULGAR_VALUES: Readonly<Record<string, number>> = {
  "½": 1 / 2,
  "¼": 1 / 4,
  "¾": 3 / 4,
  "⅓": 1 / 3,
  "⅔": 2 / 3,
  "⅕": 1 / 5,
  "⅖": 2 / 5,
  "⅗": 3 / 5,
  "⅘": 4 / 5,
  "⅙": 1 / 6,
  "⅚": 5 / 6,
  "⅛": 1 / 8,
  "⅜": 3 / 8,
  "⅝": 5 / 8,
  "⅞": 7 / 8,
};

/** A decimal number out of digits and separators: its plain spelling, both spellings where two are possible, or null. */
function plainDigits(blob: string): string | readonly [string, string] | null {
  if (/^(?:\d+\.?\d*|\.\d+)$/.test(blob)) return blob;
  const digits = blob.replace(/[\u00a0\u2009\u202f]/g, "");
  if (digits !== blob) {
    return /^[1-9]\d{0,2}(?:[\u00a0\u2009\u202f]\d{3})+(?:[.,]\d+)?$/.test(blob) ? digits.replace(",", ".") : null;
  }
  if (/^[1-9]\d{0,2},\d{3}$/.test(blob)) return [blob.replace(",", "."), blob.replace(",", "")];
  if (/^\d*,\d+$/.test(blob)) return blob.replace(",", ".");
  if (/^[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?$/.test(blob)) return blob.replaceAll(",", "");
  if (/^[1-9]\d{0,2}(?:\.\d{3})+(?:,\d+)?$/.test(blob)) return blob.replaceAll(".", "").replace(",", ".");
  return null;
}

function found(value: number, digits: string, written: string, rest: string): NumberText {
  if (!Number.isFinite(value)) return { kind: "fault", message: `${quoted(written)} is too large a number` };
  if (value === 0 && /[1-9]/.test(digits)) {
    return { kind: "fault", message: `${quoted(written)} is too small a number` };
  }
  return { kind: "number", value: value === 0 ? 0 : value, rest: rest.trim() };
}

/** 11 3/4, 3/4, 1½: null when the text starts with none of these. */
function readFraction(text: string, sign: number): NumberText | null {
  const mixed = MIXED.exec(text);
  const fraction = mixed ?? FRACTION.exec(text);
  if (fraction) {
    const [written, ...numbers] = fraction;
    const [whole, over, under] = (mixed ? numbers : ["0", ...numbers]).map(Number) as [number, number, number];
    if (under === 0) return { kind: "fault", message: `${quoted(written)} divides by 0` };
    if (mixed && over >= under) {
      return { kind: "fault", message: `${quoted(written)}: the fraction after a whole number must be below 1` };
    }
    return found((sign * (whole * under + over)) / under, "", written, text.slice(written.length));
  }
  const vulgar = VULGAR.exec(text);
  if (!vulgar) return null;
  const [written, whole = "", part = ""] = vulgar;
  return found(sign * (Number(whole) + (VULGAR_VALUES[part] as number)), "", written, text.slice(written.length));
}

function readDecimal(text: string, sign: string): NumberText {
  const blob = DIGITS.exec(text)?.[0];
  if (blob === undefined || !/\d/.test(blob)) {
    return {
      kind: "fault",
      message: text === "" ? "a number is missing" : `${quoted(sign + text)} does not start with a number`,
    };
  }
  const after = text.slice(blob.length);
  const match = POWER.exec(after);
  const exponent = (match?.[1] ?? match?.[2] ?? fromSuperscript(match?.[3] ?? "")).replace("−", "-");
  const rest = after.slice(match?.[0].length ?? 0);
  const tail = exponent === "" ? "" : `e${exponent}`;
  const written = sign + blob + (match?.[0] ?? "");
  const spelled = plainDigits(blob);
  if (spelled === null || /^[\d.,]/.test(rest)) {
    return { kind: "fault", message: `${quoted(sign + text)} holds no number that can be read` };
  }
  if (typeof spelled !== "string") {
    const numbers = spelled.map((s) => sign + s + tail);
    const message = `${quoted(written)} may be ${numbers.join(" or ")}: write it without the comma`;
    return { kind: "ask", message, numbers, rest: rest.trim() };
  }
  const split = /^\s+(\d{3})(?![\d.,/⁄])/.exec(rest);
  if (split && /^[1-9]\d{0,2}$/.test(blob)) {
    const joined = sign + blob + split[1];
    const message = `${quoted(`${written} ${split[1]}`)} may be ${joined} or two numbers: write it without the space`;
    return { kind: "ask", message, numbers: [joined], rest: rest.slice(split[0].length).trim() };
  }
  if (SECOND_NUMBER.test(rest)) return { kind: "fault", message: `${quoted(sign + text)} holds two numbers` };
  return found(Number(sign + spelled + tail), spelled, written, rest);
}

/**
 * Reads the number at the head of a text. A point is the decimal mark; a comma is one too where it cannot part
 * thousands ("2,5"); "1,234" is asked about. Fractions (11 3/4, 3/4, 1½), signs, e-notation and ×10ⁿ are read.
 */
export function readNumber(text: string): NumberText {
  const plain = PLAIN.exec(text);
  if (plain) {
    const [written] = plain;
    return found(Number(written), written.replace(/[eE].*$/, ""), written, text.slice(written.length));
  }
  const mark = SIGN.exec(text)?.[0] ?? "";
  const body = text.slice(mark.length);
  const sign = mark === "-" || mark === "−" ? "-" : "";
  return readFraction(body, sign === "-" ? -1 : 1) ?? readDecimal(body, sign);
}
