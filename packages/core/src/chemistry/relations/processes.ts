import { relation } from "../../relation/index.ts";
import { alkalinityAfter, alkalinityChangeOf, alkalinityProcesses } from "../alkalinity-changes.ts";
import { exchangeBalance, exchangeInWater, firstOrder, soilAcidity, soilTaking } from "../exchange-soil.ts";
import { alkalinityOfDegrees, meqPerDegree } from "../hardness.ts";
import { molarMasses as M } from "../molar-masses.ts";
import { speciate } from "../speciate.ts";
import { pureWater } from "../species.ts";
import { perKilogram } from "../water-properties.ts";
import { alkalinity, ionInputs, out, quantity, totalsOf, waterTemperature } from "./usual-inputs.ts";

const room = "chemistry";
const process = { kind: "choice", label: "process", options: alkalinityProcesses } as const;
const mmol = (label: string) => quantity(label, "mmol/kg", 0, 1000, 0);
const onSoil = (label: string) => quantity(label, "mol", 0, 1000, 0);

export const processRelations = [
  relation({
    id: "alkalinity-change",
    title: "What a process does to alkalinity",
    room,
    inputs: { process },
    outputs: {
      per_mole: out("alkalinity per mole", "1"),
      carbon_per_mole: out("inorganic carbon per mole", "1"),
      meq_per_mg: out("alkalinity per mg, meq/mg", "1"),
      caco3_per_mg: out("alkalinity as CaCO3 per mg", "mg/mg"),
      dkh_per_mg: out("dKH per mg/L", "1"),
    },
    equation: "counted by charges: what leaves as a cation takes alkalinity, what leaves as an anion gives it",
    sources: ["wolf-gladrow-2007", "goldman-brewer-1980", "epa-nitrification"],
    validity: "Counted of N, P as PO4, S, cations, urea, C, CO2, H or OH as the name says; cell growth left out.",
    compute: (i) => {
      const c = alkalinityChangeOf(i.process);
      const meq = c.alk / c.mass;
      return {
        per_mole: c.alk,
        carbon_per_mole: c.dic,
        meq_per_mg: meq,
        caco3_per_mg: (meq * M.caco3) / 2,
        dkh_per_mg: meq / meqPerDegree,
      };
    },
  }),
  relation({
    id: "alkalinity-after-process",
    title: "Alkalinity after a process",
    room,
    inputs: {
      process,
      kh: quantity("carbonate hardness before", "dKH", -100, 100),
      amount: quantity("amount of what the process is counted by", "mg/L", 0, 1e4),
    },
    outputs: { alk: out("alkalinity after", "meq/L"), kh: out("carbonate hardness after", "dKH") },
    equation: "Alk + amount/M · eq per mole",
    caution: "Strong acids and lyes burn eyes and skin: follow the maker's safety sheet.",
    sources: ["wolf-gladrow-2007"],
    compute: (i) => {
      const alk = alkalinityAfter(alkalinityOfDegrees(i.kh), i.process, i.amount);
      return { alk, kh: alk / meqPerDegree };
    },
  }),
  relation({
    id: "nitrification-at-held-co2",
    title: "pH after nitrification while CO2 is held",
    room,
    inputs: {
      ...ionInputs,
      alk: alkalinity,
      nitrogen: quantity("ammonium chloride added and nitrified, as N", "mg/L", 0, 100),
      co2: quantity("CO2 held", "mg/L", 0.01, 1000),
      temperature: waterTemperature,
    },
    outputs: { alk: out("alkalinity after", "meq/kg"), ph: out("pH after", "1") },
    equation: "Alk - 2 N; pH from CO2 and alkalinity",
    sources: ["wolf-gladrow-2007", "pb82"],
    compute: (i) => {
      const t = i.temperature;
      const n = perKilogram(i.nitrogen / M.n / 1000, t);
      const totals = totalsOf(i);
      const alk = i.alk / 1000 - 2 * n;
      const after = { ...totals, cl: totals.cl + n, no3: totals.no3 + n };
      const s = speciate(after, t, { co2: perKilogram(i.co2 / M.co2 / 1000, t), alk });
      return { alk: alk * 1000, ph: s.ph };
    },
  }),
  relation({
    id: "soil-cation-exchange",
    title: "A water and a cation exchanger brought to balance",
    room,
    inputs: {
      water: quantity("water", "kg", 0.001, 1e6),
      ca: mmol("calcium before"),
      mg: mmol("magnesium before"),
      na: mmol("sodium before"),
      k: mmol("potassium before"),
      nh4: mmol("ammonium before"),
      soil_ca: onSoil("calcium on the soil before"),
      soil_mg: onSoil("magnesium on the soil before"),
      soil_na: onSoil("sodium on the soil before"),
      soil_k: onSoil("potassium on the soil before"),
      soil_nh4: onSoil("ammonium on the soil before"),
      so4: mmol("sulfate, which pairs"),
      alk: quantity("alkalinity, which pairs", "meq/kg", 0, 100, 0),
      dic: mmol("dissolved inorganic carbon"),
      pairs: { kind: "choice", label: "ion pairs counted", options: ["yes", "no"], default: "yes" },
      temperature: waterTemperature,
    },
    outputs: {
      ca: out("calcium after", "mmol/kg"),
      mg: out("magnesium after", "mmol/kg"),
      na: out("sodium after", "mmol/kg"),
      k: out("potassium after", "mmol/kg"),
      nh4: out("ammonium after", "mmol/kg"),
    },
    equation: "share_i = K_i m_i α^z, shares sum to 1 (Gaines and Thomas)",
    sources: ["usgs-phreeqc-3", "brady-weil-2002"],
    validity: "Fast exchange, no acidity. Without pairs right to 3 % on main ions, 6 % on traces.",
    compute: (i) => {
      const before = { ca: i.ca / 1000, mg: i.mg / 1000, na: i.na / 1000, k: i.k / 1000, nh4: i.nh4 / 1000 };
      const held = { ca: i.soil_ca, mg: i.soil_mg, na: i.soil_na, k: i.soil_k, nh4: i.soil_nh4 };
      const { dissolved } =
        i.pairs === "no"
          ? exchangeBalance(i.water, before, held, i.temperature)
          : exchangeInWater(
              i.water,
              {
                totals: { ...pureWater, ...before, so4: i.so4 / 1000 },
                alk: i.alk / 1000,
                dic: i.dic / 1000,
                temperature: i.temperature,
              },
              held,
            ).balance;
      return {
        ca: dissolved.ca * 1000,
        mg: dissolved.mg * 1000,
        na: dissolved.na * 1000,
        k: dissolved.k * 1000,
        nh4: dissolved.nh4 * 1000,
      };
    },
  }),
  relation({
    id: "soil-takes-alkalinity",
    title: "Alkalinity an acid soil takes",
    room,
    inputs: {
      volume: quantity("water", "L", 0.1, 1e6),
      mass: quantity("dry soil", "kg", 0.001, 1e5),
      capacity: quantity("buffer capacity, eq per kg and pH", "mol/kg", 1e-4, 1, 0.03),
      soil_ph: quantity("pH the soil is at", "1", 3, 9),
      co2: quantity("CO2 held", "mg/L", 0.1, 1000),
      kh: quantity("carbonate hardness before", "dKH", 0.001, 60),
      changes: quantity("times all water has been changed before", "1", 0, 1000, 0),
      temperature: waterTemperature,
    },
    outputs: {
      kh: out("carbonate hardness after", "dKH"),
      ph: out("pH after", "1"),
      taken: out("alkalinity taken this time, eq", "mol"),
      released: out("CO2 released this time", "mmol/L"),
    },
    equation: "V (Alk0 - Alk)/1000 = M β (pH - pHs); pH = pK1 + log10(Alk/CO2); pHs becomes pH at each change",
    sources: ["soil-buffer", "pb82"],
    validity: "Calibrate β and pHs by two jar tests. Half-time 0.5 to 3 d. As much hardness goes as alkalinity.",
    compute: (i) => {
      const soil = { mass: i.mass, capacity: i.capacity, ph: i.soil_ph };
      const alk = alkalinityOfDegrees(i.kh);
      let result = soilTaking(i.volume, alk, i.co2, soil, i.temperature);
      for (let n = 0; n < Math.round(i.changes); n++) {
        soil.ph = result.ph;
        result = soilTaking(i.volume, alk, i.co2, soil, i.temperature);
      }
      return { kh: result.alk / meqPerDegree, ph: result.ph, taken: result.taken, released: result.released };
    },
  }),
  relation({
    id: "soil-acidity",
    title: "Most acidity a soil can give",
    room,
    inputs: {
      exchange_capacity: quantity("cation exchange capacity", "cmol/kg", 0, 500),
      base_saturation: quantity("base saturation", "1", 0, 1),
      mass: quantity("dry soil", "kg", 0, 1e5),
    },
    outputs: { acidity: out("acidity, eq", "mol") },
    equation: "CEC (1 - base saturation) M",
    sources: ["brady-weil-2002"],
    compute: (i) => ({ acidity: soilAcidity(i.exchange_capacity, i.base_saturation, i.mass) }),
  }),
  relation({
    id: "soil-approach",
    title: "Way to the soil's balance",
    room,
    inputs: {
      start: quantity("carbonate hardness at first", "dKH", 0, 100),
      end: quantity("carbonate hardness at balance", "dKH", 0, 100),
      half_time: quantity("half-time", "d", 0.01, 100, 1.5),
      time: quantity("time", "d", 0, 1000),
    },
    outputs: { kh: out("carbonate hardness", "dKH") },
    equation: "end + (start - end) 2^(-time/half-time)",
    sources: ["soil-buffer"],
    validity: "Half-time 0.5 to 3 d (common practice).",
    compute: (i) => ({ kh: firstOrder(i.start, i.end, i.half_time, i.time) }),
  }),
] as const;
