import type { Source } from "../relation/index.ts";

/** Bibliography of the heat room. */
export const sources: Readonly<Record<string, Source>> = {
  "ashrae-fundamentals": {
    cite: "ASHRAE Handbook Fundamentals 2017, ch. 1 Psychrometrics: eq. 6 and 20-35, tables and example 1, as quoted in the tests of an open psychrometrics library; eq. 3 (altitude) recalled",
    how: "read",
  },
  "hyland-wexler-1983": {
    cite: "Hyland & Wexler 1983, ASHRAE Trans. 89(2A):500-519, as printed in ASHRAE Fundamentals 2017 ch. 1 eq. 5 (ice, recalled) and 6 (liquid)",
    how: "read",
  },
  "iapws-95": { cite: "IAPWS-95 steam tables, recomputed with an open steam library", how: "derived" },
  "wmo-8": { cite: "WMO-No. 8, Guide to instruments and methods of observation, Annex 4.B", how: "memory" },
  "kell-1975": { cite: "Kell 1975, J. Chem. Eng. Data 20:97-105", how: "memory" },
  "kestin-1978": { cite: "Kestin, Sokolov & Wakeham 1978, J. Phys. Chem. Ref. Data 7:941-948", how: "memory" },
  "popiel-1998": { cite: "Popiel & Wojtkowiak 1998, Heat Transfer Eng. 19(3):87-101", how: "memory" },
  "ramires-1995": { cite: "Ramires et al. 1995, J. Phys. Chem. Ref. Data 24:1377-1381", how: "memory" },
  sutherland: { cite: "Sutherland's law for air, constants 1.716e-5 Pa s at 273.15 K and 110.4 K", how: "memory" },
  "standard-atmosphere": { cite: "US Standard Atmosphere 1976, thermal conductivity of air", how: "memory" },
  "massman-1998": { cite: "Massman 1998, Atmos. Environ. 32:1111-1127", how: "memory" },
  "churchill-chu-1975": {
    cite: "Churchill & Chu 1975, Int. J. Heat Mass Transfer 18:1323-1329, as Incropera et al., Fundamentals of Heat and Mass Transfer, eq. 9.26; full form read in an open heat-transfer library, laminar form recalled",
    how: "read",
  },
  "incropera-9-2": {
    cite: "Incropera et al., Fundamentals of Heat and Mass Transfer, example 9.2 (glass fire screen)",
    how: "memory",
  },
  mcadams: {
    cite: "McAdams, Heat Transmission, level plates; read in an open heat-transfer library",
    how: "read",
  },
  "ashrae-room-air": {
    cite: "ASHRAE room-air convection rules, as given in the EnergyPlus Engineering Reference, inside heat balance",
    how: "read",
  },
  "iso-6946": { cite: "ISO 6946 surface resistances 0.13, 0.10, 0.17 m2K/W", how: "memory" },
  "glass-bulletin": {
    cite: "Float-glass producer's bulletin ATS-129, 2013: emissivity 0.84, conductivity",
    how: "read",
  },
  "water-emissivity": { cite: "Emissivity of water 0.95-0.96, handbook value", how: "memory" },
  "carrier-1918": {
    cite: "Carrier's evaporation equation as in ASHRAE Handbook HVAC Applications, natatoriums",
    how: "memory",
  },
  "smith-1998": {
    cite: "Smith, Löf & Jones 1998, ASHRAE Trans. 104(1A), abstract: undisturbed pools evaporate 74 % of the equation",
    how: "read",
  },
  "energyplus-pool": {
    cite: "EnergyPlus Engineering Reference, indoor swimming pool: short pool equation and activity factors",
    how: "read",
  },
  "shah-2002": {
    cite: "Shah 2002, HVAC&R Research 8(1):125-131, abstract: mean deviation 18 % on 11 data sources",
    how: "read",
  },
  "shah-2014": { cite: "Shah 1992-2014, formula for undisturbed pools and its floor", how: "memory" },
  "lewis-analogy": { cite: "Chilton-Colburn form of the Lewis analogy, handbook", how: "memory" },
  "energy-balance": { cite: "Balance of heat over a body of water", how: "derived" },
  "trade-practice": {
    cite: "Common practice of the trade, no source: margins of heaters, lids, performance of chillers, slow changes of temperature",
    how: "common practice",
  },
  "keeper-report": { cite: "Keeper's report, public list archive", how: "read" },
  design: {
    cite: "Chosen for this room: water film 300 W/m2/K, base 1.8 W/m2/K (8 mm mat, 18 mm board, still air), glass lid 4.5 W/m2/K (30 %), 5 % of the evaporation past a lid",
    how: "design value",
  },
};
