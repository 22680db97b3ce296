/**
 * Share of unpolarised light that the water's surface reflects, from the air. Fresnel.
 * @param air @param water cosines from the vertical on both sides @param n refractive index of the water
 */
export function reflectedFromAir(air: number, water: number, n: number): number {
  const s = (air - n * water) / (air + n * water);
  const p = (water - n * air) / (water + n * air);
  return 0.5 * (s * s + p * p);
}

/** The same for light in the water at a face to the air; 1 beyond the critical angle. @param cosine from its normal */
export function reflectedFromWater(cosine: number, n: number): number {
  const beyond = 1 - n * n * (1 - cosine * cosine);
  if (beyond <= 0) return 1;
  const air = Math.sqrt(beyond);
  const s = (n * cosine - air) / (n * cosine + air);
  const p = (n * air - cosine) / (n * air + cosine);
  return 0.5 * (s * s + p * p);
}

/** e to the power -x, x >= 0; a series where that does, within 1e-10. */
export function fade(x: number): number {
  if (x < 0.06) return 1 - x * (1 - x * (0.5 - x * (1 / 6 - x * (1 / 24 - x * (1 / 120)))));
  return Math.exp(-x);
}

/** (1 - e^-x)/x: mean of what fades along a step. */
export function meanFade(x: number): number {
  if (x < 0.06) return 1 - x * (0.5 - x * (1 / 6 - x * (1 / 24 - x * (1 / 120))));
  return (1 - Math.exp(-x)) / x;
}
