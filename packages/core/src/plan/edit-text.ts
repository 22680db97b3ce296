/**
 * Changes written into a plan's text with the least disturbance: the new words go where the old ones stood, so that
 * comments, order, blank lines and spacing elsewhere stay as typed. Each edit is read back and compared with the
 * intended plan; where the layout was too odd for that, the YAML library writes the document anew (comments and order
 * kept, spacing its own).
 */
import {
  Document,
  isAlias,
  isCollection,
  isScalar,
  isSeq,
  isMap as isYamlMap,
  type Node,
  type Pair,
  Scalar,
  stringify,
  visit,
  type YAMLMap,
  type YAMLSeq,
} from "yaml";
import { applyToRaw, type Change, sameJson, valueAt } from "./changes.ts";
import { isMap, type Json, type RawPlan } from "./plan.ts";
import { keyOf, type PlanText, rangeOf, readText, stepsTo } from "./plan-text.ts";
import { keyOrder } from "./tree.ts";

/**
 * Writes changes into a plan's text (YAML or JSON); comments, order, blank lines and spacing elsewhere stay as typed.
 * @throws Error when the text is not a readable YAML or JSON map, which readPlan would have told.
 */
export function applyChanges(text: string, changes: readonly Change[]): string {
  if (text.startsWith("\uFEFF")) return `\uFEFF${applyChanges(text.slice(1), changes)}`;
  const everyLineIsCrlf = text.includes("\r\n") && !/[^\r]\n/.test(text) && !text.startsWith("\n");
  if (everyLineIsCrlf) return applyChanges(text.replaceAll("\r\n", "\n"), changes).replaceAll("\n", "\r\n");
  const json = jsonIndent(text);
  if (json !== null) return writeJson(text, changes, json);
  let edited = text;
  for (const change of changes.flatMap(leaves)) edited = editOnce(edited, change);
  return edited;
}

/** Indent of a JSON text ("" when on one line); null when the text is not JSON. */
export function jsonIndent(text: string): string | null {
  if (!/^\s*\{/.test(text)) return null;
  try {
    JSON.parse(text);
  } catch {
    return null;
  }
  return /^\s*\{\s*\n([ \t]*)/.exec(text)?.[1] ?? "";
}

function writeJson(text: string, changes: readonly Change[], indent: string): string {
  const raw = applyToRaw(JSON.parse(text) as RawPlan, changes);
  return JSON.stringify(raw, null, indent) + (/\s*$/.exec(text)?.[0] ?? "");
}

/** A change of a whole map as changes of its parts, so that what stays the same keeps its place and comments. */
function leaves(change: Change): readonly Change[] {
  const { before, after } = change;
  if (!isMap(before) || !isMap(after) || Object.keys(before).length === 0 || Object.keys(after).length === 0) {
    return [change];
  }
  const kept = Object.keys(before).filter((key) => Object.hasOwn(after, key));
  if (kept.length === 0) return [change];
  const part = (key: string): Change => ({
    name: change.name,
    path: [...change.path, key],
    before: Object.hasOwn(before, key) ? before[key] : undefined,
    after: Object.hasOwn(after, key) ? after[key] : undefined,
  });
  const gone = Object.keys(before).filter((key) => !Object.hasOwn(after, key));
  return [...Object.keys(after), ...gone]
    .map(part)
    .filter((c) => !sameJson(c.before, c.after))
    .flatMap(leaves);
}

function read(text: string): PlanText {
  const found = readText(text);
  const [first] = found.faults;
  if (!found.ok || first) throw new Error(`the text is not a readable plan: line ${first?.line}: ${first?.message}`);
  return found;
}

function editOnce(text: string, change: Change): string {
  const { doc, raw } = read(text);
  const actual: Change = { ...change, before: change.before === undefined ? undefined : valueAt(raw, change.path) };
  if (sameJson(actual.before, actual.after)) return text;
  const wanted = applyToRaw(raw, [actual]);
  const spliced = splice(text, doc, actual);
  if (spliced !== null) {
    const back = readText(spliced);
    if (back.ok && sameJson(back.raw, wanted)) return spliced;
  }
  return writeAnew(doc, actual, wanted);
}

/** Layout for everything that the YAML library prints. */
export const printing = { lineWidth: 0, indent: 2, flowCollectionPadding: true } as const;

/** The document changed as a document; used where the text could not be edited in place. */
function writeAnew(doc: Document, change: Change, wanted: RawPlan): string {
  unfoldAliases(doc);
  const { path, before, after } = change;
  const parent = doc.getIn(path.slice(0, -1), true);
  const last = path.at(-1);
  if (isSeq(parent) && typeof last === "number" && before === undefined) {
    parent.items.splice(last, 0, doc.createNode(after));
  } else if (after === undefined) doc.deleteIn(path);
  else if (isCollection(parent)) doc.setIn(path, doc.createNode(after));
  else return stringify(wanted, printing);
  const printed = doc.toString(printing);
  const back = readText(printed);
  return back.ok && sameJson(back.raw, wanted) ? printed : stringify(wanted, printing);
}

/** Replaces every alias by a copy of what it stands for, so that editing one place leaves the others alone. */
function unfoldAliases(doc: Document): void {
  for (let found = true; found; ) {
    found = false;
    visit(doc, {
      Alias(_, alias) {
        found = true;
        return doc.createNode(alias.toJS(doc));
      },
    });
  }
  visit(doc, {
    Node(_, node) {
      if (isCollection(node) || isScalar(node)) delete node.anchor;
    },
  });
}

interface Piece {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

function splice(text: string, doc: Document, change: Change): string | null {
  const { path, before, after } = change;
  const steps = stepsTo(doc, path.slice(0, -1));
  if (steps.length !== path.length || steps.some((s) => isAlias(s.node))) return null;
  const { node: parent, pair: parentPair } = steps.at(-1)!;
  const last = path.at(-1);
  let piece: Piece | null = null;
  if (isYamlMap(parent) && typeof last === "string") {
    const index = parent.items.findIndex((p) => keyOf(p) === last);
    if (index < 0)
      piece = after === undefined ? null : insertKey(text, parent, last, after as Json, keyOrder(path.slice(0, -1)));
    else if (after === undefined) piece = removeItem(text, parent, index, parentPair);
    else piece = replaceValue(text, parent, parent.items[index]!, after as Json);
  } else if (isSeq(parent) && typeof last === "number") {
    if (before === undefined)
      piece = insertItem(text, parent, Math.min(last, parent.items.length), after as Json, parentPair);
    else if (after === undefined) piece = removeItem(text, parent, last, parentPair);
    else piece = replaceItem(text, parent, last, after as Json);
  }
  return piece ? text.slice(0, piece.from) + piece.text + text.slice(piece.to) : null;
}

// Offsets -------------------------------------------------------------------------------------------------------------

function lineStart(text: string, offset: number): number {
  return text.lastIndexOf("\n", offset - 1) + 1;
}

/** Offset after the line feed that ends the line holding `offset`. */
function nextLine(text: string, offset: number): number {
  const end = text.indexOf("\n", offset);
  return end < 0 ? text.length : end + 1;
}

/** Where the words of a node end: the last item of a block collection, not the blank lines and comments after it. */
function endOf(node: unknown): number | null {
  if (isCollection(node) && !node.flow && node.items.length > 0) {
    const item = node.items.at(-1);
    if (isYamlMap(node)) {
      const pair = item as Pair;
      return (pair.value ? endOf(pair.value) : null) ?? rangeOf(pair.key)?.[1] ?? null;
    }
    return endOf(item);
  }
  return rangeOf(node)?.[1] ?? null;
}

function startOf(node: unknown): number | null {
  if (isYamlMap(node) && !node.flow && node.items.length > 0) return rangeOf(node.items[0]!.key)?.[0] ?? null;
  return rangeOf(node)?.[0] ?? null;
}

/** Offset of the line after a node, with the comment that shares its last line. */
function lineAfter(text: string, end: number): number {
  return end > 0 && text[end - 1] === "\n" ? end : nextLine(text, end);
}

function pairStart(pair: Pair): number | null {
  return rangeOf(pair.key)?.[0] ?? null;
}

function pairEnd(pair: Pair): number | null {
  return endOf(pair.value) ?? rangeOf(pair.key)?.[1] ?? null;
}

function isLongText(node: unknown): boolean {
  return isScalar(node) && (node.type === Scalar.BLOCK_LITERAL || node.type === Scalar.BLOCK_FOLDED);
}

// Words ---------------------------------------------------------------------------------------------------------------

/** A value inside brackets. */
function inFlow(value: Json, like?: unknown): string {
  const doc = new Document([value]);
  const list = doc.contents as unknown as YAMLSeq<Node>;
  list.flow = true;
  quoteAs(list.items[0], like);
  return doc.toString(printing).trim().slice(1, -1).trim();
}

/** A value on the line of its key, outside brackets. */
function inBlock(value: Json, like: unknown): string {
  const doc = new Document({ key: value });
  quoteAs((doc.contents as unknown as YAMLMap).items[0]?.value, like);
  return doc.toString(printing).slice("key:".length).trim();
}

/** New text bears the quotes of the old. */
function quoteAs(node: unknown, like: unknown): void {
  if (!isScalar(node) || !isScalar(like) || typeof node.value !== "string") return;
  if (like.type === Scalar.QUOTE_DOUBLE || like.type === Scalar.QUOTE_SINGLE) node.type = like.type;
}

/** `key: value` as block lines; the first line bears no indent, the others `indent`. */
function pairLines(key: string, value: Json, indent: string): string {
  return indented(stringify({ [key]: value }, printing), indent);
}

function indented(block: string, indent: string): string {
  return block
    .replace(/\n$/, "")
    .split("\n")
    .map((line, i) => (i === 0 || line === "" ? line : indent + line))
    .join("\n");
}

/** The value of a list item as block lines after `- `. */
function itemLines(value: Json, indent: string, like: unknown): string {
  const flow = like === undefined ? isMap(value) && Object.keys(value).length <= 8 : isCollection(like) && like.flow;
  if (flow || !isMap(value)) return inFlow(value, like);
  return indented(stringify(value, printing), `${indent}  `);
}

function isSimple(value: Json): boolean {
  return typeof value !== "object" || value === null ? !(typeof value === "string" && value.includes("\n")) : false;
}

// Edits ---------------------------------------------------------------------------------------------------------------

/** A new simple value in place of an old one; a comment behind it keeps its column where it can. */
function replaceSimple(text: string, node: Node, value: Json, flow: boolean): Piece | null {
  const range = rangeOf(node);
  if (!range) return null;
  const [from, to] = range;
  const words = flow ? inFlow(value, node) : inBlock(value, node);
  const gap = /^ {2,}(?=#)/.exec(text.slice(to, nextLine(text, to)))?.[0].length ?? 0;
  if (gap === 0) return { from, to, text: words };
  const spaces = Math.max(1, gap - (words.length - (to - from)));
  return { from, to: to + gap, text: words + " ".repeat(spaces) };
}

function replaceValue(text: string, parent: YAMLMap, pair: Pair, value: Json): Piece | null {
  const node = pair.value as Node | null;
  const empty = !node || (isScalar(node) && node.value === null && node.source === "");
  const simple = isSimple(value) && isScalar(node) && !isLongText(node);
  if (simple && !empty) return replaceSimple(text, node, value, Boolean(parent.flow));
  const from = pairStart(pair);
  const key = rangeOf(pair.key);
  if (from === null || !key) return null;
  if (empty) {
    const colon = text.indexOf(":", key[1]) + 1;
    if (colon === 0) return null;
    if (parent.flow || isSimple(value)) return { from: colon, to: colon, text: ` ${inFlow(value)}` };
    return { from, to: colon, text: pairLines(keyOf(pair), value, " ".repeat(from - lineStart(text, from))) };
  }
  const to = pairEnd(pair);
  if (to === null) return null;
  if (parent.flow) return { from: startOf(node) ?? to, to, text: inFlow(value) };
  const atLineEnd = text[to - 1] === "\n" ? "\n" : "";
  return { from, to, text: pairLines(keyOf(pair), value, " ".repeat(from - lineStart(text, from))) + atLineEnd };
}

function replaceItem(text: string, parent: YAMLSeq, index: number, value: Json): Piece | null {
  const node = parent.items[index] as Node;
  const from = startOf(node);
  const to = endOf(node);
  if (from === null || to === null || isLongText(node)) return null;
  if (isSimple(value) && isScalar(node)) return replaceSimple(text, node, value, Boolean(parent.flow));
  if (parent.flow) return { from, to, text: inFlow(value) };
  const dash = " ".repeat(Math.max(0, from - lineStart(text, from) - 2));
  return { from, to, text: itemLines(value, dash, node) };
}

function insertKey(
  text: string,
  parent: YAMLMap,
  key: string,
  value: Json,
  order: readonly string[] | null,
): Piece | null {
  const rank = order?.indexOf(key) ?? -1;
  const before = parent.items.filter((p) => rank < 0 || (order?.indexOf(keyOf(p)) ?? -1) < rank).at(-1);
  const range = rangeOf(parent);
  if (parent.flow || parent.items.length === 0) {
    if (!range) return null;
    const words = inFlow({ [key]: value })
      .slice(1, -1)
      .trim();
    if (parent.items.length === 0) return { from: range[0], to: range[1], text: `{ ${words} }` };
    if (before) {
      const end = pairEnd(before);
      return end === null ? null : { from: end, to: end, text: `, ${words}` };
    }
    const start = pairStart(parent.items[0]!);
    return start === null ? null : { from: start, to: start, text: `${words}, ` };
  }
  const first = pairStart(parent.items[0]!);
  if (first === null) return null;
  const indent = " ".repeat(first - lineStart(text, first));
  const lines = pairLines(key, value, indent);
  if (!before) return { from: first, to: first, text: `${lines}\n${indent}` };
  const end = pairEnd(before);
  if (end === null) return null;
  const at = lineAfter(text, end);
  const feed = at > 0 && text[at - 1] !== "\n" ? "\n" : "";
  // Between groups set apart by blank lines, a new group is set apart too.
  const apart = !isSimple(value) && text[at] === "\n" ? "\n" : "";
  return { from: at, to: at, text: `${feed}${apart}${indent}${lines}\n` };
}

function insertItem(
  text: string,
  parent: YAMLSeq,
  index: number,
  value: Json,
  parentPair: Pair | undefined,
): Piece | null {
  const range = rangeOf(parent);
  if (!range) return null;
  if (parent.items.length === 0) {
    const key = parentPair && rangeOf(parentPair.key);
    const colon = key ? text.indexOf(":", key[1]) + 1 : 0;
    if (!key || colon === 0) return { from: range[0], to: range[1], text: `[ ${inFlow(value)} ]` };
    const indent = " ".repeat(key[0] - lineStart(text, key[0]) + 2);
    return { from: colon, to: range[1], text: `\n${indent}- ${itemLines(value, indent, undefined)}` };
  }
  const neighbour = parent.items[index === 0 ? 0 : index - 1];
  const from = startOf(neighbour);
  const to = endOf(neighbour);
  if (from === null || to === null) return null;
  if (parent.flow) {
    return index === 0 ? { from, to: from, text: `${inFlow(value)}, ` } : { from: to, to, text: `, ${inFlow(value)}` };
  }
  const line = lineStart(text, from);
  const dash = /^( *)- /.exec(text.slice(line, from))?.[1];
  if (dash === undefined) return null;
  const words = `${dash}- ${itemLines(value, dash, neighbour)}\n`;
  if (index === 0) return { from: line, to: line, text: words };
  const at = lineAfter(text, to);
  return { from: at, to: at, text: (text[at - 1] === "\n" ? "" : "\n") + words };
}

/** Takes out a pair of a map or an item of a list; the last one leaves `{}` or `[]`. */
function removeItem(
  text: string,
  parent: YAMLMap | YAMLSeq,
  index: number,
  parentPair: Pair | undefined,
): Piece | null {
  const items = parent.items as readonly unknown[];
  const bounds = (i: number): readonly [number, number] | null => {
    const item = items[i];
    if (item === undefined) return null;
    const start = isYamlMap(parent) ? pairStart(item as Pair) : startOf(item);
    const end = isYamlMap(parent) ? pairEnd(item as Pair) : endOf(item);
    return start === null || end === null ? null : [start, end];
  };
  const own = bounds(index);
  if (!own) return null;
  if (items.length === 1) {
    const brackets = isYamlMap(parent) ? "{}" : "[]";
    const range = rangeOf(parent);
    if (parent.flow) return range ? { from: range[0], to: range[1], text: brackets } : null;
    const key = parentPair && rangeOf(parentPair.key);
    const colon = key ? text.indexOf(":", key[1]) + 1 : 0;
    if (colon === 0) return null;
    const comment = text.slice(colon, nextLine(text, colon));
    const to = lineAfter(text, own[1]);
    return { from: colon, to, text: ` ${brackets}${comment.trim() === "" ? "\n" : comment}` };
  }
  if (parent.flow) {
    const previous = index > 0 ? bounds(index - 1) : null;
    const next = index === 0 ? bounds(1) : null;
    if (previous) return { from: previous[1], to: own[1], text: "" };
    return next ? { from: own[0], to: next[0], text: "" } : null;
  }
  const line = lineStart(text, own[0]);
  const lead = text.slice(line, own[0]);
  const alone = isYamlMap(parent) ? /^ *$/.test(lead) : /^ *- +$/.test(lead);
  if (alone) return { from: line, to: lineAfter(text, own[1]), text: "" };
  const next = bounds(index + 1);
  return next ? { from: own[0], to: next[0], text: "" } : null;
}
