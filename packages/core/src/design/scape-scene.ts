import type { ScapeLamp, ScapePiece, ScapeScene } from "../drawing/index.ts";
import type { HeightField } from "../geometry/index.ts";
import type { LampPlan } from "../plan/index.ts";
import { coverOf } from "../plants/index.ts";
import type { Scape } from "../scape/index.ts";
import { animalsOf, grainOf, lampCaption, leafOf, seedOf } from "./scene.ts";

/** Growth forms whose leaves tell them apart where no species does. */
const usualLeaf = {
  runner: "ribbon",
  stem: "oval",
  bulb: "ribbon",
  moss: "needle",
  rhizome: "oval",
  rosette: "oval",
  carpet: "oval",
  floating: "round",
} as const;

function lampOf(scape: Scape, lamp: LampPlan, index: number): ScapeLamp {
  return {
    index,
    kind: lamp.kind.value,
    length: lamp.length.value,
    width: lamp.width.value,
    x: lamp.at.value * scape.length,
    y: lamp.depth.value * scape.width,
    z: scape.height + lamp.aboveRim.value,
    turn: lamp.turn.value,
    tilt: lamp.tilt.value,
    strength: lamp.strength.value,
    caption: lampCaption(lamp),
  };
}

function textureOf(shape: string, kind: ScapePiece["kind"]): ScapePiece["texture"] {
  return kind === "wood" ? "layered" : (shape as ScapePiece["texture"]);
}

/** The object of before where nothing in it changed, so that a drawing knows what it need not draw anew. */
function same<T extends object>(now: T, before: T | undefined): T {
  if (!before) return now;
  const keys = Object.keys(now) as (keyof T)[];
  return keys.every((key) => alike(now[key], before[key])) ? before : now;
}

function alike(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  if ("heights" in a && "heights" in b) return sameField(a as HeightField, b as HeightField);
  // forms of pieces are kept by the plan: another object is another form
  if ("triangles" in a || !Array.isArray(a) || !Array.isArray(b)) return false;
  return a.length === b.length && a.every((value, i) => alike(value, b[i]));
}

function sameField(a: HeightField, b: HeightField): boolean {
  return (
    a.length === b.length &&
    a.width === b.width &&
    a.columns === b.columns &&
    a.rows === b.rows &&
    a.heights.every((h, i) => h === b.heights[i])
  );
}

function all<T extends object>(now: readonly T[], before: readonly T[] | undefined): readonly T[] {
  const list = now.map((item, i) => same(item, before?.[i]));
  return before && list.length === before.length && list.every((item, i) => item === before[i]) ? before : list;
}

/**
 * What the drawings of a scape need to know of it.
 * @param before the scene drawn last: what did not change is the same object in both
 */
export function scapeScene(scape: Scape, before?: ScapeScene): ScapeScene {
  const { plan } = scape;
  const { tank, light } = plan;
  const scene: ScapeScene = {
    tank: {
      length: scape.length,
      width: scape.width,
      height: scape.height,
      glass: tank.glass.value,
      base: tank.base.value,
      waterLine: scape.waterDepth,
      cover: tank.cover.value,
    },
    layers: scape.layers.map(({ material, top, within }) => ({ material: grainOf(material), top, within })),
    ground: scape.ground,
    edges: scape.edges,
    pieces: scape.pieces.map((piece) => {
      const { shape, locked, name } = plan.hardscape[piece.index]!;
      return {
        index: piece.index,
        key: piece.key,
        label: name ?? piece.material,
        kind: piece.kind,
        texture: textureOf(shape.value, piece.kind),
        mesh: piece.mesh,
        grain: piece.grain,
        locked,
      };
    }),
    zones: scape.zones.map(({ index, key, fact, outline, planting, on }) => ({
      index,
      key,
      label: fact.name,
      form: fact.form,
      leaf: leafOf(fact) ?? usualLeaf[fact.form],
      outline,
      height: planting.height.value,
      cover: coverOf(fact.form, planting.biomass.value),
      on,
      spread: fact.spread,
    })),
    lamps: [...(light ? [light] : []), ...plan.lamps].map((lamp, i) => lampOf(scape, lamp, i)),
    animals: animalsOf(plan),
    seed: seedOf(plan.name),
  };
  if (!before) return scene;
  return {
    ...scene,
    tank: same(scene.tank, before.tank),
    layers: all(scene.layers, before.layers),
    ground: sameField(scene.ground, before.ground) ? before.ground : scene.ground,
    pieces: all(scene.pieces, before.pieces),
    zones: all(scene.zones, before.zones),
    lamps: all(scene.lamps, before.lamps),
    animals: all(scene.animals, before.animals),
  };
}

/** A scene with its plantings at other heights and covers, such as those of a later week; all else is the same object. */
export function sceneGrown(
  scene: ScapeScene,
  grown: readonly { readonly height: { readonly value: number }; readonly cover: { readonly value: number } }[],
): ScapeScene {
  const zones = scene.zones.map((zone) => {
    const now = grown[zone.index];
    return now ? { ...zone, height: now.height.value, cover: now.cover.value } : zone;
  });
  return { ...scene, zones };
}
