import type { Source } from "../relation/index.ts";

/** Bibliography of the plants room. */
export const sources: Readonly<Record<string, Source>> = {
  pcditch: {
    cite: "Janse, van Gerven, Jansse, Kuiper, Mooij & de Klein, description of the PCDitch 2.0 ditch model, sections 1.5-1.6 and parameters",
    how: "read",
  },
  pclake: { cite: "PCLake macrophyte module and its defaults (after Janse and co-workers)", how: "read" },
  charisma: {
    cite: "van Nes et al. 2003, Ecological Modelling 159:103, CHARISMA macrophyte model, as re-coded later",
    how: "read",
  },
  qsim: { cite: "QSim, German Federal Institute of Hydrology, benthic algae module and defaults", how: "read" },
  "klein-2022": { cite: "Klein et al. 2022, duckweed growth model of SETAC and its defaults", how: "read" },
  aed: { cite: "AED macrophyte and macroalgae parameter tables", how: "read" },
  "nielsen-sand-jensen-1991": { cite: "Nielsen & Sand-Jensen 1991, Aquatic Botany 39:109-120 (abstract)", how: "read" },
  "andersen-pedersen-2002": { cite: "Andersen & Pedersen 2002, Hydrobiologia 477:163-170 (abstract)", how: "read" },
  "salsugineum-photosynthesis": {
    cite: "Myriophyllum salsugineum, photosynthesis against light, temperature and CO2 (abstract)",
    how: "read",
  },
  "best-1986": { cite: "Best 1986, Physiologia Plantarum, Ceratophyllum demersum (abstract)", how: "read" },
  "kahara-vermaat-2003": { cite: "Kahara & Vermaat 2003, Aquatic Botany 75:217-227 (abstract)", how: "read" },
  "kirk-11": { cite: "Kirk, Light and Photosynthesis in Aquatic Ecosystems, chapter 11 (extract)", how: "read" },
  "jones-elodea": { cite: "Jones et al., cost of bicarbonate use in Elodea nuttallii (abstract)", how: "read" },
  "maberly-madsen-2002": {
    cite: "Maberly & Madsen 2002, carbon uptake of freshwater plants, review (abstract)",
    how: "read",
  },
  "bain-proctor-1980": { cite: "Bain & Proctor 1980, New Phytologist 86:393-400 (abstract)", how: "read" },
  "van-1976": { cite: "Van, Haller & Bowes 1976, Plant Physiology 58:761 (first half of the abstract)", how: "read" },
  "hill-1979": { cite: "Hill 1979, Aquatic Botany 7:87, nutrient uptake and release (abstract)", how: "read" },
  "duarte-1990": { cite: "Duarte 1990, nutrient content of seagrasses (abstract)", how: "read" },
  "wang-uptake": {
    cite: "Wang et al., African Journal of Biotechnology, N and P uptake of four hydrophytes (abstract)",
    how: "read",
  },
  "submergence-table-4": {
    cite: "Growth of Cotula and Meionectes part and fully submerged, PMC3394642 Table 4",
    how: "read",
  },
  "leaf-area-geneva": {
    cite: "Surface area per dry weight of six submerged species, Lake Geneva (abstract)",
    how: "read",
  },
  "physa-periphyton": { cite: "Physa and periphyton in artificial streams (abstract)", how: "read" },
  "flooded-soil-1983": {
    cite: "N and P fluxes from a flooded organic soil, Soil Science 136:300-307 (1983), abstract",
    how: "read",
  },
  "zou-2018": {
    cite: "Zou et al. 2018, Open Journal of Soil Science 8:75-86, anaerobic N release (abstract)",
    how: "read",
  },
  "hardin-hippley": { cite: "Hardin & Hippley, repose slopes in cohesionless materials", how: "read" },
  "usace-em-1110-2-2504": { cite: "USACE EM 1110-2-2504 (1994), Table 3-1", how: "read" },
  "gw-project-31": {
    cite: "Groundwater Project, Hydrogeologic Properties of Earth Materials, section 3.1, Eq. 2-4",
    how: "read",
  },
  "brady-weil-2002": {
    cite: "Brady & Weil 2002, Table 8.1, exchange capacity of soil colloids (second-hand)",
    how: "read",
  },
  "mitchell-tur-1976": {
    cite: "Mitchell & Tur 1976, Journal of Applied Ecology, Salvinia molesta (abstract)",
    how: "read",
  },
  "yan-hunt-1999": { cite: "Yan & Hunt 1999, Annals of Botany 84:607, beta temperature response", how: "memory" },
  "rosso-1993": { cite: "Rosso et al. 1993, cardinal temperature model", how: "memory" },
  "hill-whittingham": { cite: "Hill & Whittingham, uptake through a boundary layer, quadratic", how: "memory" },
  "carignan-1982": { cite: "Carignan 1982, share of uptake by roots, as coded in PCLake", how: "read" },
  "goldman-brewer-1980": { cite: "Goldman & Brewer 1980, alkalinity and nitrogen source", how: "memory" },
  redfield: { cite: "Redfield ratio and its oxygen demand", how: "memory" },
  "wood-handbook-4": { cite: "USDA Forest Products Laboratory, Wood Handbook, chapter 4", how: "memory" },
  "iupac-weights": { cite: "IUPAC abridged standard atomic weights", how: "definition" },
  arithmetic: { cite: "mass balance, worked out here", how: "derived" },
  trade: { cite: "common practice, no source", how: "common practice" },
  chosen: { cite: "value or closure chosen for this project", how: "design value" },
};
