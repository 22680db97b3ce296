import type { Source } from "../relation/index.ts";

/** Bibliography of the facts room. */
export const sources: Readonly<Record<string, Source>> = {
  "nielsen-sand-jensen-1991": {
    cite: "Nielsen & Sand-Jensen 1991, Aquatic Botany 39:109-120, growth of 14 submerged species (abstract)",
    how: "read",
  },
  "andersen-pedersen-2002": {
    cite: "Andersen & Pedersen 2002, Hydrobiologia 477:163-170, Riccia under light and CO2 (abstract)",
    how: "read",
  },
  "bain-proctor-1980": {
    cite: "Bain & Proctor 1980, New Phytologist 86:393-400, carbon sources of bryophytes (abstract)",
    how: "read",
  },
  "froese-2014": {
    cite: "Froese, Thorson & Reyes 2014, Journal of Applied Ichthyology 30:78, length-weight priors by body shape",
    how: "memory",
  },
  "rock-densities": { cite: "Densities of common rock types, geology reference table", how: "read" },
  "gw-project-31": {
    cite: "Groundwater Project, Hydrogeologic Properties of Earth Materials, section 3.1, Eq. 2-4",
    how: "read",
  },
  "usace-em-1110-2-2504": { cite: "USACE EM 1110-2-2504 (1994), Table 3-1, angles of friction", how: "read" },
  "usbr-hyd-299": {
    cite: "US Bureau of Reclamation HYD-299 (1950), angle of repose of noncohesive material",
    how: "read",
  },
  "hardin-hippley": { cite: "Hardin & Hippley, repose slopes in cohesionless materials", how: "read" },
  "wood-handbook-4": { cite: "USDA Forest Products Laboratory, Wood Handbook, chapter 4", how: "memory" },
  trade: { cite: "common practice, no source", how: "common practice" },
  recalled: { cite: "from memory", how: "memory" },
  chosen: { cite: "value chosen for this project", how: "design value" },
};
