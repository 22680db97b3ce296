import type { DrawingNode } from "@lentic/core/drawing";

const svg = "http://www.w3.org/2000/svg";

type Child = DrawingNode | string;

/** What each element of a drawing shows at present. */
const shown = new WeakMap<Element, DrawingNode>();

const none: readonly Child[] = [];

/** Parts that may stand for one another: of one thing, or of one look. */
const kindOf = (child: Child): string =>
  typeof child === "string" ? "#" : `${child.tag} ${child.figure ?? child.attributes.class ?? ""}`;

function attributesOf(node: DrawingNode): Readonly<Record<string, string | number>> {
  return node.figure === undefined ? node.attributes : { ...node.attributes, "data-figure": node.figure };
}

function made(child: Child): ChildNode {
  if (typeof child === "string") return document.createTextNode(child);
  const element = document.createElementNS(svg, child.tag);
  for (const [name, value] of Object.entries(attributesOf(child))) element.setAttribute(name, String(value));
  for (const part of child.children ?? none) element.append(made(part));
  shown.set(element, child);
  return element;
}

function changed(element: Element, before: DrawingNode, now: DrawingNode): void {
  const [old, next] = [attributesOf(before), attributesOf(now)];
  for (const name of Object.keys(old)) if (!(name in next)) element.removeAttribute(name);
  for (const [name, value] of Object.entries(next)) if (old[name] !== value) element.setAttribute(name, String(value));
  arranged(element, before.children ?? none, now.children ?? none);
  shown.set(element, now);
}

/** Brings the children of an element from what they show to what they shall show. */
function arranged(parent: Element, before: readonly Child[], now: readonly Child[]): void {
  if (before === now) return;
  const places = [...parent.childNodes];
  // a part that is the same object as before is the same element, wherever it now stands
  const same = new Map<Child, ChildNode>();
  before.forEach((child, i) => {
    if (typeof child !== "string") same.set(child, places[i]!);
  });
  const kept = now.map((child) => {
    const found = same.get(child);
    if (found) same.delete(child);
    return found;
  });
  const taken = new Set(kept);
  const spare = new Map<string, ChildNode[]>();
  before.forEach((child, i) => {
    const place = places[i]!;
    if (taken.has(place)) return;
    const kind = kindOf(child);
    const list = spare.get(kind);
    if (list) list.push(place);
    else spare.set(kind, [place]);
  });
  const wanted = now.map((child, i): ChildNode => {
    const found = kept[i];
    if (found) return found;
    const other = spare.get(kindOf(child))?.shift();
    if (!other) return made(child);
    if (typeof child !== "string") changed(other as Element, shown.get(other as Element)!, child);
    else if (other.nodeValue !== child) other.nodeValue = child;
    return other;
  });
  for (const list of spare.values()) for (const place of list) place.remove();
  let at: ChildNode | null = parent.firstChild;
  wanted.forEach((place, i) => {
    if (at !== null && at !== place && at.nextSibling === place && wanted[i + 1] !== at) {
      // what stands in the way belongs further back
      const away: ChildNode = at;
      at = place;
      away.remove();
    }
    if (at === place) at = place.nextSibling;
    else parent.insertBefore(place, at);
  });
}

/** Shows a drawing in an element of the page; what is the same object as before is left as it is. */
export function showDrawing(host: Element, drawing: DrawingNode): void {
  const first = host.firstElementChild;
  const before = first ? shown.get(first) : undefined;
  if (first && before && kindOf(before) === kindOf(drawing)) {
    if (before !== drawing) changed(first, before, drawing);
  } else host.replaceChildren(made(drawing));
}
