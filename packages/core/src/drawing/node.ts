/**
 * The tree a drawing is made of. It knows nothing of a screen: the web app turns it into elements of its own, the
 * paper sheets into text by `toSvg`. Looks come from class names alone (see `styles.ts`).
 */

/** One element of a drawing; `figure` names the figure that a group belongs to, so that it can become a button. */
export interface DrawingNode {
  readonly tag: string;
  readonly attributes: Readonly<Record<string, string | number>>;
  readonly children?: readonly (DrawingNode | string)[];
  readonly figure?: string;
}

export type Attributes = Readonly<Record<string, string | number>>;

export function element(
  tag: string,
  attributes: Attributes,
  children?: readonly (DrawingNode | string)[],
  figure?: string,
): DrawingNode {
  return {
    tag,
    attributes,
    ...(children && children.length > 0 ? { children } : {}),
    ...(figure === undefined ? {} : { figure }),
  };
}

export function group(className: string, children: readonly (DrawingNode | string)[]): DrawingNode {
  return element("g", { class: className }, children);
}

/** A list of paths that leaves out the empty ones. */
export function paths(...pairs: readonly (readonly [className: string, d: string])[]): DrawingNode[] {
  return pairs.filter(([, d]) => d !== "").map(([className, d]) => element("path", { class: className, d }));
}

const entities: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };

/** XML 1.0 forbids most control characters and lone surrogates even when escaped: they become U+FFFD. */
function legal(text: string): string {
  let out = "";
  for (const character of text) {
    const code = character.codePointAt(0) ?? 0;
    const allowed =
      code === 9 ||
      code === 10 ||
      code === 13 ||
      (code >= 0x20 && code <= 0xd7ff) ||
      (code >= 0xe000 && code <= 0xfffd) ||
      code >= 0x10000;
    out += allowed ? character : "\uFFFD";
  }
  return out;
}

function escaped(text: string): string {
  const safe = legal(text);
  return /[&<>"]/.test(safe) ? safe.replace(/[&<>"]/g, (c) => entities[c] ?? c) : safe;
}

/** Path data is written by our own pen from digits and commands, and is long: it needs no second look. */
function attribute(name: string, value: string | number): string {
  return ` ${name}="${name === "d" && typeof value === "string" ? value : escaped(String(value))}"`;
}

/** The tree as SVG text; a figure's id goes out as `data-figure`. Text and attributes are escaped. */
export function toSvg(node: DrawingNode): string {
  let head = `<${node.tag}`;
  for (const [name, value] of Object.entries(node.attributes)) head += attribute(name, value);
  if (node.figure !== undefined) head += attribute("data-figure", node.figure);
  if (!node.children) return `${head}/>`;
  let body = "";
  for (const child of node.children) body += typeof child === "string" ? escaped(child) : toSvg(child);
  return `${head}>${body}</${node.tag}>`;
}
