/** Helpers of the tests: a strict reader of XML, and the points of path data. */
import type { Point } from "./geometry.ts";
import type { DrawingNode } from "./node.ts";

/** What is wrong with a text as XML without prologue (elements, attributes, character data), or undefined. */
export function xmlFault(text: string): string | undefined {
  const open: string[] = [];
  let at = 0;
  let roots = 0;
  const entity = /&(?!(?:amp|lt|gt|quot|apos|#\d+|#x[0-9a-fA-F]+);)/;
  while (at < text.length) {
    if (text[at] !== "<") {
      const end = text.indexOf("<", at);
      const data = text.slice(at, end < 0 ? text.length : end);
      if (open.length === 0 && data.trim() !== "") return `text outside the root: ${data.slice(0, 40)}`;
      if (entity.test(data) || data.includes("]]>")) return `bare & or ]]> in: ${data.slice(0, 40)}`;
      at += data.length;
      continue;
    }
    const close = /^<\/([A-Za-z][\w:-]*)\s*>/.exec(text.slice(at, at + 80));
    if (close) {
      const wanted = open.pop();
      if (wanted !== close[1]) return `</${close[1]}> closes <${wanted}>`;
      at += close[0].length;
      continue;
    }
    const name = /^<([A-Za-z][\w:-]*)/.exec(text.slice(at, at + 80));
    if (!name) return `not a tag: ${text.slice(at, at + 40)}`;
    at += name[0].length;
    const seen = new Set<string>();
    for (;;) {
      const space = /^\s*/.exec(text.slice(at, at + 20))?.[0].length ?? 0;
      at += space;
      if (text.startsWith("/>", at) || text[at] === ">") break;
      const key = /^([A-Za-z][\w:-]*)="/.exec(text.slice(at, at + 80));
      if (!key || space === 0) return `bad attribute: ${text.slice(at, at + 40)}`;
      if (seen.has(key[1] as string)) return `attribute twice: ${key[1]}`;
      seen.add(key[1] as string);
      at += key[0].length;
      const end = text.indexOf('"', at);
      if (end < 0) return "attribute without end";
      const value = text.slice(at, end);
      if (value.includes("<") || entity.test(value)) return `bad attribute value: ${value.slice(0, 40)}`;
      at = end + 1;
    }
    if (open.length === 0 && ++roots > 1) return "two roots";
    if (text[at] === ">") {
      open.push(name[1] as string);
      at += 1;
    } else at += 2;
  }
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what XML 1.0 forbids
  if (/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/.test(text)) return "forbidden character";
  return open.length > 0 ? `<${open.at(-1)}> is not closed` : undefined;
}

const takes: Readonly<Record<string, number>> = { M: 2, m: 2, l: 2, q: 4, c: 6, h: 1, z: 0 };

/**
 * End points of path data, or all points with the control points; throws on anything our pen does not write:
 * capital M first, then m l q c h z, each followed by its numbers with at most one decimal.
 */
export function pathPoints(d: string, controls = false): Point[] {
  const out: Point[] = [];
  let [x, y, startX, startY] = [0, 0, 0, 0];
  const whole = /([Mmlqchz])([^Mmlqchz]*)/g;
  let read = 0;
  for (const match of d.matchAll(whole)) {
    if (match.index !== read) throw new Error(`unreadable path at ${read}: ${d.slice(read, read + 20)}`);
    read = match.index + match[0].length;
    const command = match[1] as string;
    const numbers = [...(match[2] as string).matchAll(/-?(?:\d+(?:\.\d)?|\.\d)(?=[ -]|$)/g)].map((m) => Number(m[0]));
    if ((match[2] as string).replace(/-?(?:\d+(?:\.\d)?|\.\d)(?=[ -]|$)/g, "").trim() !== "") {
      throw new Error(`bad number in ${match[0]}`);
    }
    if (numbers.length !== takes[command] || numbers.some((n) => !Number.isFinite(n)))
      throw new Error(`bad command ${match[0]}`);
    if (command === "z") [x, y] = [startX, startY];
    else if (command === "h") x += numbers[0] as number;
    else {
      const [fromX, fromY] = command === "M" ? [0, 0] : [x, y];
      for (let i = 0; i < numbers.length; i += 2) {
        x = fromX + (numbers[i] as number);
        y = fromY + (numbers[i + 1] as number);
        if (controls && i + 2 < numbers.length) out.push([x, y]);
      }
      if (command === "M" || command === "m") [startX, startY] = [x, y];
    }
    out.push([x, y]);
  }
  if (read !== d.length) throw new Error(`unreadable path: ${d.slice(read, read + 20)}`);
  return out;
}

/** Every node of a tree, with the classes of the nodes round it. */
export function* nodesOf(
  node: DrawingNode,
  around: readonly string[] = [],
): Generator<{ node: DrawingNode; around: readonly string[] }> {
  yield { node, around };
  const own = String(node.attributes.class ?? "").split(" ");
  for (const child of node.children ?? []) if (typeof child !== "string") yield* nodesOf(child, [...around, ...own]);
}

/** All the words of a tree. */
export function wordsOf(node: DrawingNode): string {
  return (node.children ?? [])
    .map((c) => (typeof c === "string" ? c : wordsOf(c)))
    .join(node.tag === "text" || node.tag === "tspan" ? "" : "\n");
}
