import type { Leaf, SectionScene } from "../drawing/index.ts";
import { type AnimalFact, findAnimal, findPlant, findSubstrate, type PlantFact } from "../facts/index.ts";
import { type BoxSizes, boxSizes, fieldFromCorners, type HeightField, sumFields } from "../geometry/index.ts";
import {
  boxOf,
  type FloorPoint,
  type HardscapePlan,
  type LampPlan,
  layerField,
  type Plan,
  pieceForm,
  pieceStanding,
  tankVolumes,
} from "../plan/index.ts";
import { type Point3, placeDirection } from "../solids/index.ts";

/** Leaf shapes by genus where the growth form alone would mislead the eye. */
const leaves: Readonly<Record<string, Leaf>> = {
  Bolbitis: "fern",
  Leptochilus: "ribbon",
  Ceratopteris: "fern",
  Hygrophila: "oval",
  Rotala: "round",
  Bacopa: "round",
  Lobelia: "round",
  Cabomba: "needle",
  Myriophyllum: "needle",
  Ceratophyllum: "needle",
  Limnophila: "needle",
  Eleocharis: "needle",
  Lilaeopsis: "ribbon",
  Vallisneria: "ribbon",
  Sagittaria: "ribbon",
  Helanthium: "ribbon",
  Crinum: "ribbon",
  Staurogyne: "oval",
  Glossostigma: "round",
  Micranthemum: "round",
  Hemianthus: "round",
  Hydrocotyle: "round",
  Marsilea: "round",
  Nymphaea: "round",
  Anubias: "oval",
  Bucephalandra: "oval",
};

export function leafOf(fact: PlantFact): Leaf | undefined {
  if (/pinnatifida|difformis/.test(fact.name)) return "lobed";
  return leaves[fact.name.split(" ")[0]!];
}

function bodyOf(fact: AnimalFact): SectionScene["animals"][number]["body"] {
  if (fact.kind === "shrimp") return "shrimp";
  if (fact.kind === "snail") return "snail";
  if (/Callichthyidae|Loricariidae|Mochokidae/.test(fact.family)) return "catfish";
  if (fact.bodyClass === "eel-like") return "eel";
  if (fact.bodyClass === "deep" || fact.bodyClass === "disc") return "deep";
  return "slender";
}

/** How far an area reaches along the length, as a share of it. */
function extentOf(outline: readonly FloorPoint[]): number {
  const xs = outline.map(([x]) => x);
  return Math.max(...xs) - Math.min(...xs);
}

function textureOf({ shape }: HardscapePlan): "layered" | "rounded" | "faceted" {
  return shape.value === "irregular" ? "faceted" : shape.value;
}

/** Direction of a piece's beds or grain where it lies. */
function grainDirection(piece: HardscapePlan): Point3 {
  const { tip, lean, turn } = piece;
  return placeDirection(pieceForm(piece).grain, { tip: tip.value, lean: lean.value, turn: turn.value });
}

/** A small number from a name, so that a tank always looks the same. */
export function seedOf(text: string): number {
  let h = 2166136261;
  for (let i = 0; i < text.length; i += 1) h = Math.imul(h ^ text.charCodeAt(i), 16777619);
  return h >>> 0;
}

/** How a material of the bed is drawn. */
export function grainOf(material: string): SectionScene["layers"][number]["material"] {
  if (findSubstrate(material)?.nutrients || /soil|granul|clay/.test(material)) return "soil";
  return /sand/.test(material) ? "sand" : "gravel";
}

/** The animals of a plan as silhouettes. */
export function animalsOf(plan: Plan): SectionScene["animals"] {
  return plan.animals.map((a) => {
    const fact = findAnimal(a.species)!;
    return {
      label: fact.name,
      body: bodyOf(fact),
      layer: fact.layer === "all" ? "mid" : fact.layer,
      count: a.count.value,
      length: a.length.value,
    };
  });
}

/** What a lamp is called on a drawing. */
export function lampCaption({ kind, power, strength }: LampPlan): string {
  return `${kind.value} lamp, ${Math.round(power.value)} W at ${Math.round(strength.value * 100)} %`;
}

/** The section draws the first lamp; the others, which hang beside it, are told. */
const besides = (lamps: readonly LampPlan[]): string =>
  lamps.length === 0
    ? ""
    : lamps.length === 1
      ? ` and one more, ${lampCaption(lamps[0]!)}`
      : ` and ${lamps.length} more`;

function groundOf(layers: readonly HeightField[], { length, width }: BoxSizes): HeightField {
  const bare = { frontLeft: 0, frontRight: 0, backLeft: 0, backRight: 0 };
  return layers.length > 0 ? sumFields(layers) : fieldFromCorners({ length, width, columns: 2, rows: 2 }, bare);
}

/** What the section drawing needs to know of a plan. */
export function sceneOf(plan: Plan, water?: { temperature: number }): SectionScene {
  const { tank, light, co2, filter, air, heater } = plan;
  const inside = tank.length.value - 2 * tank.glass.value;
  const volumes = tankVolumes(plan);
  const box = boxSizes(boxOf(plan));
  const layers = plan.substrate.map((layer) => layerField(layer, box.length, box.width));
  const ground = groundOf(layers, box);
  return {
    tank: {
      length: tank.length.value,
      width: tank.width.value,
      height: tank.height.value,
      glass: tank.glass.value,
      base: tank.base.value,
      waterLine: volumes.waterDepth,
      cover: tank.cover.value,
    },
    layers: plan.substrate.map((layer, i) => ({
      material: grainOf(layer.material),
      frontLeft: layer.frontLeft.value,
      frontRight: layer.frontRight.value,
      backLeft: layer.backLeft.value,
      backRight: layer.backRight.value,
      ...(layer.heights || layer.within ? { field: layers[i]! } : {}),
    })),
    hardscape: plan.hardscape.map((piece) => ({
      kind: piece.kind,
      texture: textureOf(piece),
      form: {
        kind: piece.kind,
        texture: piece.shape.value,
        mesh: pieceStanding(piece, ground).mesh,
        grain: grainDirection(piece),
      },
      at: piece.at.value,
      depth: piece.depth.value,
      width: piece.width.value,
      height: piece.height.value,
      lean: Math.max(-1, Math.min(1, piece.lean.value / 45)),
    })),
    plants: plan.plants.map((p) => {
      const fact = findPlant(p.species)!;
      const leaf = leafOf(fact);
      return {
        label: fact.name,
        form: fact.form,
        at: p.at.value,
        depth: p.depth.value,
        width: p.outline
          ? inside * extentOf(p.outline)
          : Math.max(fact.spread, Math.min(inside, p.cover.value * inside * (fact.zone === "foreground" ? 1.4 : 1.1))),
        height: p.height.value,
        ...(leaf ? { leaf } : {}),
      };
    }),
    animals: animalsOf(plan),
    ...(light
      ? {
          lamp: {
            kind: light.kind.value,
            length: light.length.value,
            aboveRim: light.aboveRim.value,
            strength: light.strength.value,
            caption: `${lampCaption(light)}${besides(plan.lamps)}`,
          },
        }
      : {}),
    ...(filter ? { pipes: { outlet: true, intake: true, ripple: plan.surface.ripple.value } } : {}),
    ...(co2 ? { diffuser: { device: co2.device.value, bubbles: co2.bubbles.value } } : {}),
    ...(air ? { airStone: true } : {}),
    ...(heater ? { heater: true } : {}),
    ...(water ? { thermometer: water.temperature } : {}),
    seed: seedOf(plan.name),
  };
}
