import { lightOutputRatio, type Photometry, zonalFlux } from "./photometry.ts";

/** One thing wrong with a file: where, what, and what is allowed. */
export interface PhotometryFault {
  /** Counted from 1. */
  readonly line: number;
  readonly message: string;
  readonly allowed: string;
}

export type ReadPhotometry =
  | { readonly ok: true; readonly photometry: Photometry; readonly notes: readonly string[] }
  | { readonly ok: false; readonly faults: readonly PhotometryFault[] };

/** What a file may be at most: far above any measured luminaire, far below what would stall a page. */
export const PHOTOMETRY_LIMITS = { characters: 2_000_000, angles: 721, values: 260_000, tilt: 400 } as const;

const FEET = 0.3048;
const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/;

/** First lines that tell the layout. */
const LAYOUTS: readonly (readonly [line: string, layout: Photometry["layout"]])[] = [
  ["IESNA91", "1991"],
  ["IESNA:LM-63-1995", "1995"],
  ["IESNA:LM-63-2002", "2002"],
  ["IES:LM-63-2019", "2019"],
];

/** Keywords that a layout asks for; a file without them is read, and told. */
const REQUIRED: Readonly<Record<Photometry["layout"], readonly string[]>> = {
  "1986": [],
  "1991": ["TEST", "MANUFAC"],
  "1995": [],
  "2002": ["TEST", "TESTLAB", "ISSUEDATE", "MANUFAC"],
  "2019": ["TEST", "TESTLAB", "ISSUEDATE", "MANUFAC"],
};

class Refusal extends Error {
  readonly fault: PhotometryFault;
  constructor(line: number, message: string, allowed: string) {
    super(message);
    this.fault = { line, message, allowed };
  }
}

interface Word {
  readonly text: string;
  readonly line: number;
}

/** The numbers of a file, one after the other; line breaks mean nothing among them. */
class Numbers {
  private at = 0;
  private readonly words: readonly Word[];
  private readonly lastLine: number;

  constructor(lines: readonly string[], first: number) {
    this.words = lines
      .slice(first)
      .flatMap((text, i) => (text.match(/[^\s,]+/g) ?? []).map((word) => ({ text: word, line: first + i + 1 })));
    this.lastLine = lines.length;
  }

  /** Line of the next number. */
  get line(): number {
    return this.words[this.at]?.line ?? this.lastLine;
  }

  /** A number of which `fine` holds. */
  next(name: string, allowed: string, fine: (value: number) => boolean): number {
    const word = this.words[this.at];
    if (!word) throw new Refusal(this.lastLine, `the file ends before ${name}`, allowed);
    const value = NUMBER.test(word.text) ? Number(word.text) : Number.NaN;
    const shown = word.text.length > 20 ? `${word.text.slice(0, 20)}…` : word.text;
    if (!Number.isFinite(value)) throw new Refusal(word.line, `${name}: "${shown}" is not a number`, allowed);
    if (!fine(value)) throw new Refusal(word.line, `${name} is ${shown}`, allowed);
    this.at += 1;
    return value;
  }

  count(name: string, most: number, least = 1): number {
    return this.next(
      name,
      `a whole number from ${least} to ${most}`,
      (v) => Number.isInteger(v) && v >= least && v <= most,
    );
  }

  /** Rising angles within bounds. */
  angles(name: string, count: number, from: number, to: number): number[] {
    const values: number[] = [];
    for (let i = 0; i < count; i += 1) {
      const before = values.at(-1);
      const name1 = `${name} ${i + 1} of ${count}`;
      values.push(
        before === undefined
          ? this.next(name1, `${from} to ${to} deg`, (v) => v >= from && v <= to)
          : this.next(name1, `above ${before}, the one before it, up to ${to} deg`, (v) => v > before && v <= to),
      );
    }
    return values;
  }

  end(): void {
    const word = this.words[this.at];
    if (word) {
      const left = this.words.length - this.at;
      throw new Refusal(
        word.line,
        `${left} ${left === 1 ? "value is" : "values are"} left over after the last intensity`,
        "as many intensities as vertical times horizontal angles",
      );
    }
  }
}

function layoutOf(lines: readonly string[]): { layout: Photometry["layout"]; first: number } {
  const line = lines[0]!.trim();
  const known = LAYOUTS.find(([text]) => text === line.toUpperCase());
  if (known) return { layout: known[1], first: 1 };
  if (/^IES/i.test(line)) {
    throw new Refusal(
      1,
      `layout "${line.slice(0, 40)}" is not known`,
      `${LAYOUTS.map(([text]) => text).join(", ")}, or none (1986)`,
    );
  }
  return { layout: "1986", first: 0 };
}

function keywordsOf(
  lines: readonly string[],
  first: number,
  tilt: number,
  layout: Photometry["layout"],
): Map<string, string> {
  const keywords = new Map<string, string>();
  let last: string | null = null;
  for (let i = first; i < tilt; i += 1) {
    const line = lines[i]!.trim();
    if (line === "") continue;
    if (layout === "1986") {
      keywords.set("", `${keywords.get("") ?? ""}\n${line}`.trim());
      continue;
    }
    const match = /^\[([^\]]+)\]\s*(.*)$/.exec(line);
    if (!match) {
      throw new Refusal(
        i + 1,
        `"${line.slice(0, 40)}" stands before TILT= without a keyword`,
        "[KEYWORD] text, or TILT=",
      );
    }
    const name = match[1]!.trim().toUpperCase();
    if (name === "MORE") {
      if (last === null)
        throw new Refusal(i + 1, "[MORE] has no keyword before it to go on from", "a keyword line first");
      keywords.set(last, `${keywords.get(last)}\n${match[2]}`);
    } else {
      // a keyword may stand several times; each time adds a line
      keywords.set(name, keywords.has(name) ? `${keywords.get(name)}\n${match[2]}` : match[2]!);
      last = name;
    }
  }
  return keywords;
}

function symmetryOf(horizontal: readonly number[], line: number): Photometry["symmetry"] {
  const first = horizontal[0]!;
  const last = horizontal.at(-1)!;
  if (first === 0 && last === 0) return "round";
  if (first === 0 && last === 90) return "quarter";
  if (first === 0 && last === 180) return "half";
  if (first === 0 && last === 360) return "none";
  if (first === 90 && last === 270) return "half across";
  throw new Refusal(
    line,
    `horizontal angles run from ${first} to ${last}`,
    "0 alone, 0 to 90, 0 to 180, 0 to 360 or 90 to 270",
  );
}

function checkVertical(vertical: readonly number[], line: number): void {
  const first = vertical[0]!;
  const last = vertical.at(-1)!;
  if (!((first === 0 && (last === 90 || last === 180)) || (first === 90 && last === 180))) {
    throw new Refusal(line, `vertical angles run from ${first} to ${last}`, "0 to 90, 0 to 180 or 90 to 180");
  }
}

function tiltOf(numbers: Numbers): NonNullable<Photometry["tilt"]> {
  numbers.count("lamp position of the tilt table", 3);
  const pairs = numbers.count("number of tilt angles", PHOTOMETRY_LIMITS.tilt);
  const angles = numbers.angles("tilt angle", pairs, 0, 180);
  const factors = angles.map((_, i) =>
    numbers.next(`tilt factor ${i + 1} of ${pairs}`, "0 to 2", (v) => v >= 0 && v <= 2),
  );
  return { angles, factors };
}

const positive = (v: number): boolean => v > 0;

function parse(text: string): { photometry: Photometry; notes: string[] } {
  if (text.length > PHOTOMETRY_LIMITS.characters) {
    throw new Refusal(1, `the file holds ${text.length} characters`, `up to ${PHOTOMETRY_LIMITS.characters}`);
  }
  if (text.trim() === "") throw new Refusal(1, "the file is empty", "a photometric file after IES LM-63");
  // the end mark of old systems means nothing; a byte mark before the text goes with the blanks
  const lines = text.replaceAll("\x1a", "").split(/\r\n|\n|\r/);
  while (lines.at(-1)?.trim() === "") lines.pop();
  const strange = lines.findIndex((line) => /\p{Cc}/u.test(line.replaceAll("\t", "")));
  if (strange >= 0)
    throw new Refusal(strange + 1, "the line holds bytes that are no text", "plain text after IES LM-63");

  const { layout, first } = layoutOf(lines);
  const tiltLine = lines.findIndex((line, i) => i >= first && /^\s*TILT\s*=/i.test(line));
  if (tiltLine < 0)
    throw new Refusal(lines.length, "there is no TILT= line", "TILT=NONE, TILT=INCLUDE or TILT=file name");
  const keywords = keywordsOf(lines, first, tiltLine, layout);
  const notes: string[] = [];
  const missing = REQUIRED[layout].filter((name) => !keywords.has(name));
  if (missing.length > 0)
    notes.push(`keywords that the layout of ${layout} asks for are missing: ${missing.join(", ")}`);

  const tiltWord = lines[tiltLine]!.split("=")[1]!.trim();
  if (tiltWord === "")
    throw new Refusal(tiltLine + 1, "TILT= says nothing", "TILT=NONE, TILT=INCLUDE or TILT=file name");
  const numbers = new Numbers(lines, tiltLine + 1);
  const tilt = tiltWord.toUpperCase() === "INCLUDE" ? tiltOf(numbers) : null;
  if (!tilt && tiltWord.toUpperCase() !== "NONE") {
    notes.push("the tilt table stands in another file, which is not read: the luminaire is taken to hang level");
  }

  const lamps = numbers.count("number of lamps", 10_000);
  const lumens = numbers.next("lumens per lamp", "above 0, or -1 for absolute photometry", (v) => v > 0 || v === -1);
  const multiplier = numbers.next("candela multiplier", "above 0", positive);
  const verticalCount = numbers.count("number of vertical angles", PHOTOMETRY_LIMITS.angles, 2);
  const horizontalCount = numbers.count("number of horizontal angles", PHOTOMETRY_LIMITS.angles);
  if (verticalCount * horizontalCount > PHOTOMETRY_LIMITS.values) {
    throw new Refusal(
      numbers.line,
      `${verticalCount} by ${horizontalCount} angles make ${verticalCount * horizontalCount} intensities`,
      `up to ${PHOTOMETRY_LIMITS.values}`,
    );
  }
  const typeLine = numbers.line;
  const type = numbers.count("photometric type", 3);
  if (type !== 1) {
    throw new Refusal(
      typeLine,
      `photometric type ${type} (${type === 2 ? "B, floodlights" : "A, vehicle lamps"}) is not read`,
      "type 1 (C): ask the maker for that, or have the file turned into it",
    );
  }
  const units = numbers.count("unit of lengths", 2);
  const metre = units === 1 ? FEET : 1;
  const sizes = ["width", "length", "height"].map((name) =>
    numbers.next(`${name} of the opening`, "-100 to 100 (negative for round shapes)", (v) => Math.abs(v) <= 100),
  );
  const ballast = numbers.next("ballast factor", "above 0, up to 10", (v) => v > 0 && v <= 10);
  // up to 1991 a second factor; later a number of no effect, since 2019 the way in which the file was made
  const secondLine = numbers.line;
  const second = numbers.next("second factor (later: for future use)", "0 or more, up to 10", (v) => v >= 0 && v <= 10);
  const older = layout === "1986" || layout === "1991";
  if (older && second === 0) throw new Refusal(secondLine, "ballast-lamp factor is 0", "above 0, up to 10");
  const watts = numbers.next("input watts", "0 to 100000", (v) => v >= 0 && v <= 100_000);

  const verticalLine = numbers.line;
  const vertical = numbers.angles("vertical angle", verticalCount, 0, 180);
  checkVertical(vertical, verticalLine);
  const horizontalLine = numbers.line;
  const horizontal = numbers.angles("horizontal angle", horizontalCount, 0, 360);
  const symmetry = symmetryOf(horizontal, horizontalLine);
  const factor = multiplier * ballast * (older ? second : 1);
  const candelaLine = numbers.line;
  const candela = horizontal.map((h) =>
    vertical.map(
      (v) => factor * numbers.next(`intensity at vertical ${v}, horizontal ${h}`, "0 or more", (c) => c >= 0),
    ),
  );
  numbers.end();

  const photometry: Photometry = {
    layout,
    keywords,
    lamps,
    lumensPerLamp: lumens === -1 ? null : lumens,
    opening: {
      width: Math.abs(sizes[0]!) * metre,
      length: Math.abs(sizes[1]!) * metre,
      height: Math.abs(sizes[2]!) * metre,
      round: sizes.some((s) => s < 0),
    },
    watts,
    vertical,
    horizontal,
    symmetry,
    candela,
    tilt,
  };
  const flux = zonalFlux(photometry);
  if (!(flux > 0 && flux < Number.POSITIVE_INFINITY)) {
    throw new Refusal(
      candelaLine,
      "the intensities give no light, or more than can be counted",
      "some intensity above 0",
    );
  }
  notes.push(...doubts(photometry, flux));
  return { photometry, notes };
}

/** What in a readable file is unlikely and worth a look. */
function doubts(photometry: Photometry, flux: number): string[] {
  const notes: string[] = [];
  const ratio = lightOutputRatio(photometry);
  if (ratio !== null && ratio > 1.02) {
    notes.push(
      `the intensities add up to ${flux.toPrecision(4)} lm, ${ratio.toPrecision(3)} times the rating of the lamps`,
    );
  }
  if (ratio !== null && ratio < 0.1) {
    notes.push(
      `the intensities add up to ${flux.toPrecision(4)} lm, only ${ratio.toPrecision(2)} of the rating of the lamps`,
    );
  }
  if (photometry.watts > 0 && flux / photometry.watts > 350) {
    notes.push(`${(flux / photometry.watts).toPrecision(3)} lm/W is more than any white light can give`);
  }
  const poles: (readonly [number, string])[] = [
    [0, "straight down"],
    [180, "straight up"],
  ];
  for (const [angle, word] of poles) {
    const i = photometry.vertical.indexOf(angle);
    if (i < 0) continue;
    const all = photometry.candela.map((plane) => plane[i]!);
    const most = Math.max(...all);
    if (most - Math.min(...all) > 0.02 * most) notes.push(`the planes do not agree about the intensity ${word}`);
  }
  if (photometry.symmetry === "none") {
    const start = photometry.candela[0]!;
    const end = photometry.candela.at(-1)!;
    const most = Math.max(...start);
    if (start.some((c, i) => Math.abs(c - end[i]!) > 0.02 * most)) notes.push("the planes at 0 and 360 deg differ");
  }
  return notes;
}

/**
 * Reads a photometric file after ANSI/IES LM-63 of 1986, 1991, 1995, 2002 or 2019, type C. Strict: numbers that are
 * missing, left over, out of order or out of bounds refuse the file, with line, reason and what is allowed; the first fault
 * is told, since those after it mostly follow from it.
 * @param text of the file
 */
export function readPhotometry(text: string): ReadPhotometry {
  try {
    return { ok: true, ...parse(text) };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return { ok: false, faults: [error.fault] };
  }
}
