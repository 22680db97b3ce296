/** Absorption of pure water from 400 nm in steps of 10 nm, 1/m at 22 °C. Source: pope-fry-1997 */
// biome-ignore format: ten a line
const PURE = [
  0.00663, 0.00473, 0.00454, 0.00495, 0.00635, 0.00922, 0.00979, 0.0106, 0.0127, 0.015,
  0.0204, 0.0325, 0.0409, 0.0434, 0.0474, 0.0565, 0.0619, 0.0695, 0.0896, 0.1351,
  0.2224, 0.2644, 0.2755, 0.2916, 0.3108, 0.34, 0.41, 0.439, 0.465, 0.516,
  0.624, 0.827, 1.231,
] as const;

/** Wavelength, nm, and A, B of a = A C^(1-B), C in mg/m3 of chlorophyll a. Source: bricaud-1995 */
// biome-ignore format: four a line
const ALGAE: readonly (readonly [nm: number, a: number, b: number])[] = [
  [400, 0.0263, 0.282], [410, 0.0313, 0.283], [420, 0.0356, 0.299], [430, 0.0386, 0.314],
  [440, 0.0403, 0.332], [450, 0.0371, 0.359], [460, 0.035, 0.365], [470, 0.0332, 0.368],
  [480, 0.0301, 0.377], [490, 0.0274, 0.361], [500, 0.023, 0.321], [510, 0.018, 0.26],
  [520, 0.0143, 0.196], [530, 0.0117, 0.139], [540, 0.0097, 0.09], [550, 0.008, 0.052],
  [560, 0.0062, 0.016], [570, 0.0053, 0.005], [580, 0.0053, 0.035], [590, 0.0056, 0.073],
  [600, 0.0054, 0.092], [610, 0.0057, 0.071], [620, 0.0065, 0.064], [630, 0.0071, 0.078],
  [640, 0.0077, 0.098], [650, 0.0083, 0.124], [660, 0.0115, 0.121], [670, 0.0189, 0.149],
  [675, 0.0201, 0.158], [680, 0.0182, 0.155], [690, 0.0083, 0.086], [700, 0.003, -0.034],
];

/** Slope of the absorption by tannin, 1/nm: published means 0.014 to 0.0155, the steeper end for fresh leachate. */
export const TANNIN_SLOPE = 0.016;

/** Chlorophyll up to which the algal absorption was fitted, mg/m3. */
export const CHLOROPHYLL_FITTED = 25;

/** Forward share of haze: parameter g of its scattering, chosen to give the backscatter share of natural waters. */
export const HAZE_ASYMMETRY = 0.92;

/** Scattering by haze per turbidity at 550 nm, 1/m per NTU, and its fall with wavelength. Sources: kirk-1980, chosen */
const HAZE = 1;
const HAZE_EXPONENT = -0.75;

/** What colours and clouds a water. */
export interface WaterColour {
  /** Absorption by tannin (dissolved yellow matter) at 440 nm, 1/m. */
  readonly a440: number;
  /** Chlorophyll a, mg/m3 (= ug/L). */
  readonly chlorophyll: number;
  /** NTU. */
  readonly turbidity: number;
}

/** Absorption by tannin of tanks, 1/m at 440 nm. Source: trade-water */
export const tanninClasses = [
  { id: "freshly carbon-filtered", low: 0.05, value: 0.1, high: 0.2 },
  { id: "ordinary", low: 0.2, value: 0.4, high: 0.6 },
  { id: "new wood or leaf litter", low: 1, value: 2, high: 3 },
  { id: "blackwater", low: 5, value: 8, high: 12 },
] as const;

/** Turbidity of tanks, NTU. Source: trade-water */
export const hazeClasses = [
  { id: "clear, filtered", low: 0.1, value: 0.3, high: 0.5 },
  { id: "visibly hazy", low: 2, value: 3, high: 5 },
  { id: "bloom of a new tank", low: 5, value: 10, high: 20 },
] as const;

const checkBand = (nm: number, to: number): void => {
  if (!(nm >= 400 && nm <= to)) throw new RangeError(`absorption: ${nm} nm; allowed is 400 to ${to} nm`);
};

/** Absorption of pure water, straight between tabulated points, 1/m. @param nm 400 to 720 */
export function pureWaterAbsorption(nm: number): number {
  checkBand(nm, 720);
  const x = (nm - 400) / 10;
  const i = Math.min(PURE.length - 2, Math.floor(x));
  return PURE[i]! + (PURE[i + 1]! - PURE[i]!) * (x - i);
}

/** Absorption by tannin, 1/m. @param a440 1/m at 440 nm; @param slope 1/nm. Source: bricaud-1981 */
export const tanninAbsorption = (nm: number, a440: number, slope = TANNIN_SLOPE): number =>
  a440 * Math.exp(-slope * (nm - 440));

/**
 * Absorption by green water, 1/m; above 25 mg/m3 it runs beyond the data.
 * @param nm 400 to 700; @param chlorophyll mg/m3, >= 0. Source: bricaud-1995
 */
export function algalAbsorption(nm: number, chlorophyll: number): number {
  checkBand(nm, 700);
  if (!(chlorophyll > 0)) return 0;
  let k = ALGAE.findIndex((row) => row[0] >= nm);
  if (k === 0) k = 1;
  const [x0, a0, b0] = ALGAE[k - 1]!;
  const [x1, a1, b1] = ALGAE[k]!;
  const share = (nm - x0) / (x1 - x0);
  return (1 - share) * a0 * chlorophyll ** (1 - b0) + share * a1 * chlorophyll ** (1 - b1);
}

/**
 * Scattering by the water itself.
 * @param nm wavelength, nm, 380 to 780; @param t temperature, °C, 0 to 40
 * @returns 1/m. Source: buiteveld-1994
 */
export function molecularScattering(nm: number, t: number): number {
  const depolarised = 0.051;
  const n = 1.3247 + 3.3e3 / nm ** 2 - 3.2e7 / nm ** 4 - 2.5e-6 * t * t;
  const compressibility = (5.062271 - 0.03179 * t + 0.000407 * t * t) * 1e-10;
  const index = ((1.5989 - 1.56e-4 * nm) * (1.61857 - 0.005785 * t) * 1e-10) / (1.5989 - 1.56e-4 * 633);
  const side =
    (2 * Math.PI ** 2 * 1.380649e-23 * (273 + t) * n ** 2 * index ** 2 * (6 + 6 * depolarised)) /
    ((nm * 1e-9) ** 4 * (6 - 7 * depolarised) * compressibility);
  return ((8 * Math.PI) / 3) * side * ((2 + depolarised) / (1 + depolarised));
}

/** Absorption of a water by what colours it, 1/m. @param nm 400 to 700 */
export const waterAbsorption = (nm: number, { a440, chlorophyll }: WaterColour): number =>
  pureWaterAbsorption(nm) + tanninAbsorption(nm, a440) + algalAbsorption(nm, chlorophyll);

/**
 * Scattering by the water itself at 25 °C, by haze and by green water, 1/m; that of haze and algae goes forward with the
 * asymmetry `HAZE_ASYMMETRY`. Sources: buiteveld-1994, kirk-1980, gordon-morel-1983
 */
export function waterScattering(nm: number, { chlorophyll, turbidity }: WaterColour): number {
  const particles = HAZE * turbidity + (chlorophyll > 0 ? 0.3 * chlorophyll ** 0.62 : 0);
  return molecularScattering(nm, 25) + particles * (nm / 550) ** HAZE_EXPONENT;
}

/** Colour on the platinum-cobalt scale, mg/L Pt; water next to clear reads 0. @param a440 1/m. Source: cuthbert-1992 */
export const platinumColour = (a440: number): number => Math.max(0, 18.2 * a440 - 0.21);

/** Absorption at 440 nm from colour in mg/L Pt, 1/m. Source: cuthbert-1992 */
export const tanninFromColour = (colour: number): number => (colour + 0.21) / 18.2;

/**
 * Attenuation of daylight in deep hazy water, 1/m; not for tanks, whose walls matter more.
 * @param a absorption; @param b scattering, 1/m. Source: kirk-1980
 */
export const deepAttenuation = (a: number, b: number): number => Math.sqrt(a * a + 0.256 * a * b);
