/** Where a line of a text begins and ends, in characters; the last line for numbers beyond it. */
export function spanOf(text: string, line: number): { readonly from: number; readonly to: number } {
  let from = 0;
  for (let n = 1; n < line; n += 1) {
    const end = text.indexOf("\n", from);
    if (end < 0) break;
    from = end + 1;
  }
  const to = text.indexOf("\n", from);
  return { from, to: to < 0 ? text.length : to };
}

/** The line without its indent; a long one is cut around the column (from 1). */
export function excerpt(line: string, column: number, width = 72): string {
  const whole = line.trim();
  if (whole.length <= width) return whole;
  const at = column - 1 - (line.length - line.trimStart().length);
  const from = Math.max(0, Math.min(Math.round(at - width / 2), whole.length - width));
  return `${from > 0 ? "… " : ""}${whole.slice(from, from + width)}${from + width < whole.length ? " …" : ""}`;
}
