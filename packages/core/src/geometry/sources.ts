import type { Source } from "../relation/index.ts";

/** Bibliography of the geometry room. */
export const sources: Readonly<Record<string, Source>> = {
  geometry: { cite: "Geometry of a box and of a surface straight along its edges", how: "derived" },
  "unit-definitions": {
    cite: "Exact definitions: inch 25.4 mm, US gallon 231 in3, imperial gallon 4.54609 L (NIST SP 811; UK weights and measures)",
    how: "definition",
  },
  "float-glass": { cite: "Density of soda-lime float glass 2500 kg/m3, EN 572", how: "read" },
  "kell-1975": { cite: "Kell 1975, J. Chem. Eng. Data 20:97-105: water at 25 °C", how: "memory" },
  "groundwater-project": {
    cite: "Groundwater Project, Hydrogeologic Properties of Earth Materials, section 3.1 eq. 2-4",
    how: "read",
  },
  "soil-handbooks": { cite: "Soil and rock handbooks: densities and porosities of common materials", how: "memory" },
  "rock-densities": { cite: "Table of densities of common rock types, geology reference page", how: "read" },
  "slope-repose": {
    cite: "US Bureau of Reclamation HYD-299 (1950), angle of repose; Hardin & Hippley, repose slopes in cohesionless materials",
    how: "read",
  },
  "friction-angles": { cite: "USACE EM 1110-2-2504 (1994) table 3-1, friction angles of sands", how: "read" },
  "wood-handbook": { cite: "USDA Wood Handbook ch. 4: cell-wall specific gravity 1.54, moisture", how: "memory" },
  "mass-balance": { cite: "Balance of a dissolved substance over water changes and top-up", how: "derived" },
  "trade-practice": {
    cite: "Common practice of the trade, no source: settling of slopes, nominal and real volumes, soft top-up",
    how: "common practice",
  },
  "keeper-report": { cite: "Keeper's report, public list archive", how: "read" },
  design: { cite: "Chosen for this room: free slopes at a factor of safety of 1.4", how: "design value" },
};
