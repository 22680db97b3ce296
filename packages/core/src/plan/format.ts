import { sameJson } from "./changes.ts";
import { jsonIndent, printing } from "./edit-text.ts";
import { readText } from "./plan-text.ts";

function comments(text: string): number {
  return text.match(/(^|\s)#/gm)?.length ?? 0;
}

/**
 * A plan's text in the house layout: two spaces of indent, one space after colons, padded brackets, comments and order
 * as typed. Formatting twice is formatting once. A text that cannot be read, or that would lose a value or a comment,
 * comes back untouched.
 */
export function formatPlan(text: string): string {
  if (jsonIndent(text) !== null) return `${JSON.stringify(JSON.parse(text), null, 2)}\n`;
  const before = readText(text);
  if (!before.ok || before.faults.length > 0) return text;
  let printed = before.doc.toString(printing);
  // The library needs a second look at some layouts before it settles.
  for (let round = 0; round < 3; round++) {
    const again = readText(printed);
    if (!again.ok || !sameJson(again.raw, before.raw) || comments(printed) !== comments(text)) return text;
    const next = again.doc.toString(printing);
    if (next === printed) return printed;
    printed = next;
  }
  return text;
}
