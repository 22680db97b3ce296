import { parPhotons, SPECTRUM_FROM, type Spectrum, spectrumOf } from "./spectrum.ts";

type Bell = readonly [height: number, centre: number, sigma: number];

/** White light-emitting diodes with phosphor: colour temperature in K and three bell curves in nm. Source: white-fits */
export const whites: readonly { readonly kelvin: number; readonly bells: readonly [Bell, Bell, Bell] }[] = [
  {
    kelvin: 2733,
    bells: [
      [0.52, 452, 9.9],
      [1, 590, 74],
      [0.91, 613, 40],
    ],
  },
  {
    kelvin: 2998,
    bells: [
      [0.465, 452, 10.9],
      [0.12, 502, 28],
      [1, 603, 57],
    ],
  },
  {
    kelvin: 4103,
    bells: [
      [1, 448, 10.2],
      [0.25, 507, 28.5],
      [1, 591, 58.4],
    ],
  },
  {
    kelvin: 5109,
    bells: [
      [1, 451, 11.1],
      [0.19, 541, 24.3],
      [0.63, 583, 60.6],
    ],
  },
  {
    kelvin: 6598,
    bells: [
      [1, 452, 10.9],
      [0.09, 537, 19.8],
      [0.53, 568, 63.4],
    ],
  },
];

const COOLEST = 6600;
const WARMEST = 2700;

const tabulated: readonly { readonly kelvin: number; readonly spectrum: Spectrum }[] = whites.map(
  ({ kelvin, bells }) => {
    const shape = spectrumOf((nm) =>
      bells.reduce((sum, [a, m, s]) => sum + a * Math.exp(-0.5 * ((nm - m) / s) ** 2), 0),
    );
    const photons = parPhotons(shape);
    return { kelvin, spectrum: shape.map((v) => v / photons) };
  },
);

/**
 * Spectrum of a white diode, holding one photon unit 400 to 700 nm. Between two tabulated whites their spectra of equal
 * photons are mixed by reciprocal temperature (a design choice); the 33 K below the warmest and 2 K above the coolest
 * take that white itself.
 * @param kelvin colour temperature, K, 2700 to 6600
 * @throws RangeError outside; a cooler white is told as a 6600 K white with a blue channel. Sources: white-fits, chosen
 */
export function whiteSpectrum(kelvin: number): Spectrum {
  if (!(kelvin >= WARMEST && kelvin <= COOLEST)) {
    throw new RangeError(
      `white light: ${kelvin} K; allowed is ${WARMEST} to ${COOLEST} K (a cooler white: mix the ${COOLEST} K white with blue)`,
    );
  }
  const upper = tabulated.findIndex((w) => w.kelvin >= kelvin);
  if (upper === 0) return tabulated[0]!.spectrum;
  if (upper < 0) return tabulated.at(-1)!.spectrum;
  const a = tabulated[upper - 1]!;
  const b = tabulated[upper]!;
  const share = (1 / kelvin - 1 / a.kelvin) / (1 / b.kelvin - 1 / a.kelvin);
  return spectrumOf((nm) => (1 - share) * a.spectrum[nm - SPECTRUM_FROM]! + share * b.spectrum[nm - SPECTRUM_FROM]!);
}
