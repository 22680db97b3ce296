import { relation } from "../relation/index.ts";
import { BAND_EDGES, bandsBetween, bandsOf, bandTransmittance, transmittance } from "./bands.ts";
import { gaussianSpectrum } from "./spectrum.ts";
import {
  chlorophyll,
  choice,
  colourTemperature,
  quantity,
  turbidity,
  waterDepth,
  wavelength,
  yellowing,
} from "./usual-inputs.ts";
import {
  algalAbsorption,
  deepAttenuation,
  molecularScattering,
  platinumColour,
  pureWaterAbsorption,
  tanninAbsorption,
  tanninClasses,
  tanninFromColour,
  waterAbsorption,
  waterScattering,
} from "./water-optics.ts";
import { whiteSpectrum } from "./whites.ts";

const perMetre = (label: string) => ({ label, unit: "1/m" }) as const;
const share = (label: string) => ({ label, unit: "1" }) as const;
const laws = ["pope-fry-1997", "bricaud-1981", "bricaud-1995"] as const;
const beyondData = "Absorption by green water was fitted to 25 ug/L; above that it runs beyond the data.";

export const waterRelations = [
  relation({
    id: "water-light-absorption",
    title: "Absorption and scattering of tank water at a wavelength",
    room: "light",
    inputs: { wavelength, a440: yellowing, chlorophyll, turbidity },
    outputs: {
      pure: perMetre("absorption by the water itself"),
      tannin: perMetre("absorption by tannin"),
      algae: perMetre("absorption by green water"),
      total: perMetre("absorption together"),
      scattering: perMetre("scattering together"),
    },
    equation:
      "a = a_w + a440 exp(-0.016 (lambda - 440)) + A C^(1-B); b = b_w + (1.0 NTU + 0.3 C^0.62)(550/lambda)^0.75",
    sources: [...laws, "buiteveld-1994", "kirk-1980", "gordon-morel-1983", "chosen"],
    validity: beyondData,
    compute: (i) => ({
      pure: pureWaterAbsorption(i.wavelength),
      tannin: tanninAbsorption(i.wavelength, i.a440),
      algae: algalAbsorption(i.wavelength, i.chlorophyll),
      total: waterAbsorption(i.wavelength, i),
      scattering: waterScattering(i.wavelength, i),
    }),
  }),
  relation({
    id: "water-light-scattering",
    title: "Scattering of light by pure water",
    room: "light",
    inputs: { wavelength, temperature: quantity("water temperature", "°C", 0, 40, 25) },
    outputs: { scattering: perMetre("scattering") },
    equation: "Einstein and Smoluchowski: density fluctuations of the water",
    sources: ["buiteveld-1994"],
    validity: "A few thousandths of haze: nothing in a tank.",
    compute: (i) => ({ scattering: molecularScattering(i.wavelength, i.temperature) }),
  }),
  relation({
    id: "white-light-through-water",
    title: "White light that water lets through",
    room: "light",
    inputs: {
      colour_temperature: colourTemperature,
      path: { ...waterDepth, label: "path through the water; about 1.1 to 1.2 times the depth" },
      a440: yellowing,
      chlorophyll,
    },
    outputs: {
      share: share("share of the photons that arrives"),
      six_bands: share("the same from six bands of 50 nm"),
      three_bands: share("the same from three bands of 100 nm"),
      one_band: share("the same from one mean absorption"),
    },
    equation: "integral(photons exp(-a z))/integral(photons), by 1 nm",
    sources: [...laws, "white-fits"],
    validity: `Straight path, scattering left out. ${beyondData}`,
    compute: (i) => {
      const spectrum = whiteSpectrum(i.colour_temperature);
      const water = { a440: i.a440, chlorophyll: i.chlorophyll, turbidity: 0 };
      const banded = (edges: readonly number[]) => bandTransmittance(bandsBetween(spectrum, water, edges), i.path);
      return {
        share: transmittance(spectrum, water, i.path),
        six_bands: banded(BAND_EDGES),
        three_bands: banded([400, 500, 600, 700]),
        one_band: banded([400, 700]),
      };
    },
  }),
  relation({
    id: "coloured-light-through-water",
    title: "Light of a coloured channel that water lets through",
    room: "light",
    inputs: {
      centre: quantity("wavelength of the peak", "nm", 400, 700),
      width: quantity("full width at half of the peak", "nm", 5, 150, 20),
      path: { ...waterDepth, label: "path through the water; about 1.1 to 1.2 times the depth" },
      a440: yellowing,
      chlorophyll,
    },
    outputs: { share: share("share of the photons that arrives") },
    equation: "integral(photons exp(-a z))/integral(photons), by 1 nm",
    sources: laws,
    validity: `Straight path, scattering left out. ${beyondData}`,
    compute: (i) => {
      const water = { a440: i.a440, chlorophyll: i.chlorophyll, turbidity: 0 };
      return { share: transmittance(gaussianSpectrum(i.centre, i.width), water, i.path) };
    },
  }),
  relation({
    id: "light-bands",
    title: "White light in six bands and the water's absorption in each",
    room: "light",
    inputs: { colour_temperature: colourTemperature, a440: yellowing, chlorophyll, turbidity },
    outputs: {
      shares: share("photon shares of 400-450, 450-500 … 650-700 nm"),
      absorption: perMetre("mean absorption in each"),
      scattering: perMetre("mean scattering in each"),
    },
    equation: "means over each band, weighted with the lamp's photons",
    sources: [...laws, "buiteveld-1994", "kirk-1980", "gordon-morel-1983", "white-fits"],
    validity: beyondData,
    compute: (i) => {
      const bands = bandsOf(whiteSpectrum(i.colour_temperature), i);
      return { shares: bands.share, absorption: bands.absorption, scattering: bands.scattering };
    },
  }),
  relation({
    id: "tannin-class",
    title: "Absorption of tannin from the look of the water",
    room: "light",
    inputs: {
      class: choice(
        "look",
        tanninClasses.map((c) => c.id),
        "ordinary",
      ),
    },
    outputs: {
      a440: perMetre("absorption at 440 nm"),
      low: perMetre("lower end"),
      high: perMetre("upper end"),
      colour: { label: "colour on the platinum-cobalt scale", unit: "mg/L" },
    },
    equation: "colour = 18.2 a440 - 0.21",
    sources: ["trade-water", "sipelgas-2003", "cuthbert-1992"],
    validity: "A guess by eye.",
    compute: (i) => {
      const { value, low, high } = tanninClasses.find((c) => c.id === i.class)!;
      return { a440: value, low, high, colour: platinumColour(value) };
    },
  }),
  relation({
    id: "tannin-from-colour",
    title: "Absorption of tannin from a colour test",
    room: "light",
    inputs: { colour: quantity("colour, platinum-cobalt scale", "mg/L", 0, 500) },
    outputs: { a440: perMetre("absorption at 440 nm") },
    equation: "a440 = (colour + 0.21)/18.2",
    sources: ["cuthbert-1992"],
    compute: ({ colour }) => ({ a440: tanninFromColour(colour) }),
  }),
  relation({
    id: "tannin-spectrum",
    title: "Absorption of tannin from one wavelength to another",
    room: "light",
    inputs: {
      wavelength,
      a440: yellowing,
      slope: quantity("slope; lakes 0.006 to 0.03", "1/nm", 0.004, 0.04, 0.016),
    },
    outputs: { absorption: perMetre("absorption") },
    equation: "a = a440 exp(-S (lambda - 440))",
    sources: ["bricaud-1981", "sipelgas-2003"],
    compute: (i) => ({ absorption: tanninAbsorption(i.wavelength, i.a440, i.slope) }),
  }),
  relation({
    id: "deep-water-attenuation",
    title: "Attenuation of daylight in deep hazy water",
    room: "light",
    inputs: {
      absorption: quantity("absorption", "1/m", 0, 30),
      scattering: quantity("scattering", "1/m", 0, 100),
    },
    outputs: { attenuation: perMetre("attenuation of light from straight above") },
    equation: "K = sqrt(a2 + 0.256 a b)",
    sources: ["kirk-1980"],
    validity: "Open deep water. Not for tanks: their walls send scattered light back.",
    compute: ({ absorption, scattering }) => ({ attenuation: deepAttenuation(absorption, scattering) }),
  }),
] as const;
