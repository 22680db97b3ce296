import { cellOverlaps, type HeightField, type Point2 } from "../../geometry/index.ts";
import type { Json } from "../../plan/index.ts";
import type { Composition } from "./composition.ts";
import type { Dice } from "./dice.ts";
import { outlineText, wholeOutline } from "./outlines.ts";
import type { Site } from "./site.ts";
import { type Chooser, chooser, shownHeight } from "./species.ts";
import type { Piece } from "./types.ts";

/** Height to which low and middle plants are scaled, over the length of the tank. Design value. */
const columnScale = 0.8;

const mm = (metres: number): string => `${Math.round(metres * 1000)} mm`;

/** The plantings of a composition as typed; an area stays bare where nothing suitable lives in this tank. */
export function plantingJson(
  composition: Composition,
  pieces: readonly Piece[],
  ground: HeightField,
  site: Site,
  dice: Dice,
): Json {
  const choosing = chooser(site, dice, composition.oneRegion);
  const areas = composition.areas.flatMap(({ role, outline }): readonly Json[] => {
    const whole = wholeOutline(outline);
    if (!whole) return [];
    const water = site.depth - highestIn(whole, ground);
    // in a column what stands in front keeps to the scale of the floor
    const room = role === "tall" ? water : Math.min(water, columnScale * site.length);
    const plant = choosing.choose(role, room);
    if (!plant) return [];
    return [{ species: plant.name, height: mm(shownHeight(plant, role, room)), outline: outlineText(whole) }];
  });
  return [...areas, ...tiedTo(carriers(pieces, composition.tied), ground, site, choosing)];
}

/** Highest ground under an outline in shares, m. */
function highestIn(outline: readonly Point2[], ground: HeightField): number {
  const { length, width, columns, heights } = ground;
  const places = outline.map(([u, v]): Point2 => [u * length, v * width]);
  const covered = cellOverlaps(places, ground);
  let highest = 0;
  covered.forEach((area, cell) => {
    if (!(area > 0)) return;
    const at = Math.floor(cell / (columns - 1)) * columns + (cell % (columns - 1));
    for (const k of [at, at + 1, at + columns, at + columns + 1]) highest = Math.max(highest, heights[k]!);
  });
  return highest;
}

/** Pieces that carry plants: wood first, then the stones beside the main one, which itself stays bare. */
function carriers(pieces: readonly Piece[], count: number): readonly Piece[] {
  const woods = pieces.filter((p) => p.kind === "wood");
  const stones = pieces.filter((p) => p.kind === "stone").slice(1, 3);
  return [...woods, ...stones].slice(0, count);
}

/** Share of the box of its piece seen from above that a tied plant takes; most of the floor. Design values. */
const tiedShare = 0.3;
const mostTied = 0.05;

function tiedTo(carrying: readonly Piece[], ground: HeightField, site: Site, choosing: Chooser): readonly Json[] {
  const floor = ground.length * ground.width;
  return carrying.flatMap(({ name, at, width, breadth, height }): readonly Json[] => {
    const plant = choosing.choose("tied", Math.min(site.depth, 2.5 * height));
    if (!plant) return [];
    const cover = Math.min(mostTied, (tiedShare * width * breadth) / floor);
    return [
      {
        species: plant.name,
        on: name,
        cover: `${Math.max(0.1, Math.round(cover * 1000) / 10)} %`,
        height: mm(shownHeight(plant, "tied", height)),
        at: shareText(at[0]),
        depth: shareText(at[1]),
      },
    ];
  });
}

/** A share as typed, to a tenth of a per cent. */
export function shareText(share: number): string {
  return `${Math.round(share * 1000) / 10} %`;
}
