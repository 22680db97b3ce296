import type { ScapeScene } from "@lentic/core/drawing";
import type { Scape, Target } from "@lentic/core/scape";

/** The thing that a drawing's group belongs to, or null for another figure. */
export function targetOf(figure: string | null | undefined): Target | null {
  const match = /^(piece|zone|lamp):(\d+)$/.exec(figure ?? "");
  return match ? { kind: match[1] as Target["kind"], index: Number(match[2]) } : null;
}

export const sameTarget = (a: Target | null, b: Target | null): boolean =>
  a === b || (a !== null && b !== null && a.kind === b.kind && a.index === b.index);

/** Whether a thing is still there: the plan may have changed under it. */
export function isThere(target: Target | null, scene: ScapeScene): target is Target {
  if (!target) return false;
  const list = { piece: scene.pieces, zone: scene.zones, lamp: scene.lamps }[target.kind];
  return target.index < list.length;
}

/** A box around a thing in the tank's own coordinates, m. */
export interface Box3 {
  readonly min: readonly [number, number, number];
  readonly max: readonly [number, number, number];
}

/** Everything that can be taken hold of, in the order of the key: pieces, plantings, lamps. */
export function allTargets(scene: ScapeScene): readonly Target[] {
  return [
    ...scene.pieces.map(({ index }): Target => ({ kind: "piece", index })),
    ...scene.zones.map(({ index }): Target => ({ kind: "zone", index })),
    ...scene.lamps.map(({ index }): Target => ({ kind: "lamp", index })),
  ];
}

/** The box of a thing, for handles. */
export function boxOf({ kind, index }: Target, scene: ScapeScene): Box3 {
  if (kind === "piece") {
    const { positions } = scene.pieces[index]!.mesh;
    const min: [number, number, number] = [Infinity, Infinity, Infinity];
    const max: [number, number, number] = [-Infinity, -Infinity, -Infinity];
    for (let i = 0; i < positions.length; i++) {
      const axis = i % 3;
      min[axis] = Math.min(min[axis]!, positions[i]!);
      max[axis] = Math.max(max[axis]!, positions[i]!);
    }
    return { min, max };
  }
  if (kind === "lamp") {
    const { x, y, z, length, width } = scene.lamps[index]!;
    return { min: [x - length / 2, y - width / 2, z], max: [x + length / 2, y + width / 2, z + 0.02] };
  }
  const zone = scene.zones[index]!;
  const xs = zone.outline.map(([x]) => x);
  const ys = zone.outline.map(([, y]) => y);
  return { min: [Math.min(...xs), Math.min(...ys), 0], max: [Math.max(...xs), Math.max(...ys), zone.height] };
}

/** What a thing is called: "S2 slate", "A Vallisneria nana", "bar lamp". */
export function labelOf({ kind, index }: Target, scape: Scape): string {
  if (kind === "piece") {
    const piece = scape.pieces[index]!;
    return `${piece.key} ${piece.names.length > 1 ? piece.names[0] : piece.material}`;
  }
  if (kind === "zone") {
    const zone = scape.zones[index]!;
    return `${zone.key} ${zone.fact.name}`;
  }
  const { light, lamps } = scape.plan;
  const lamp = index === 0 ? light : lamps[index - 1];
  return `${lamp?.kind.value ?? ""} lamp${index > 0 ? ` ${index + 1}` : ""}`;
}
