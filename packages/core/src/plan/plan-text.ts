/**
 * A plan's text as a YAML document whose parts know where they stand. Refused before they can do harm: texts over 1 MB,
 * deep nesting (the composer recurses), and aliases that unfold without end.
 */
import {
  Composer,
  type CST,
  type Document,
  isAlias,
  isPair,
  isScalar,
  isSeq,
  isMap as isYamlMap,
  type Node,
  type Pair,
  Parser,
  type YAMLError,
  type YAMLMap,
  type YAMLSeq,
} from "yaml";
import { type Fault, type Json, type Path, pathText, type RawPlan } from "./plan.ts";

const longestText = 1_000_000;
const deepest = 40;
const mostValues = 50_000;
const mostFaults = 100;

export interface PlanText {
  readonly ok: true;
  readonly doc: Document.Parsed;
  /** Faults that leave a plan to be judged all the same: keys written twice, tags. */
  readonly faults: readonly Fault[];
  readonly raw: RawPlan;
  /** Line and column, both from 1, of an offset in the text. */
  readonly position: (offset: number) => { line: number; column: number };
}

interface Unreadable {
  readonly ok: false;
  readonly faults: readonly Fault[];
}

const asMap = "a map of keys and values, such as `lentic: 1` and below it `tank:`";

/** The YAML library's error codes in words of our own. */
const wording: Readonly<Record<string, readonly [message: string, allowed: string]>> = {
  TAB_AS_INDENT: ["a tab indents this line", "spaces; YAML allows no tabs for indenting"],
  DUPLICATE_KEY: ["this key stands here twice", "each key once"],
  BAD_INDENT: ["this line is not indented as its neighbours are", "the same number of spaces for keys of one group"],
  BAD_SCALAR_START: [
    "a value cannot start with this sign unless it stands in quotes",
    'quotes around it, such as "@x"',
  ],
  BLOCK_AS_IMPLICIT_KEY: [
    "two keys stand on one line, or a line is indented under a finished value",
    "one key on a line",
  ],
  MULTILINE_IMPLICIT_KEY: ["a key runs over several lines", "a key on one line, with a colon after it"],
  MISSING_CHAR: ["a closing or separating sign is missing", "quotes and brackets in pairs, commas between values"],
  MULTIPLE_DOCS: ["a second document starts here", "one plan in a file"],
  BAD_ALIAS: ["an alias is not written rightly", "the value itself"],
  NON_STRING_KEY: ["a key must be a word", "plain words as keys"],
  KEY_OVER_1024_CHARS: ["a key is longer than 1024 characters", "short keys"],
  UNEXPECTED_TOKEN: ["this does not belong here", "`key: value` lines, lists with dashes, brackets in pairs"],
  BAD_DIRECTIVE: ["this directive is not known", "no line starting with %"],
  TAG_RESOLVE_FAILED: ["tags (words after !) are not used in a plan", "the plain value"],
};

/** Errors of the YAML library that still leave a document to be judged. */
const mild: ReadonlySet<string> = new Set(["DUPLICATE_KEY", "TAG_RESOLVE_FAILED"]);

function plainFault(line: number, column: number, message: string, allowed: string): Fault {
  return { path: "", line, column, message, allowed };
}

/** Nesting depth of the token tree, found without recursion. */
function nesting(tokens: readonly CST.Token[]): number {
  let depth = 0;
  const open: [CST.Token, number][] = tokens.map((t) => [t, 0]);
  for (let top = open.pop(); top; top = open.pop()) {
    const [token, level] = top;
    depth = Math.max(depth, level);
    if ("value" in token && token.value) open.push([token.value, level]);
    if (!("items" in token)) continue;
    for (const item of token.items) {
      if (item.key) open.push([item.key, level + 1]);
      if (item.value) open.push([item.value, level + 1]);
    }
  }
  return depth;
}

/** Why a document has no plain value, and where. */
class NoPlainValue extends Error {
  readonly offset: number;
  constructor(message: string, offset: number) {
    super(message);
    this.offset = offset;
  }
}

/** The plain value of a node, aliases unfolded within a budget. Throws NoPlainValue. */
function plain(node: Node | null, doc: Document, budget: { values: number }, level: number): Json {
  budget.values -= 1;
  const offset = node?.range?.[0] ?? 0;
  if (budget.values < 0 || level > deepest) {
    throw new NoPlainValue(
      `the file unfolds to more than ${mostValues} values, or its aliases run in a circle`,
      offset,
    );
  }
  if (isAlias(node)) {
    const target = node.resolve(doc);
    if (!target) throw new NoPlainValue(`the alias *${node.source} names no anchor`, offset);
    return plain(target, doc, budget, level + 1);
  }
  if (isYamlMap(node)) {
    return Object.fromEntries(
      node.items.map((pair) => [keyOf(pair), plain(pair.value as Node | null, doc, budget, level + 1)]),
    );
  }
  if (isSeq(node)) return node.items.map((item) => plain(item as Node, doc, budget, level + 1));
  const value: unknown = isScalar(node) ? node.value : null;
  return typeof value === "string" || typeof value === "number" || typeof value === "boolean" ? value : null;
}

/** The key of a pair as text. */
export function keyOf(pair: Pair): string {
  return isScalar(pair.key) ? String(pair.key.value) : "";
}

/** The document of a text, without judging what the plan says. Never throws. */
export function readText(text: string): PlanText | Unreadable {
  // Bytes, not characters, are what a disk and a network see; no character takes more than 3 bytes per code unit.
  if (text.length > longestText || (text.length * 3 > longestText && bytes(text) > longestText)) {
    return {
      ok: false,
      faults: [plainFault(1, 1, `the file holds ${Math.ceil(bytes(text) / 1000)} kB`, "at most 1000 kB (1 MB)")],
    };
  }
  const position = positions(text);
  const tokens = [...new Parser().parse(text)];
  if (nesting(tokens) > deepest) {
    return { ok: false, faults: [plainFault(1, 1, "values are nested too deeply", `at most ${deepest} levels`)] };
  }
  const documents = new Composer({ uniqueKeys: true, stringKeys: true }).compose(tokens, true, text.length);
  const doc = documents.next().value;
  if (!doc) return { ok: false, faults: [plainFault(1, 1, "the file is empty", asMap)] };
  const fatal = doc.errors.filter((e) => !mild.has(e.code)).map((e) => inWords(e, position));
  const second = documents.next().value;
  if (second) {
    const { line, column } = position(second.range[0]);
    fatal.push(plainFault(line, column, ...wording.MULTIPLE_DOCS!));
  }
  if (doc.directives?.yaml.explicit && doc.directives.yaml.version !== "1.2") {
    fatal.push(plainFault(1, 1, `YAML ${doc.directives.yaml.version} reads some values differently`, "YAML 1.2"));
  }
  const faults = [...doc.errors, ...doc.warnings]
    .filter((e) => mild.has(e.code))
    .map((e) => ({ ...inWords(e, position), path: pathText(pathAt(doc, e.pos[0])) }));
  if (fatal.length > 0) return { ok: false, faults: [...fatal, ...faults].slice(0, mostFaults) };
  if (!isYamlMap(doc.contents)) {
    const empty = doc.contents === null || (isScalar(doc.contents) && doc.contents.value === null);
    const message = empty ? "the file is empty" : "a plan is not a single value or list";
    return { ok: false, faults: [plainFault(1, 1, message, asMap)] };
  }
  try {
    const raw = plain(doc.contents, doc, { values: mostValues }, 0) as RawPlan;
    return { ok: true, doc: doc as Document.Parsed, faults: faults.slice(0, mostFaults), raw, position };
  } catch (error) {
    if (!(error instanceof NoPlainValue)) throw error;
    const { line, column } = position(error.offset);
    const allowed = "values written out instead of anchors (&) and aliases (*)";
    return { ok: false, faults: [plainFault(line, column, error.message, allowed)] };
  }
}

/** The keys and positions that lead to an offset. */
function pathAt(doc: Document, offset: number): Path {
  const path: (string | number)[] = [];
  let node = doc.contents as Node | null;
  while (node) {
    const before = (item: unknown) =>
      (rangeOf(isPair(item) ? item.key : item)?.[0] ?? Number.POSITIVE_INFINITY) <= offset;
    const index: number =
      isYamlMap(node) || isSeq(node) ? (node.items as readonly unknown[]).findLastIndex(before) : -1;
    const item: unknown = index < 0 ? null : (node as YAMLMap | YAMLSeq).items[index];
    if (isPair(item)) {
      path.push(keyOf(item));
      node = item.value as Node | null;
    } else {
      if (item) path.push(index);
      node = item as Node | null;
    }
  }
  return path;
}

/** The way from an offset to line and column; the YAML library's own count goes wrong in some damaged texts. */
function positions(text: string): PlanText["position"] {
  let starts: number[] | undefined;
  return (offset) => {
    starts ??= [0, ...[...text.matchAll(/\n/g)].map((feed) => feed.index + 1)];
    const at = Math.min(Math.max(0, offset), text.length);
    let low = 0;
    let high = starts.length;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if ((starts[middle] ?? 0) <= at) low = middle;
      else high = middle;
    }
    return { line: low + 1, column: at - (starts[low] ?? 0) + 1 };
  };
}

function bytes(text: string): number {
  let count = 0;
  for (const character of text) {
    const code = character.codePointAt(0)!;
    count += code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
  }
  return count;
}

function inWords(error: YAMLError, position: PlanText["position"]): Fault {
  const { line, column } = position(error.pos[0]);
  const [message, allowed] = wording[error.code] ?? [error.message, "YAML 1.2 or JSON"];
  return plainFault(line, column, message, allowed);
}

/** A node with its place in the text, whatever it holds. */
export function rangeOf(node: unknown): readonly [start: number, valueEnd: number] | null {
  const range = (node as Node | null)?.range;
  return range ? [range[0], range[1]] : null;
}

/** The pair or item at each step of a path, as far as the document has it. */
export function stepsTo(doc: Document, path: Path): readonly { readonly pair?: Pair; readonly node: Node | null }[] {
  const steps: { pair?: Pair; node: Node | null }[] = [{ node: doc.contents }];
  for (const segment of path) {
    const node = steps.at(-1)!.node;
    if (isYamlMap(node) && typeof segment === "string") {
      const pair = node.items.findLast((p) => keyOf(p) === segment);
      if (!pair) break;
      steps.push({ pair, node: pair.value as Node | null });
    } else if (isSeq(node) && typeof segment === "number" && segment < node.items.length) {
      steps.push({ node: node.items[segment] as Node });
    } else break;
  }
  return steps;
}

/** Offset of a fault: the value at the path, its key where asked or where it has no text, else the nearest parent. */
export function offsetOf(doc: Document, path: Path, at: "key" | "value"): number {
  const steps = stepsTo(doc, path);
  const { pair, node } = steps.at(-1)!;
  const key = pair ? rangeOf(pair.key) : null;
  const value = rangeOf(node);
  const found = steps.length === path.length + 1;
  const hasText = value && value[1] > value[0];
  if (key && (at === "key" || !found || !hasText)) return key[0];
  return value ? value[0] : (key?.[0] ?? 0);
}
