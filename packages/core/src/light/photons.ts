import { relation } from "../relation/index.ts";
import { luminosity } from "./luminosity.ts";
import { quantity, wavelength } from "./usual-inputs.ts";

/** First and last wavelength of the light that plants are counted by, nm. Source: asabe-s640 */
export const PAR_FROM = 400;
export const PAR_TO = 700;

const PLANCK = 6.62607015e-34;
const AVOGADRO = 6.02214076e23;
const LIGHT_SPEED = 299_792_458;

/** Micromoles of photons per joule and nanometre of wavelength, exact. Source: si-2019 */
const PHOTONS_PER_JOULE_NM = 1e-3 / (PLANCK * AVOGADRO * LIGHT_SPEED);

/** Lumens per watt at 555 nm. Source: si-2019 */
export const LUMENS_PER_WATT = 683.002;

/**
 * Photons in a joule of light of one wavelength.
 * @param nm wavelength, nm, above 0
 * @returns umol/J. Source: si-2019
 */
export const photonsPerJoule = (nm: number): number => PHOTONS_PER_JOULE_NM * nm;

/**
 * Lux per photon flux density of light of one wavelength.
 * @param nm wavelength, nm, 380 to 780
 * @returns lx per umol/m2/s. Sources: si-2019, cie-1924
 */
export const luxPerPhotonOfLine = (nm: number): number => (LUMENS_PER_WATT * luminosity(nm)) / photonsPerJoule(nm);

/**
 * Daily light integral.
 * @param ppfd photon flux density while the lamp is on, umol/m2/s; @param hours h per day
 * @returns mol/m2 per day. Source: asabe-s640
 */
export const dailyLight = (ppfd: number, hours: number): number => ppfd * hours * 0.0036;

export const photonRelations = [
  relation({
    id: "photons-per-joule",
    title: "Photons and lumens of light of one wavelength",
    room: "light",
    inputs: { wavelength },
    outputs: {
      photons: { label: "photons per joule of light", unit: "umol/J" },
      lumens: { label: "lumens per watt of light", unit: "lm/W" },
      lux_per_photon: { label: "lux per photon flux density", unit: "lx*m2*s/umol" },
    },
    equation: "photons = lambda/(N_A h c); lumens = 683.002 V(lambda)",
    sources: ["si-2019", "cie-1924"],
    compute: ({ wavelength: nm }) => ({
      photons: photonsPerJoule(nm),
      lumens: LUMENS_PER_WATT * luminosity(nm),
      lux_per_photon: luxPerPhotonOfLine(nm),
    }),
  }),
  relation({
    id: "daily-light-integral",
    title: "Photons of a day from photon flux and hours of light",
    room: "light",
    inputs: {
      ppfd: quantity("photon flux density while the lamp is on", "umol/m2/s", 0, 3000),
      hours: quantity("hours of light a day", "h", 0, 24),
    },
    outputs: { dose: { label: "photons a day", unit: "mol/m2/d" } },
    equation: "DLI = PPFD x hours x 0.0036",
    sources: ["asabe-s640"],
    compute: ({ ppfd, hours }) => ({ dose: dailyLight(ppfd, hours) }),
  }),
] as const;
