import type { ScapeScene, ScapeZone } from "../drawing/index.ts";
import { fieldHeight } from "../geometry/index.ts";
import { createRandom } from "../numerics/index.ts";
import { type Stand, widthOf } from "./placement.ts";
import { growPlant } from "./plants/grow.ts";
import type { PlantMesh } from "./plants/sprout.ts";
import { cross, unit, type Vector } from "./plants/vector.ts";

/** Different plants that are grown for one planting; the others are the same, turned and sized. Design value. */
const mostVariants = 3;

/** Plants of one planting up to which each is drawn closely. Design value. */
const looked = 40;

/** One plant as grown, and where it is set out. */
export interface PlantSet {
  readonly plant: PlantMesh;
  readonly stands: readonly Stand[];
}

/** Height at which a planting is drawn, m. */
export const drawnHeight = ({ height }: Pick<ScapeZone, "height">): number => Math.max(0.004, height);

/** The few plants of a planting, each with the stands that it fills. */
export function plantSets(
  zone: ScapeZone,
  stands: readonly Stand[],
  { tank, ground, seed }: Pick<ScapeScene, "tank" | "ground" | "seed">,
): readonly PlantSet[] {
  const variants = Math.min(mostVariants, stands.length);
  return Array.from({ length: variants }, (_, variant) => {
    const own = stands.filter((_, k) => k % variants === variant);
    const deep = own.reduce((sum, { at }) => sum + at[2], 0) / own.length;
    const random = createRandom(Math.trunc(seed) | 0, 104_729 * (zone.index + 1) + variant);
    const room =
      zone.form === "floating"
        ? tank.waterLine - fieldHeight(ground, tank.length / 2, tank.width / 2)
        : tank.waterLine - deep;
    const plant = growPlant({
      form: zone.form,
      leaf: zone.leaf,
      height: drawnHeight(zone),
      spread: widthOf(zone),
      room: Math.max(0.01, room),
      detail: Math.min(1, Math.max(0.4, Math.sqrt(looked / stands.length))),
      random: () => random.uniform(),
    });
    return { plant, stands: own };
  });
}

/** How a plant is set at its stand: the directions that its own axes take, unit vectors, and its size along each. */
export interface Setting {
  readonly along: Vector;
  readonly across: Vector;
  readonly up: Vector;
  /** In its width, and in its height. */
  readonly wide: number;
  readonly high: number;
}

/** @param waterLine m above the floor */
export function settingOf({ up, turn, size, broad }: Stand, zone: ScapeZone, waterLine: number): Setting {
  const angle = trailing(zone, waterLine) ? (turn - Math.PI) * 0.25 : turn;
  const across = unit(cross(up, [Math.cos(angle), Math.sin(angle), 0]));
  return { along: cross(across, up), across, up, wide: size * broad, high: size };
}

/** Whether its leaves lie along the surface, all the same way: then it is not turned freely. */
function trailing({ form, leaf, height }: ScapeZone, waterLine: number): boolean {
  return form === "runner" && leaf === "ribbon" && height > 0.75 * waterLine;
}
