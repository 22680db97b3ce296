import { relation } from "../../relation/index.ts";
import {
  type ConductingIon,
  compensateConductivity,
  conductivity,
  conductivityAt25,
  diffusionOf,
  limitingConductivities,
  onsagerConductivity,
} from "../conductivity.ts";
import { conductivityOfPpm, dissolvedSolids, ionicStrengthFromConductivity, meterPpm } from "../dissolved-solids.ts";
import { molarMasses as M } from "../molar-masses.ts";
import { speciate } from "../speciate.ts";
import { totalNames, type WaterTotals } from "../species.ts";
import { perKilogram } from "../water-properties.ts";
import { out, ph, quantity, waterTemperature } from "./usual-inputs.ts";

const room = "chemistry";
const mmol = (label: string) => quantity(label, "mmol/L", 0, 200, 0);
const mg = (label: string) => quantity(label, "mg/L", 0, 2e4, 0);

const conductivityOutputs = {
  ec: out("conductivity at the water's temperature", "uS/cm"),
  ec25: out("conductivity at 25 °C", "uS/cm"),
  ec_second: out("second opinion at the water's temperature", "uS/cm"),
  ionic_strength: out("ionic strength", "mol/kg"),
  solids: out("sum of ions", "mg/L"),
  residue: out("evaporated residue", "mg/L"),
} as const;

function told(totals: WaterTotals, t: number, given: Parameters<typeof speciate>[2]) {
  const s = speciate(totals, t, given);
  const solids = dissolvedSolids(s);
  return {
    ec: conductivity(s),
    ec25: conductivityAt25(s),
    ec_second: conductivity(s, "mcc-2012"),
    ionic_strength: s.ionicStrength,
    solids: solids.ions,
    residue: solids.residue,
  };
}

export const conductivityRelations = [
  relation({
    id: "conductivity-of-ions",
    title: "Conductivity from ions",
    room,
    inputs: {
      ca: mmol("calcium"),
      mg: mmol("magnesium"),
      na: mmol("sodium"),
      k: mmol("potassium"),
      cl: mmol("chloride"),
      so4: mmol("sulfate"),
      no3: mmol("nitrate"),
      po4: mmol("phosphate"),
      nh4: mmol("ammonium"),
      b: mmol("boron"),
      alk: quantity("alkalinity", "meq/L", -100, 100, 0),
      dic: mmol("dissolved inorganic carbon"),
      temperature: waterTemperature,
    },
    outputs: conductivityOutputs,
    equation: "κ = 3.756e13 (η25/ηt) Σ m z² D(t) exp(-a A z √I/(1 + B a2 √I/(1 + I^¾)))",
    sources: ["usgs-phreeqc-3", "mccleskey-2012", "kestin-1978"],
    validity: "To about 5000 uS/cm.",
    compute: (i) => {
      const totals = Object.fromEntries(totalNames.map((n) => [n, perKilogram(i[n] / 1000, i.temperature)])) as Record<
        keyof WaterTotals,
        number
      >;
      return told(totals, i.temperature, {
        dic: perKilogram(i.dic / 1000, i.temperature),
        alk: perKilogram(i.alk / 1000, i.temperature),
      });
    },
  }),
  relation({
    id: "conductivity-of-analysis",
    title: "Conductivity from an analysis in mg/L",
    room,
    inputs: {
      ca: mg("calcium"),
      mg: mg("magnesium"),
      na: mg("sodium"),
      k: mg("potassium"),
      nh4: mg("ammonium"),
      cl: mg("chloride"),
      so4: mg("sulfate"),
      no3: mg("nitrate"),
      hco3: mg("titrated alkalinity as HCO3"),
      ph,
      temperature: waterTemperature,
    },
    outputs: conductivityOutputs,
    equation: "as conductivity from ions",
    sources: ["usgs-phreeqc-3", "mccleskey-2012"],
    compute: (i) => {
      const molal = (x: number, mass: number) => perKilogram(x / mass / 1000, i.temperature);
      return told(
        {
          ca: molal(i.ca, M.ca),
          mg: molal(i.mg, M.mg),
          na: molal(i.na, M.na),
          k: molal(i.k, M.k),
          nh4: molal(i.nh4, M.nh4),
          cl: molal(i.cl, M.cl),
          so4: molal(i.so4, M.so4),
          no3: molal(i.no3, M.no3),
          po4: 0,
          b: 0,
        },
        i.temperature,
        // Without alkalinity there is no carbonate to tell from the pH.
        i.hco3 > 0 ? { ph: i.ph, alk: molal(i.hco3, M.hco3) } : { ph: i.ph, dic: 0 },
      );
    },
  }),
  relation({
    id: "conductivity-at-25",
    title: "Conductivity brought to 25 °C by a factor",
    room,
    inputs: {
      ec: quantity("conductivity read", "uS/cm", 0, 1e6),
      temperature: waterTemperature,
      factor: quantity("temperature factor", "1/K", 0.01, 0.03, 0.0191),
    },
    outputs: { ec25: out("conductivity at 25 °C", "uS/cm") },
    equation: "EC25 = EC/(1 + α (t - 25))",
    sources: ["standard-methods-2510", "hayashi-2004"],
    validity: "0 to 35 °C; natural waters 0.0175 to 0.0224.",
    compute: ({ ec, temperature, factor }) => ({ ec25: compensateConductivity(ec, temperature, factor) }),
  }),
  relation({
    id: "tds-meter-scales",
    title: "What ppm meters show",
    room,
    inputs: {
      ec25: quantity("conductivity at 25 °C", "uS/cm", 0, 1e6),
      hard_share: quantity("share of calcium and magnesium among the cations", "1", 0, 1, 0.7),
    },
    outputs: {
      scale_500: out("500 scale", "mg/L"),
      scale_640: out("640 scale", "mg/L"),
      scale_700: out("700 scale", "mg/L"),
      ionic_strength: out("ionic strength, guessed", "mol/kg"),
    },
    equation: "0.5, 0.64, 0.7 mg/L per uS/cm; I = (1.1 to 1.6)e-5 EC25",
    sources: ["trade-tds"],
    validity: "True sums of ions are 0.5 to 0.9 mg/L per uS/cm. Hardness cannot be told from conductivity.",
    compute: ({ ec25, hard_share }) => ({
      scale_500: meterPpm(ec25, "500"),
      scale_640: meterPpm(ec25, "640"),
      scale_700: meterPpm(ec25, "700"),
      ionic_strength: ionicStrengthFromConductivity(ec25, hard_share),
    }),
  }),
  relation({
    id: "conductivity-of-ppm-reading",
    title: "Conductivity behind a ppm reading",
    room,
    inputs: {
      ppm: quantity("reading", "mg/L", 0, 1e6),
      scale: { kind: "choice", label: "meter's scale", options: ["500", "640", "700"] },
    },
    outputs: { ec25: out("conductivity at 25 °C", "uS/cm") },
    equation: "EC25 = reading / scale",
    sources: ["trade-tds"],
    compute: ({ ppm, scale }) => ({ ec25: conductivityOfPpm(ppm, scale as "500" | "640" | "700") }),
  }),
  relation({
    id: "molar-conductivity-limiting-law",
    title: "Molar conductivity of a 1:1 salt in thin solution",
    room,
    inputs: {
      limiting: quantity("limiting conductivity, S cm2/mol", "1", 10, 500),
      concentration: quantity("concentration", "mol/L", 0, 0.01),
    },
    outputs: { lambda: out("molar conductivity, S cm2/mol", "1") },
    equation: "Λ = Λ° - (60.20 + 0.229 Λ°) √c",
    sources: ["onsager"],
    validity: "25 °C, to 0.002 mol/L.",
    compute: ({ limiting, concentration }) => ({ lambda: onsagerConductivity(limiting, concentration) }),
  }),
  relation({
    id: "ion-mobility",
    title: "Limiting conductivity and diffusion of an ion at 25 °C",
    room,
    inputs: { ion: { kind: "choice", label: "ion", options: Object.keys(limitingConductivities) } },
    outputs: {
      lambda: out("limiting conductivity per equivalent, S cm2/mol", "1"),
      diffusion: out("diffusion", "m2/s"),
    },
    equation: "D = R T λ/(z F²)",
    sources: ["crc-conductivity"],
    compute: ({ ion }) => {
      const { charge, lambda } = limitingConductivities[ion as ConductingIon];
      return { lambda, diffusion: diffusionOf(lambda, charge) * 1e-9 };
    },
  }),
] as const;
