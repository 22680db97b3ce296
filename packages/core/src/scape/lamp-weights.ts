import type { LightScene } from "./light-scene.ts";

/**
 * Photons of each field of a trace in each band, umol/s; `at` gives the share of full output of each light, by its
 * position among the sources.
 */
export function lampWeights(
  { sources, scene, bands }: LightScene,
  at: (index: number) => number,
): readonly (readonly number[])[] {
  const fields = scene.lamps.length + (scene.daylight?.length ?? 0);
  const weights = Array.from({ length: fields }, () => bands.share.map(() => 0));
  for (const { index, field, photons, share } of sources) {
    const own = weights[field]!;
    const strength = photons * at(index);
    share.forEach((part, b) => {
      own[b] = own[b]! + strength * part;
    });
  }
  return weights;
}
