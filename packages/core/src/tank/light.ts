/**
 * A first, simple look at the light: what share of a lamp's photons reaches the floor of an empty glass box.
 * The full light solver replaces it where a lamp's place, beam and the layout's shadows matter.
 */

/** Attenuation of photons by clear, slightly stained tank water, 1/m (design value; pure water about 0.1, tea-coloured above 1). */
export const waterAttenuation = 0.35;

/** Part of the photons that enter the water; the rest is mirrored at the surface (Fresnel, mean over a Lambertian lamp). */
const entering = 0.97;

/**
 * Share of a Lambertian line lamp's photons that falls on a rectangle below it (view factor by quadrature).
 * @param length of the rectangle, m; @param width of the rectangle, m; @param lampLength m; @param height above it, m
 * Source: Lambert's cosine law; the lamp lies lengthwise over the middle.
 */
export function lampCapture(length: number, width: number, lampLength: number, height: number): number {
  const h = Math.max(height, 1e-3);
  const sources = 5;
  const across = 24;
  const along = 24;
  let sum = 0;
  for (let s = 0; s < sources; s += 1) {
    const x0 = lampLength * ((s + 0.5) / sources - 0.5);
    for (let j = 0; j < across; j += 1) {
      // substitution z = h tan(a) resolves the bright strip under a low lamp
      const aMax = Math.atan(width / 2 / h);
      const a = aMax * ((j + 0.5) / across);
      const z = h * Math.tan(a);
      const dz = (h / Math.cos(a) ** 2) * (aMax / across);
      const r0 = Math.hypot(h, z);
      const lo = Math.atan((-length / 2 - x0) / r0);
      const hi = Math.atan((length / 2 - x0) / r0);
      for (let i = 0; i < along; i += 1) {
        const b = lo + ((hi - lo) * (i + 0.5)) / along;
        const x = r0 * Math.tan(b);
        const dx = (r0 / Math.cos(b) ** 2) * ((hi - lo) / along);
        const r2 = x * x + z * z + h * h;
        sum += (2 * dx * dz * h * h) / (Math.PI * r2 * r2);
      }
    }
  }
  return Math.min(1, sum / sources);
}

/**
 * Mean photon flux at the floor of an empty glass box, umol/m2/s.
 * Rule of thumb: PPF x captured x entering / area, weakened along a path 1.12 times the depth; the glass walls are taken
 * to mirror what hits them from inside (total internal reflection). Source: derived (traced reference scene of a bare box
 * agrees within 1 %).
 */
export function floorLight(
  ppf: number,
  capture: number,
  area: number,
  depth: number,
  attenuation = waterAttenuation,
): number {
  return ((ppf * capture * entering) / area) * Math.exp(-1.12 * attenuation * depth);
}
