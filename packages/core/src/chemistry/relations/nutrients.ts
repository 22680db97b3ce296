import { relation } from "../../relation/index.ts";
import { ammoniumPk, ammoniumPkShift, unionisedShare } from "../ammonia.ts";
import { dissolvedIronShare, type IronLigand, ironLigands, usualIronLimit } from "../iron-chelate.ts";
import { type NitrousForm, nitrousPk, nitrousShare } from "../nitrous-acid.ts";
import { phosphateShares } from "../phosphate.ts";
import { ionicStrength, out, ph, quantity, waterTemperature } from "./usual-inputs.ts";

const room = "chemistry";
const strength = { ...ionicStrength, default: 0 } as const;

export const nutrientRelations = [
  relation({
    id: "ammonia-unionised",
    title: "Un-ionised ammonia",
    room,
    inputs: {
      ph,
      temperature: { ...waterTemperature, max: 50 },
      ionic_strength: strength,
      total: quantity("total ammonia nitrogen", "mg/L", 0, 1000, 1),
    },
    outputs: {
      percent: out("un-ionised share", "%"),
      nh3_n: out("un-ionised ammonia nitrogen", "mg/L"),
      pka: out("pKa at zero ionic strength", "1"),
      pka_shift: out("rise of the pKa by ionic strength", "1"),
    },
    equation: "pKa = 0.09018 + 2729.92/T, T = t + 273.2; share = 1/(1 + 10^(pKa - pH))",
    sources: ["emerson-1975", "truesdell-jones-1974"],
    validity: "0 to 50 °C; the published table is for zero ionic strength.",
    caution: "Un-ionised ammonia kills fish: limits differ by species and life stage; treat any reading as urgent.",
    compute: (i) => {
      const share = unionisedShare(i.ph, i.temperature, i.ionic_strength);
      return {
        percent: 100 * share,
        nh3_n: share * i.total,
        pka: ammoniumPk(i.temperature),
        pka_shift: ammoniumPkShift(i.ionic_strength, i.temperature),
      };
    },
  }),
  relation({
    id: "nitrous-acid",
    title: "Nitrous acid of nitrite",
    room,
    inputs: {
      ph,
      temperature: { ...waterTemperature, max: 40 },
      form: { kind: "choice", label: "constant", options: ["da-silva", "anthonisen"], default: "da-silva" },
    },
    outputs: { percent: out("share of nitrite that is HNO2", "%"), pka: out("pKa", "1") },
    equation: "share = 1/(1 + 10^(pH - pKa))",
    sources: ["da-silva-2006", "anthonisen-1976"],
    validity: "Known to a factor 1.5: the published constants differ.",
    compute: ({ ph: p, temperature, form }) => ({
      percent: 100 * nitrousShare(p, temperature, form as NitrousForm),
      pka: nitrousPk(temperature, form as NitrousForm),
    }),
  }),
  relation({
    id: "phosphate-forms",
    title: "Forms of phosphate",
    room,
    inputs: { ph, temperature: waterTemperature, ionic_strength: strength },
    outputs: {
      h3po4: out("share of H3PO4", "1"),
      h2po4: out("share of H2PO4", "1"),
      hpo4: out("share of HPO4", "1"),
      po4: out("share of PO4", "1"),
      pk2: out("effective second pK", "1"),
    },
    equation: "three dissociations, pK 2.168, 7.207, 12.346 at 25 °C, with activity",
    sources: ["wq4f", "truesdell-jones-1974"],
    validity: "Pairs with calcium and magnesium left out.",
    compute: (i) => ({ ...phosphateShares(i.ph, i.temperature, i.ionic_strength) }),
  }),
  relation({
    id: "iron-held-by-chelate",
    title: "Share of iron that stays dissolved",
    room,
    inputs: {
      ligand: { kind: "choice", label: "chelate", options: ironLigands },
      ph,
      calcium: quantity("calcium", "mmol/L", 0, 20, 1),
      iron: quantity("iron", "mg/L", 0.001, 10, 0.1),
    },
    outputs: {
      percent: out("dissolved at equilibrium", "%"),
      usual_limit: out("highest pH at which it is usually relied on", "1"),
    },
    equation:
      "share = 1/(1 + 10^(2.7 (pH - middle))); middle 7.2 EDTA, 8.0 DTPA, 9.5 EDDHA, less 0.37 per decade of Ca",
    sources: ["nist-46", "ifas-chelates"],
    validity: "Reached over days; light destroys chelates sooner. DTPA to 0.3 pH.",
    compute: (i) => ({
      percent: 100 * dissolvedIronShare(i.ligand as IronLigand, i.ph, i.calcium, i.iron),
      usual_limit: usualIronLimit[i.ligand as IronLigand],
    }),
  }),
] as const;
