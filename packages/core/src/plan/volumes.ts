import { findStone, findSubstrate, findWood } from "../facts/index.ts";
import { type Volumes, volumes } from "../geometry/index.ts";
import type { Plan } from "./plan.ts";

/**
 * Volumes, depths and masses of a plan's tank, bed, stones and wood.
 * @throws RangeError when they leave no room for water (a resolved plan does not)
 */
export function tankVolumes(plan: Plan): Volumes {
  const { tank } = plan;
  return volumes({
    box: {
      length: tank.length.value,
      width: tank.width.value,
      height: tank.height.value,
      glass: tank.glass.value,
      base: tank.base.value,
      belowRim: tank.belowRim.value,
    },
    layers: plan.substrate.map((layer) => {
      const material = findSubstrate(layer.material)!;
      return {
        frontLeft: layer.frontLeft.value,
        frontRight: layer.frontRight.value,
        backLeft: layer.backLeft.value,
        backRight: layer.backRight.value,
        porosity: material.porosity.value,
        grainDensity: material.solidDensity.value,
        bulkDensity: material.bulkDensity.value,
      };
    }),
    solids: plan.hardscape.map((piece) => ({
      mass: piece.mass.value,
      density: piece.kind === "stone" ? findStone(piece.material)!.density.value : woodDensity(piece.material),
    })),
  });
}

/** Soaked wood: 1 + 0.35 x basic specific gravity (cell walls of 1.54), kg/m3. */
function woodDensity(material: string): number {
  return 1000 * (1 + 0.3506 * findWood(material)!.basicGravity.value);
}
