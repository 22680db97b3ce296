import { type PlantFact, plants } from "../../facts/index.ts";
import type { Dice } from "./dice.ts";
import type { Site } from "./site.ts";
import type { Role } from "./types.ts";

/** Parts of the world for layouts that copy one place; what grows there. From memory. */
const regions: Readonly<Record<string, readonly string[]>> = {
  "streams of South and South-East Asia": [
    "cryptocoryne-wendtii",
    "cryptocoryne-beckettii",
    "cryptocoryne-parva",
    "cryptocoryne-affinis",
    "cryptocoryne-crispatula",
    "cryptocoryne-undulata",
    "lagenandra-meeboldii",
    "hygrophila-polysperma",
    "limnophila-sessiliflora",
    "rotala-rotundifolia",
    "bucephalandra-pygmaea",
    "bucephalandra-motleyana",
    "leptochilus-pteropus",
    "taxiphyllum-barbieri",
    "vesicularia-ferriei",
    "blyxa-japonica",
  ],
  "rivers of South America": [
    "echinodorus-grisebachii",
    "echinodorus-uruguayensis",
    "helanthium-tenellum",
    "helanthium-bolivianum",
    "heteranthera-zosterifolia",
    "egeria-densa",
    "lilaeopsis-brasiliensis",
    "myriophyllum-mattogrossense",
    "alternanthera-reineckii",
    "staurogyne-repens",
    "vesicularia-montagnei",
  ],
  "forest streams of West Africa": [
    "anubias-barteri",
    "bolbitis-heudelotii",
    "crinum-calamistratum",
    "ceratopteris-thalictroides",
    "nymphaea-lotus",
    "ammannia-gracilis",
  ],
  "cool waters of Europe and North America": [
    "vallisneria-spiralis",
    "vallisneria-americana",
    "elodea-canadensis",
    "myriophyllum-spicatum",
    "ceratophyllum-demersum",
    "lysimachia-nummularia",
    "ludwigia-palustris",
    "hottonia-palustris",
    "eleocharis-acicularis",
    "eleocharis-parvula",
    "sagittaria-subulata",
    "samolus-valerandi",
    "lobelia-cardinalis",
    "elatine-hydropiper",
    "fontinalis-antipyretica",
    "fissidens-fontanus",
  ],
};

/** Species that hold on in the tank's light, warmth, hardness and gas. */
function hardyIn(site: Site): readonly PlantFact[] {
  const { light, warmth, gas, hardness } = site;
  return plants.filter(
    (p) =>
      p.form !== "floating" &&
      p.ppfdMin <= light &&
      p.temperatureMin <= warmth[0] &&
      p.temperatureMax >= warmth[1] &&
      p.ghMax >= hardness &&
      (gas || p.co2Need !== "needed") &&
      p.spread <= 0.55 * site.width &&
      p.spread <= 0.4 * site.length,
  );
}

/** How well a plant's size and habit suit a role over `room` m of water; 0 = not at all. Design values. */
function suits(plant: PlantFact, role: Role, room: number): number {
  const { zone, form, heightMin, heightMax, attach } = plant;
  const front = zone === "foreground" && form !== "moss";
  switch (role) {
    case "carpet":
      if (!front || heightMin > 0.22 * room) return 0;
      return form === "carpet" ? 3 : form === "runner" ? 0.5 : 0.1;
    case "low":
      if (heightMin > 0.4 * room) return 0;
      return front ? (form === "carpet" ? 0.6 : 2) : zone === "midground" && heightMax < 0.6 * room ? 1 : 0;
    case "street":
      if (heightMin > 0.25 * room || heightMax > 0.35) return 0;
      return front && form !== "carpet" ? 2 : zone === "midground" && heightMax < 0.5 * room ? 1 : 0;
    case "mid":
      if (heightMin > 0.65 * room || heightMax < 0.2 * room) return 0;
      return zone === "midground" ? 2 : front && heightMax > 0.3 * room ? 0.5 : zone === "background" ? 0.1 : 0;
    case "tall":
      if (heightMin > 0.85 * room || heightMax < 0.35 * room) return 0;
      return (zone === "background" ? 2 : zone === "midground" ? 0.3 : 0) * Math.min(1, heightMax / room);
    case "tied":
      return attach && zone === "epiphyte" && heightMin < 0.35 * room ? 1 : 0;
  }
}

/** What a role falls back on where nothing suits it. */
const instead: Readonly<Record<Role, readonly Role[]>> = {
  carpet: ["carpet", "low"],
  low: ["low", "carpet"],
  street: ["street", "low", "carpet"],
  mid: ["mid", "low"],
  tall: ["tall", "mid", "low"],
  tied: ["tied"],
};

/** Preference by light and gas: what grows well here before what merely holds on. Design values. */
function thrives({ ppfdGood, ppfdMin, lightClass, co2Need }: PlantFact, { light, gas }: Site): number {
  const lit = light >= ppfdGood ? 1 : 0.25 + (0.75 * (light - ppfdMin)) / (ppfdGood - ppfdMin);
  const burnt = lightClass === "low" && light > 150 ? 0.5 : 1;
  const carbon = gas ? { needed: 1.5, helps: 1.2, none: 0.7 }[co2Need] : { needed: 0, helps: 0.8, none: 1.6 }[co2Need];
  return lit * burnt * carbon;
}

/** Most species by the tank's water, L: few in a small one, that it stays calm. Common practice; figures are design values. */
const speciesCounts: readonly (readonly [below: number, count: number])[] = [
  [15, 5],
  [40, 7],
  [120, 9],
];

function mostSpecies({ length, width, depth }: Site): number {
  const litres = 1000 * length * width * depth;
  return speciesCounts.find(([below]) => litres < below)?.[1] ?? 14;
}

export interface Chooser {
  /** A species for a role over `room` m of water, or undefined where none fits; a new one while there are any. */
  choose(role: Role, room: number): PlantFact | undefined;
}

/** Chooses species one after another, each unlike its neighbours in kin and leaf. */
export function chooser(site: Site, dice: Dice, oneRegion: boolean): Chooser {
  const hardy = hardyIn(site);
  const stock = oneRegion ? regional(hardy, dice) : hardy;
  const most = mostSpecies(site);
  const used: PlantFact[] = [];
  const genus = (p: PlantFact): string => p.id.split("-")[0]!;
  return {
    choose(role, room) {
      const fresh = new Set(used).size < most ? stock.filter((p) => !used.includes(p)) : [];
      for (const pool of [fresh, used, stock]) {
        for (const part of instead[role]) {
          const found = dice.weighted(pool, (p) => {
            const near = used.slice(-2);
            const kin = near.some((n) => genus(n) === genus(p)) ? 0.15 : 1;
            const alike = near.at(-1)?.form === p.form && part !== "carpet" ? 0.6 : 1;
            return suits(p, part, room) * thrives(p, site) * kin * alike;
          });
          if (!found) continue;
          used.push(found);
          return found;
        }
      }
      return undefined;
    },
  };
}

/** The hardy species of one part of the world, by chance among those that can fill a bank. */
function regional(hardy: readonly PlantFact[], dice: Dice): readonly PlantFact[] {
  const stocks = Object.values(regions).map((ids) => hardy.filter((p) => ids.includes(p.id)));
  const grounded = (stock: readonly PlantFact[]): number => stock.filter((p) => p.zone !== "epiphyte").length;
  const rich = stocks.filter((stock) => grounded(stock) >= 3);
  if (rich.length > 0) return dice.pick(rich);
  return stocks.reduce((best, stock) => (grounded(stock) > grounded(best) ? stock : best));
}

/** Height at which a layout shows a species: grown in for its role, under water, within what the species reaches, m. */
export function shownHeight({ heightMin, heightMax }: PlantFact, role: Role, room: number): number {
  const wanted = { carpet: 0.08, low: 0.2, street: 0.2, mid: 0.42, tall: 0.78, tied: 0.25 }[role] * room;
  return Math.min(heightMax, Math.max(heightMin, wanted));
}
