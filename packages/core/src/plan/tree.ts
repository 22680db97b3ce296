/** The fields table as the tree of maps and lists that a plan is, built once. */
import type { Field, Group } from "./field.ts";
import { fields, groups } from "./fields.ts";
import type { Path } from "./plan.ts";

export interface FieldNode {
  readonly type: "field";
  /** Key in the file. */
  readonly key: string;
  /** Key in the resolved plan. */
  readonly name: string;
  readonly field: Field;
}

export interface GroupNode {
  readonly type: "group";
  readonly key: string;
  readonly name: string;
  readonly group: Group;
  readonly children: ReadonlyMap<string, FieldNode>;
}

type PlanNode = FieldNode | GroupNode;

function camel(key: string): string {
  return key.replace(/_(\w)/g, (_, letter: string) => letter.toUpperCase());
}

function fieldNode(field: Field): FieldNode {
  const key = field.path.slice(field.path.lastIndexOf(".") + 1);
  return { type: "field", key, name: camel(key), field };
}

function groupNode(group: Group): GroupNode {
  const start = group.list ? `${group.path}[].` : `${group.path}.`;
  const own = fields.filter((f) => f.path.startsWith(start)).map(fieldNode);
  return {
    type: "group",
    key: group.path,
    name: camel(group.path),
    group,
    children: new Map(own.map((n) => [n.key, n])),
  };
}

function build(): ReadonlyMap<string, PlanNode> {
  const root = new Map<string, PlanNode>();
  for (const field of fields) {
    const groupPath = /^([^.[]+)(\[\])?\./.exec(field.path)?.[1];
    if (groupPath === undefined) {
      root.set(field.path, fieldNode(field));
    } else if (!root.has(groupPath)) {
      const group = groups.find((g) => g.path === groupPath);
      if (!group) throw new Error(`the fields table has no group ${groupPath}`);
      root.set(groupPath, groupNode(group));
    }
  }
  return root;
}

/** Keys of a plan in the order of the table. */
export const root: ReadonlyMap<string, PlanNode> = build();

/** The order of keys in the map at a path of the plan, or null where the table does not say. */
export function keyOrder(path: Path): readonly string[] | null {
  const [first, ...rest] = path;
  if (first === undefined) return [...root.keys()];
  if (first === "alternatives") return rest.length > 0 ? keyOrder(rest.slice(1)) : null;
  const node = typeof first === "string" ? root.get(first) : undefined;
  if (node?.type !== "group") return null;
  const within = rest.slice(node.group.list ? 1 : 0);
  if (within.length === 0) return rest.length === (node.group.list ? 1 : 0) ? [...node.children.keys()] : null;
  const field = typeof within[0] === "string" ? node.children.get(within[0])?.field : undefined;
  return field?.kind === "items" && within.length === 2 ? field.items.map((f) => fieldNode(f).key) : null;
}
