import type { Source } from "../relation/index.ts";

/** Bibliography of the room. */
export const sources: Readonly<Record<string, Source>> = {
  "si-brochure": {
    cite: "BIPM 2019, The International System of Units (SI Brochure), 9th edition",
    how: "memory",
  },
  "nist-sp811": {
    cite: "Thompson & Taylor 2008, Guide for the Use of the SI, NIST Special Publication 811, Appendix B (figures seen in a public copy of the table)",
    how: "read",
  },
  "nist-hb44": { cite: "NIST Handbook 44, Appendix C, General Tables of Units of Measurement", how: "memory" },
  "iupac-weights": {
    cite: "Prohaska et al. 2022, Standard atomic weights of the elements 2021, Pure Appl. Chem. 94:573-600, abridged values",
    how: "memory",
  },
  "german-degree": { cite: "Definition: 1 German degree = 10 mg/L CaO", how: "read" },
  "hardness-scales": {
    cite: "Definitions: French degree = 10 mg/L CaCO3; English (Clark) degree = 1 grain CaCO3 per imperial gallon; grain CaCO3 per US gallon",
    how: "common practice",
  },
};
