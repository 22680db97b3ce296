import type { Source } from "../relation/index.ts";

/** Bibliography of the chemistry room. */
export const sources: Readonly<Record<string, Source>> = {
  pb82: {
    cite: "Plummer & Busenberg 1982, Geochimica et Cosmochimica Acta 46:1011-1040, CO2, carbonate and calcite constants (coefficients read in the USGS file wateq4f.dat)",
    how: "read",
  },
  wq4f: { cite: "Ball & Nordstrom 1991, USGS Open-File Report 91-183 (WATEQ4F), constants and pairs", how: "read" },
  "iapws-r11": {
    cite: "IAPWS R11-07(2019), ionization constant of H2O (Bandura & Lvov 2006, Journal of Physical and Chemical Reference Data 35:15-30)",
    how: "read",
  },
  "truesdell-jones-1974": {
    cite: "Truesdell & Jones 1974, USGS Journal of Research 2:233-248 (WATEQ), activity coefficients (parameters read in wateq4f.dat)",
    how: "read",
  },
  "davies-1962": { cite: "Davies 1962, Ion Association, Butterworths", how: "memory" },
  "usgs-phreeqc-3": {
    cite: "Parkhurst & Appelo, PHREEQC 3.7.3 (USGS) with phreeqc.dat: diffusion, exchange and reference runs",
    how: "read",
  },
  "munhoven-2013": {
    cite: "Munhoven 2013, Geoscientific Model Development 6:1367-1388, bracketed pH solver",
    how: "read",
  },
  "wolf-gladrow-2007": {
    cite: "Wolf-Gladrow et al. 2007, Marine Chemistry 106:287-300, alkalinity by charges",
    how: "memory",
  },
  "goldman-brewer-1980": {
    cite: "Goldman & Brewer 1980, Limnology and Oceanography 25:352-357, nitrogen uptake and alkalinity",
    how: "memory",
  },
  "dickson-1981": {
    cite: "Dickson 1981, Deep-Sea Research 28A:609-623, definition of total alkalinity",
    how: "memory",
  },
  "kell-1975": {
    cite: "Kell 1975, Journal of Chemical and Engineering Data 20:97-105, density of water",
    how: "memory",
  },
  "malmberg-maryott-1956": {
    cite: "Malmberg & Maryott 1956, Journal of Research of the NBS 56:1-8, permittivity of water",
    how: "memory",
  },
  "kestin-1978": {
    cite: "Kestin, Sokolov & Wakeham 1978, Journal of Physical and Chemical Reference Data 7:941-948, viscosity of water",
    how: "memory",
  },
  "gypsum-1990": { cite: "Nordstrom et al. 1990, ACS Symposium Series 416, gypsum log K -4.58", how: "memory" },
  "iupac-2021": { cite: "Prohaska et al. 2022, IUPAC abridged standard atomic weights 2021", how: "memory" },
  "german-degree": { cite: "German degree of hardness: 10 mg/L CaO, by definition", how: "definition" },
  "stumm-morgan": { cite: "Stumm & Morgan, Aquatic Chemistry, carbonate equilibria", how: "memory" },
  "appelo-postma": {
    cite: "Appelo & Postma, Geochemistry, Groundwater and Pollution, calcite dissolution",
    how: "memory",
  },
  "standard-methods-2330": { cite: "Standard Methods 2330 B, calcium carbonate saturation", how: "memory" },
  "standard-methods-2510": { cite: "Standard Methods 2510, conductivity, table I and factor 0.0191", how: "memory" },
  "standard-methods-4500": { cite: "Standard Methods 4500-CO2 D, CO2 by calculation", how: "memory" },
  "standard-methods-1030": { cite: "Standard Methods 1030 E, checking an analysis by charges", how: "memory" },
  "usgs-twri-5a1": { cite: "Skougstad et al. 1979, USGS TWRI 5-A1 p. 280, CO2 from pH and HCO3", how: "read" },
  "wurts-durborow-1992": {
    cite: "Wurts & Durborow 1992, SRAC 464, factors of CO2 by pH, temperature and alkalinity (attribution from memory)",
    how: "read",
  },
  "trade-rule": { cite: "CO2 = 3 KH 10^(7-pH): common practice, no source", how: "common practice" },
  "trade-tds": { cite: "Scales of ppm meters and their solutions: instrument manuals", how: "read" },
  "trade-indicator": {
    cite: "Indicator cell with reference water, colours: common practice, no source",
    how: "common practice",
  },
  "bromothymol-blue": { cite: "Bromothymol blue: pKa 7.1, yellow to 6.0, blue from 7.6", how: "memory" },
  "weiss-1974": { cite: "Weiss 1974, Marine Chemistry 2:203-215, solubility of CO2", how: "read" },
  "weiss-price-1980": { cite: "Weiss & Price 1980, Marine Chemistry 8:347-359, vapour pressure", how: "memory" },
  "sander-2015": { cite: "Sander 2015, Atmospheric Chemistry and Physics 15:4399, Henry constants", how: "memory" },
  "noaa-2023": { cite: "NOAA global mean CO2 of 2023, 419.3 ppm", how: "read" },
  "emerson-1975": {
    cite: "Emerson, Russo, Lund & Thurston 1975, Journal of the Fisheries Research Board of Canada 32:2379-2383",
    how: "read",
  },
  "da-silva-2006": {
    cite: "da Silva, Kennedy & Dlugogorski 2006, Journal of Physical Chemistry A 110:11371, nitrous acid (abstract)",
    how: "read",
  },
  "anthonisen-1976": { cite: "Anthonisen et al. 1976, Journal WPCF 48:835-852, nitrous acid", how: "memory" },
  "nist-46": {
    cite: "Critically selected stability constants, NIST 46, by minteq.v4 (EDTA read; DTPA and EDDHA from memory), run with ferrihydrite log K 3.191",
    how: "read",
  },
  "ifas-chelates": { cite: "UF/IFAS figures on iron chelates and pH, second-hand", how: "read" },
  "crc-conductivity": {
    cite: "CRC Handbook of Chemistry and Physics, limiting ionic and equivalent conductivities",
    how: "memory",
  },
  "mccleskey-2012": {
    cite: "McCleskey, Nordstrom, Ryan & Ball 2012, Geochimica et Cosmochimica Acta 77:369-382, conductivity",
    how: "read",
  },
  "hayashi-2004": {
    cite: "Hayashi 2004, Environmental Monitoring and Assessment 96:119-128, temperature and conductivity",
    how: "read",
  },
  onsager: { cite: "Debye-Hückel-Onsager limiting law for 1:1 salts at 25 °C", how: "memory" },
  "crc-solubility": {
    cite: "CRC Handbook of Chemistry and Physics, 98th ed., aqueous solubility of inorganic compounds",
    how: "read",
  },
  "epa-nitrification": {
    cite: "EPA 1975 and 1993 process manuals, alkalinity of nitrification and denitrification",
    how: "read",
  },
  "brady-weil-2002": { cite: "Brady & Weil 2002, The Nature and Properties of Soils, table 8.1", how: "read" },
  "soil-buffer": { cite: "Closed balance of soil acidity and alkalinity at held CO2: design", how: "design value" },
  "who-nitrate": { cite: "WHO Guidelines for drinking-water quality: nitrate 50 mg/L", how: "memory" },
};
