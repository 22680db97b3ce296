import { relation, series } from "../relation/index.ts";
import {
  equalEnergySpectrum,
  figuresOf,
  gaussianSpectrum,
  incandescentSpectrum,
  mixedConstant,
  mixedSpectrum,
  type Spectrum,
} from "./spectrum.ts";
import { choice, colourTemperature, quantity } from "./usual-inputs.ts";
import { whiteSpectrum } from "./whites.ts";

const outputs = {
  lux_per_photon: { label: "lux per photon flux density", unit: "lx*m2*s/umol" },
  photons_per_joule: { label: "photons 400 to 700 nm per joule of light", unit: "umol/J" },
  blue: { label: "photon share 400 to 500 nm", unit: "1" },
  green: { label: "photon share 500 to 600 nm", unit: "1" },
  red: { label: "photon share 600 to 700 nm", unit: "1" },
  far_red: { label: "photons 700 to 780 nm per photon 400 to 700 nm", unit: "1" },
} as const;

function figures(spectrum: Spectrum): { readonly [K in keyof typeof outputs]: number } {
  const f = figuresOf(spectrum);
  return {
    lux_per_photon: f.luxPerPhoton,
    photons_per_joule: f.photonsPerJoule,
    blue: f.blue,
    green: f.green,
    red: f.red,
    far_red: f.farRed,
  };
}

const integrals = "K_q = 683.002 integral(S V)/photons; photons = integral(lambda S)/(N_A h c) over 400 to 700 nm";

export const spectrumRelations = [
  relation({
    id: "white-light",
    title: "Lux per photon and colour shares of a white LED",
    room: "light",
    inputs: { colour_temperature: colourTemperature },
    outputs,
    equation: `three bell curves per white, mixed between tabulated whites; ${integrals}`,
    sources: ["white-fits", "cie-1924", "si-2019", "chosen"],
    validity: "Phosphor white pumped by blue; lamps with coloured channels beside it are mixtures.",
    compute: ({ colour_temperature }) => figures(whiteSpectrum(colour_temperature)),
  }),
  relation({
    id: "colour-channel",
    title: "Lux per photon of a coloured LED channel",
    room: "light",
    inputs: {
      centre: quantity("wavelength of the peak", "nm", 400, 700),
      width: quantity("full width at half of the peak", "nm", 5, 150, 20),
    },
    outputs,
    equation: `bell curve; ${integrals}`,
    sources: ["cie-1924", "si-2019"],
    validity: "Light beyond 780 nm and below 380 nm is not counted.",
    compute: ({ centre, width }) => figures(gaussianSpectrum(centre, width)),
  }),
  relation({
    id: "reference-light",
    title: "Lux per photon of lights known by formula",
    room: "light",
    inputs: { light: choice("light", ["equal energy 400 to 700 nm", "incandescent 2856 K"], "incandescent 2856 K") },
    outputs,
    equation: integrals,
    sources: ["cie-1924", "si-2019", "cie-illuminant-a"],
    compute: ({ light }) => figures(light === "incandescent 2856 K" ? incandescentSpectrum : equalEnergySpectrum),
  }),
  relation({
    id: "mixed-light",
    title: "Lux per photon and colour shares of a fixture with coloured channels",
    room: "light",
    inputs: {
      colour_temperature: colourTemperature,
      white: quantity("photons of the white channel, any scale", "umol/s", 0, 100_000, 1),
      blue: quantity("photons of the blue channel, 450 nm", "umol/s", 0, 100_000, 0),
      green: quantity("photons of the green channel, 525 nm", "umol/s", 0, 100_000, 0),
      red: quantity("photons of the red channel, 630 nm", "umol/s", 0, 100_000, 0),
      deep_red: quantity("photons of the deep red channel, 660 nm", "umol/s", 0, 100_000, 0),
    },
    outputs,
    equation: `sum of the channels by photons; ${integrals}`,
    sources: ["white-fits", "cie-1924", "si-2019", "chosen"],
    validity: "Channel widths 20, 35, 18 and 20 nm.",
    compute: (i) =>
      figures(
        mixedSpectrum([
          { spectrum: whiteSpectrum(i.colour_temperature), photons: i.white },
          { spectrum: gaussianSpectrum(450, 20), photons: i.blue },
          { spectrum: gaussianSpectrum(525, 35), photons: i.green },
          { spectrum: gaussianSpectrum(630, 18), photons: i.red },
          { spectrum: gaussianSpectrum(660, 20), photons: i.deep_red },
        ]),
      ),
  }),
  relation({
    id: "mixed-lux-per-photon",
    title: "Lux per photon of a mixture from its parts",
    room: "light",
    inputs: {
      photons: series("photons of each part, any common scale", "umol/s", 0, 100_000),
      constants: series("lux per photon of each part", "lx*m2*s/umol", 0, 150),
    },
    outputs: { lux_per_photon: { label: "lux per photon of the mixture", unit: "lx*m2*s/umol" } },
    equation: "K = sum(f_i K_i), f_i photon shares",
    sources: ["definition"],
    compute: ({ photons, constants }) => ({ lux_per_photon: mixedConstant(photons, constants) }),
  }),
] as const;
