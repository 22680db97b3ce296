/** How wide a text will be, and how to make it fit: an estimate, since fonts are not at hand here. */

/**
 * Widths in em of Source Sans 3 regular, by eye on the safe side. Measured in a browser on 36 labels the estimate is
 * 0 to 10 % too wide.
 */
const narrow = new Set("iljtfrI.,:;'|!()[]·’‘-/");
const wide = new Set("mwMWQO@%—–…×");

/** Plain and bold are the sans face, `italic` the serif italic of plant names, which runs wider. */
export type Face = "plain" | "bold" | "italic";
const faceWidth: Readonly<Record<Face, number>> = { plain: 1, bold: 1.06, italic: 1.08 };

export function textWidth(text: string, size: number, face: Face = "plain"): number {
  let em = 0;
  for (const c of text) {
    if (c === " ") em += 0.22;
    else if (narrow.has(c)) em += 0.31;
    else if (wide.has(c)) em += 0.8;
    else if (c >= "A" && c <= "Z") em += 0.6;
    else if (c >= "0" && c <= "9") em += 0.5;
    else if ((c.codePointAt(0) ?? 0) > 0x2e80) em += 1;
    else em += 0.515;
  }
  return em * size * faceWidth[face];
}

/** The text, or its start with an ellipsis. */
export function fitted(text: string, size: number, width: number, face: Face = "plain"): string {
  if (textWidth(text, size, face) <= width) return text;
  const characters = [...text];
  while (characters.length > 1 && textWidth(`${characters.join("")}…`, size, face) > width) characters.pop();
  return `${characters.join("").trimEnd()}…`;
}

/** The text in at most `most` lines, broken at spaces; what is left over ends in an ellipsis. */
export function wrapped(text: string, size: number, width: number, most: number): string[] {
  const words = text.split(/\s+/).filter((w) => w !== "");
  const lines: string[] = [];
  let line = "";
  for (const [i, word] of words.entries()) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (line === "" || textWidth(longer, size) <= width) {
      line = longer;
      continue;
    }
    if (lines.length === most - 1) return [...lines, fitted([line, ...words.slice(i)].join(" "), size, width)];
    lines.push(line);
    line = word;
  }
  if (line !== "") lines.push(line);
  return lines.map((l) => fitted(l, size, width));
}

/** A run of text; `low` marks a subscript. */
export interface Run {
  readonly text: string;
  readonly low: boolean;
}

/** Splits "CO2 at dawn" into runs so that the numbers of common formulas can be set low. */
export function formulaRuns(text: string): Run[] {
  const out: Run[] = [];
  let from = 0;
  for (const match of text.matchAll(
    /(?<![A-Za-z0-9])(?:HCO|CaCO|CO|NO|NH|PO|SO|O|H)[2-4](?![A-Za-z0-9])|(?<![A-Za-z0-9])H2O(?![A-Za-z0-9])/g,
  )) {
    const whole = match[0];
    const digit = whole.search(/[2-4]/);
    const at = match.index + digit;
    if (at > from) out.push({ text: text.slice(from, at), low: false });
    out.push({ text: text.slice(at, at + 1), low: true });
    from = at + 1;
  }
  if (from < text.length) out.push({ text: text.slice(from), low: false });
  return out;
}

/** Number and unit of a written length: "760 mm" -> ["760", "mm"]. */
export function numberAndUnit(written: string): readonly [string, string] {
  const match = /^(.*\d[^A-Za-z"″′]*?)\s*([A-Za-z"″′]+)$/.exec(written);
  return match ? [match[1] ?? written, match[2] ?? ""] : [written, ""];
}

/** "760 × 380 × 400 mm": the unit once where all agree. */
export function sizeText(lengths: readonly string[]): string {
  const split = lengths.map(numberAndUnit);
  const unit = split[0]?.[1] ?? "";
  return unit !== "" && split.every(([, u]) => u === unit)
    ? `${split.map(([n]) => n).join(" × ")} ${unit}`
    : lengths.join(" × ");
}
