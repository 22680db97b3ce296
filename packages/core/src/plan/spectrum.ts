/** The light of a channel as one types it: a white, a colour, or a table. */

/** What was typed, read. */
export type SpectrumWords =
  | { readonly kind: "white"; readonly kelvin: number }
  /** A bell curve of power: its peak and its width at half of it, nm. */
  | { readonly kind: "colour"; readonly peak: number; readonly width: number }
  /** Wavelengths in nm, rising, and power on any scale. */
  | { readonly kind: "table"; readonly points: readonly (readonly [nm: number, power: number])[] };

/** Colours of the trade: peak and usual width at half of it, nm. Common practice, no source. */
export const colours: Readonly<Record<string, readonly [peak: number, width: number]>> = {
  violet: [420, 16],
  "royal blue": [445, 18],
  blue: [450, 20],
  cyan: [500, 28],
  green: [525, 35],
  amber: [590, 16],
  red: [630, 18],
  "deep red": [660, 20],
};

/** Colours whose light plants are not counted by, or hardly. */
const uncounted = /^(far[- ]red|infra ?red|ultra ?violet|uv)\b/;

export const spectrumAllowed = `a white such as 6500 K (2700 to 6600 K), ${Object.keys(colours).join(", ")}, a peak such as 660 nm, or 660 nm 25 nm wide (405 to 695 nm), or a table such as 400 nm 0.1, 450 nm 1, 500 nm 0.2`;

/** Width at half the peak of a colour of which only the peak is known, nm. Design value. */
const usualWidth = 20;

export type SpectrumRead =
  | { readonly ok: true; readonly spectrum: SpectrumWords }
  | { readonly ok: false; readonly message: string };

const wrong = (message: string): SpectrumRead => ({ ok: false, message });

const white = /^(?:white )?(\d{4,5}) ?k(?: white)?$/;
const peaked = /^(?:([a-z][a-z ]*[a-z]) )?(\d{3}(?:\.\d+)?) ?nm(?:,? (\d{1,3}(?:\.\d+)?) ?nm(?: wide)?)?$/;
const row = /^(\d{3}(?:\.\d+)?)(?: ?nm)? (\d+(?:\.\d+)?(?:e-?\d+)?)$/;

/** Reads `6500 K`, `deep red`, `red 660 nm`, `660 nm 25 nm wide`, or a table of wavelengths and powers. */
export function readSpectrum(text: string): SpectrumRead {
  const words = text.trim().toLowerCase().replace(/\s+/g, " ");
  const kelvin = white.exec(words)?.[1];
  if (kelvin !== undefined) {
    const value = Number(kelvin);
    return value >= 2700 && value <= 6600
      ? { ok: true, spectrum: { kind: "white", kelvin: value } }
      : wrong(`${value} K is no white that is known here; a cooler one is a 6500 K white beside a blue channel`);
  }
  const named = Object.hasOwn(colours, words) ? colours[words] : undefined;
  if (named) return { ok: true, spectrum: { kind: "colour", peak: named[0], width: named[1] } };
  if (uncounted.test(words)) return wrong("plants are counted by the light of 400 to 700 nm; this lies outside it");
  const found = peaked.exec(words);
  if (found) {
    const peak = Number(found[2]);
    const width = found[3] === undefined ? usualWidth : Number(found[3]);
    if (!(peak >= 405 && peak <= 695)) return wrong(`a peak of ${peak} nm lies at or beyond the ends of 400 to 700 nm`);
    if (!(width >= 5 && width <= 150)) return wrong(`a width of ${width} nm at half the peak; 5 to 150 nm are known`);
    return { ok: true, spectrum: { kind: "colour", peak, width } };
  }
  return words.includes(",") ? readTable(words) : wrong("this is no light that is known here");
}

function readTable(words: string): SpectrumRead {
  const points: [number, number][] = [];
  for (const [i, part] of words.split(/, ?/).entries()) {
    const found = row.exec(part.trim());
    const [nm, power] = [Number(found?.[1]), Number(found?.[2])];
    if (!(nm >= 300 && nm <= 900)) return wrong(`row ${i + 1} of the table is no wavelength with its power`);
    if (points.length > 0 && nm <= points.at(-1)![0])
      return wrong(`row ${i + 1} of the table, ${nm} nm, does not rise`);
    points.push([nm, power]);
  }
  const lit = points.some(([nm, power], i) => {
    const beside = (other: readonly [number, number] | undefined) => other && other[0] > 400 && other[0] < 700;
    return power > 0 && ((nm > 400 && nm < 700) || beside(points[i - 1]) || beside(points[i + 1]));
  });
  if (points.length < 2 || points.length > 401) return wrong(`the table has ${points.length} rows`);
  return lit ? { ok: true, spectrum: { kind: "table", points } } : wrong("the table holds no light of 400 to 700 nm");
}
