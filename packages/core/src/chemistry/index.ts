/** The door of the chemistry room. */

export { type ActivityClassName, type ActivityModel, activityCoefficient, daviesCoefficient } from "./activity.ts";
export {
  type AlkalinityChange,
  alkalinityAfter,
  alkalinityChangeOf,
  alkalinityChanges,
  alkalinityProcesses,
} from "./alkalinity-changes.ts";
export { ammoniumPk, ammoniumPkShift, unionisedShare } from "./ammonia.ts";
export {
  co2AtRest,
  co2Pressure,
  co2PressureFor,
  co2Saturated,
  co2Solubility,
  co2SolubilityPerLitre,
  type HenryForm,
  outdoorCo2,
  waterVapour,
} from "./atmosphere.ts";
export { type CalciteBalance, calciteBalanceClosed, calciteBalanceOpen, quickSaturation } from "./calcite.ts";
export { type CarbonateLoop, createCarbonateLoop } from "./carbonate-loop.ts";
export { ChemistryError, type ChemistryFault } from "./chemistry-error.ts";
export {
  type ConductingIon,
  type ConductivityMethod,
  compensateConductivity,
  conductivity,
  conductivityAt25,
  diffusionOf,
  limitingConductivities,
  onsagerConductivity,
  usualTemperatureFactor,
} from "./conductivity.ts";
export {
  conductivityOfPpm,
  type DissolvedSolids,
  dissolvedSolids,
  ionicStrengthFromConductivity,
  type MeterScale,
  meterPpm,
  meterScales,
} from "./dissolved-solids.ts";
export { log10K, type Reaction } from "./equilibrium-constants.ts";
export {
  type AcidSoil,
  type CationAmounts,
  type ExchangeBalance,
  type ExchangeCation,
  type ExchangedWater,
  exchangeBalance,
  exchangeCations,
  exchangeInWater,
  firstOrder,
  type SoilTaking,
  soilAcidity,
  soilTaking,
} from "./exchange-soil.ts";
export {
  alkalinityOfDegrees,
  convertHardness,
  degreesOfAlkalinity,
  type Hardness,
  type HardnessNotation,
  hardnessFromIons,
  hardnessNotations,
  meqPerDegree,
  mmolPerDegree,
} from "./hardness.ts";
export { type AcidSystem, type HydrogenRoot, hydrogenRoot, noAcids } from "./hydrogen-root.ts";
export {
  blueShare,
  bromothymolPk,
  type ColourReading,
  cellCo2,
  cellPh,
  co2OfColour,
  type IndicatorColour,
  indicatorColour,
  indicatorColours,
  type ReferenceSalt,
} from "./indicator-cell.ts";
export { dissolvedIronShare, type IronLigand, ironLigands, usualIronLimit } from "./iron-chelate.ts";
export { blendShare, type CarriedWater, evaporate, mixWaters, type Part } from "./mixing.ts";
export { type NitrousForm, nitrousPk, nitrousShare } from "./nitrous-acid.ts";
export { type PhosphateShares, phosphateShares } from "./phosphate.ts";
export { relations } from "./relations/index.ts";
export {
  type CalciumSalt,
  type CarbonateSalt,
  calciumSalts,
  carbonateSalts,
  type MagnesiumSalt,
  magnesiumSalts,
  type Recipe,
  type RecipeResult,
  remineralise,
  type WeighedSalt,
} from "./remineralise.ts";
export {
  type Dose,
  hydrateSolubility,
  mgPerDegree,
  type NutrientNotation,
  nutrientFactor,
  nutrientNotations,
  type Salt,
  type SaltFormula,
  type Solubility,
  type StockConflict,
  safeShare,
  saltFormulas,
  saltForRise,
  saltOf,
  salts,
  saltYield,
  solubility,
  stockConflicts,
} from "./salts.ts";
export { sources } from "./sources.ts";
export { type Given, type Speciation, speciate } from "./speciate.ts";
export { createSpeciator, type GivenPair, givenPairs, type Speciator, type SpeciatorOptions } from "./speciator.ts";
export {
  alkalinityFromIons,
  pureWater,
  type SpeciesInfo,
  speciesIndex,
  speciesNames,
  speciesTable,
  type TotalName,
  totalNames,
  type WaterTotals,
  waterTotals,
} from "./species.ts";
export {
  co2AfterDrop,
  co2AlkalinityFactor,
  dropFor,
  exactCo2,
  exactCoefficient,
  standardMethodsCo2,
  tradeCo2,
  usgsCo2,
} from "./trade-rule.ts";
export {
  type DebyeHuckel,
  debyeHuckel,
  perKilogram,
  perLitre,
  relativeViscosity,
  waterDensity,
  waterPermittivity,
} from "./water-properties.ts";
export {
  type ChargeCheck,
  type ReadReport,
  type Remark,
  type RemarkCode,
  type ReportFigure,
  type ReportLine,
  readReport,
  reportLines,
  reportNotations,
  type WaterReport,
} from "./water-report.ts";
