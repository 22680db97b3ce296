import type { Source } from "../relation/index.ts";

const read = (cite: string): Source => ({ cite, how: "read" });
const memory = (cite: string): Source => ({ cite, how: "memory" });
const trade = (cite: string): Source => ({ cite: `${cite}: common practice, no source`, how: "common practice" });

/** Bibliography of the room. "read" means that the table, equation or passage was seen in a stored copy. */
export const sources: Readonly<Record<string, Source>> = {
  definition: { cite: "Follows from definitions and geometry", how: "definition" },
  chosen: { cite: "Value chosen by this project", how: "design value" },
  "si-2019": {
    cite: "SI Brochure, 9th edition 2019: exact Planck and Avogadro constants, 683 lm/W at 540 THz",
    how: "definition",
  },
  "asabe-s640": read(
    "ANSI/ASABE S640 (2017), Quantities and units of optical radiation for plants (through two summaries)",
  ),
  "cie-1924": read("CIE 018:2019, spectral luminous efficiency V(lambda) of 1924, as in an open colour library"),
  "cie-15": read(
    "CIE 15:2018, illuminants and LED spectra, as in an open colour library; constants integrated from them",
  ),
  "white-fits": {
    cite: "Three Gaussians fitted by least squares to the LED-B spectra of CIE 15:2018, residual 0.9 to 1.7 % of the peak",
    how: "derived",
  },
  "cie-illuminant-a": memory("CIE 15, formula of illuminant A (2856 K)"),
  "thimijan-heins-1983": read("Thimijan & Heins 1983, HortScience 18:818-822 (as quoted by a maker of sensors)"),
  "kusuma-2020": read("Kusuma, Pattison & Bugbee 2020, Horticulture Research 7:56"),
  "trade-efficacy": trade("Photon efficacy of fixtures over tanks, 1.2 to 2.3 umol/J"),
  "immersion-recalled": memory("Immersion factors of cosine quantum sensors, about 1.1 to 1.3"),
  "howell-catalogue": memory("Howell, A catalog of radiation heat transfer configuration factors; formulas recomputed"),
  "lm-63": read(
    "ANSI/IES LM-63, standard file format for photometric data (two descriptions of the layout; details from memory)",
  ),
  fresnel: memory("Snell and Fresnel, laws of refraction and reflection, as in any textbook of optics"),
  "quan-fry-1995": memory("Quan & Fry 1995, Applied Optics 34:3477-3480, refractive index of water"),
  "flux-tube": { cite: "Conservation of flux in a ring between two rays through a flat surface", how: "derived" },
  "cox-munk-1954": memory(
    "Sinusoidal surface: slope and first focus by geometrical optics; slopes after Cox & Munk 1954",
  ),
  "pope-fry-1997": read("Pope & Fry 1997, Applied Optics 36:8710-8723, absorption of pure water at 22 °C"),
  "buiteveld-1994": read("Buiteveld, Hakvoort & Donze 1994, scattering of pure water (as in a maker's open code)"),
  "kirk-1980": memory("Kirk 1980, scattering about 1 /m per NTU; Kirk 1981, attenuation in deep water"),
  "bricaud-1981": memory("Bricaud, Morel & Prieur 1981, exponential absorption of dissolved yellow matter"),
  "sipelgas-2003": read("Sipelgas et al. 2003, Hydrology Research 34:361, slopes in 20 Estonian and Finnish lakes"),
  "cuthbert-1992": memory("Cuthbert & del Giorgio 1992, colour in mg/L Pt against absorption at 440 nm"),
  "bricaud-1995": read("Bricaud et al. 1995, absorption of phytoplankton by chlorophyll (table as in an open package)"),
  "gordon-morel-1983": memory("Gordon & Morel 1983, scattering of algal water, factor 2 either way"),
  "trade-water": trade("Classes of tannin and haze in tanks"),
  "henyey-greenstein-1941": memory("Henyey & Greenstein 1941, Astrophysical Journal 93:70; share of Petzold 1972"),
  "maritorena-1994": read(
    "Maritorena, Morel & Gentili 1994, reflectance of sands and algal covers (as in an open code)",
  ),
  "feister-grewe-1995": read("Feister & Grewe 1995, albedo of surfaces in ultraviolet and visible light (abstract)"),
  "twomey-1986": read("Twomey, Bohren & Mergenthaler 1986, Applied Optics 25:431, why wet surfaces are darker"),
  "trade-albedo": trade("Albedo of tank materials under water, uncertain by 40 %"),
  "campbell-1986": memory("Campbell 1986, Agricultural and Forest Meteorology 36:317, ellipsoidal leaf angles"),
  "goudriaan-1977": memory(
    "Goudriaan 1977, Crop micrometeorology: scattering leaves by the square root of absorptance",
  ),
  "evans-1993": memory("Evans 1993, leaf absorptance by chlorophyll"),
  "sher-kaul-1995": read("Sher-Kaul et al. 1995, surface area per dry mass of submerged plants"),
  "charisma-2003": read("van Nes et al. 2003, Ecological Modelling 159:103 (as re-coded later)"),
  pclake: read("PCLake macrophyte module and its defaults (after Janse and co-workers)"),
  "jassby-platt-1976": read("Jassby & Platt 1976, Limnol. Oceanogr. 21:540-547, hyperbolic tangent"),
  "webb-1974": memory("Webb, Newton & Starr 1974, Oecologia 17:281-291, exponential saturation"),
  "platt-1980": read("Platt, Gallegos & Harrison 1980, Journal of Marine Research 38:687-701"),
  "steele-1962": memory("Steele 1962, Limnol. Oceanogr. 7:137-150"),
  "trade-light": trade("Levels of light for plants in tanks; classes of light response"),
  "kirk-1997": memory("Kirk 1997, point-source integrating-cavity absorption meter, Applied Optics 36:6123"),
};
