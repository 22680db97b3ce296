/** Conductance of the bottom on mat, board and cabinet air, W/m²/K. Source: design. */
export const baseConductance = 1.8;
/** Conductance of a single glass lid with a wet underside, W/m²/K, give or take 30 %. Source: design. */
export const lidConductance = 4.5;
/**
 * Share of the open surface's evaporation that still escapes past a well-fitting lid. A lid holds back at least 90 %
 * (trade-practice); the middle of what is left is taken. Its heat is counted inside `lidConductance`.
 */
export const lidLeak = 0.05;

/** Conductance of flat layers in a row, W/m²/K, from their resistances in m²K/W (a layer's is thickness/conductivity). */
export function conductanceOfLayers(resistances: readonly number[]): number {
  let sum = 0;
  for (const r of resistances) sum += r;
  return 1 / sum;
}
