import type { Leaf, SectionScene } from "../drawing/index.ts";
import { type AnimalFact, findAnimal, findPlant, findSubstrate, type PlantFact } from "../facts/index.ts";
import { type LampPlan, type Plan, tankVolumes } from "../plan/index.ts";

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

const depths: Readonly<Record<PlantFact["zone"], number>> = {
  foreground: 0.2,
  midground: 0.5,
  background: 0.85,
  epiphyte: 0.6,
  floating: 0.5,
};

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

/** What the section drawing needs to know of a plan. */
export function sceneOf(plan: Plan, water?: { temperature: number }): SectionScene {
  const { tank, light, co2, filter, air, heater } = plan;
  const inside = tank.length.value - 2 * tank.glass.value;
  const volumes = tankVolumes(plan);
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
    layers: plan.substrate.map((layer) => ({
      material: grainOf(layer.material),
      frontLeft: layer.frontLeft.value,
      frontRight: layer.frontRight.value,
      backLeft: layer.backLeft.value,
      backRight: layer.backRight.value,
    })),
    hardscape: plan.hardscape.map((piece) => ({
      kind: piece.kind,
      texture: /slate|shale|sandstone|gneiss/.test(piece.material)
        ? "layered"
        : /lava|pumice/.test(piece.material)
          ? "rounded"
          : "faceted",
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
        depth: depths[fact.zone],
        width: Math.max(
          fact.spread,
          Math.min(inside, p.cover.value * inside * (fact.zone === "foreground" ? 1.4 : 1.1)),
        ),
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
            caption: lampCaption(light),
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
