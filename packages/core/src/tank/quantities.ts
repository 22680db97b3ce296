/**
 * The quantities that processes read and provide. Processes never name each other: they meet only here.
 * All values are in the unit stated, at one instant.
 */
export const quantities = {
  waterMass: { unit: "kg", label: "mass of water" },
  volume: { unit: "m3", label: "volume of water" },
  temperature: { unit: "°C", label: "water temperature" },
  dic: { unit: "mol/kg", label: "dissolved inorganic carbon" },
  alkalinity: { unit: "mol/kg", label: "alkalinity" },
  oxygen: { unit: "mol/m3", label: "dissolved oxygen" },
  waste: { unit: "mol", label: "organic carbon in waste" },
  co2: { unit: "mol/m3", label: "dissolved carbon dioxide" },
  bicarbonate: { unit: "mol/m3", label: "bicarbonate" },
  ph: { unit: "1", label: "pH" },
  lamp: { unit: "1", label: "output of the lamps, share of all of them at full" },
  lit: { unit: "1", label: "lamp on" },
  valve: { unit: "1", label: "gas valve open" },
  airOn: { unit: "1", label: "air stone on" },
  room: { unit: "°C", label: "room temperature" },
  co2AtAir: { unit: "mol/m3", label: "carbon dioxide in balance with the room" },
  oxygenAtAir: { unit: "mol/m3", label: "oxygen in balance with the room" },
  light: { unit: "umol/m2/s", label: "light at the substrate" },
  lampHeat: { unit: "W", label: "heat of the lamps that stays in the water" },
  heaterDuty: { unit: "1", label: "share of time the heater is on" },
  uptakeShare: { unit: "1", label: "plants' growth rate, share of what light and warmth allow at 30 mg/L CO2" },
} as const;

export type QuantityId = keyof typeof quantities;

/** Index of each quantity in the flat array that the processes share. */
export const Q = Object.fromEntries(Object.keys(quantities).map((id, i) => [id, i])) as {
  readonly [K in QuantityId]: number;
};

export const quantityCount = Object.keys(quantities).length;

/** What is conserved; each has a ledger. */
export const conserved = {
  carbon: { unit: "mol", label: "carbon" },
  oxygen: { unit: "mol", label: "oxygen (O2)" },
  alkalinity: { unit: "mol", label: "alkalinity" },
  heat: { unit: "J", label: "heat" },
  water: { unit: "kg", label: "water" },
} as const;

export type ConservedId = keyof typeof conserved;

/** The states: amounts, never concentrations, so that evaporation or top-up can neither lose nor make matter. */
export const states = {
  water: { unit: "kg", label: "water", counts: "water", minimum: 0 },
  heat: {
    unit: "J",
    label: "heat above 0 °C of water, bed and glass",
    counts: "heat",
    minimum: Number.NEGATIVE_INFINITY,
  },
  dic: { unit: "mol", label: "dissolved inorganic carbon", counts: "carbon", minimum: 0 },
  alkalinity: { unit: "mol", label: "alkalinity", counts: "alkalinity", minimum: Number.NEGATIVE_INFINITY },
  oxygen: { unit: "mol", label: "dissolved oxygen", counts: "oxygen", minimum: 0 },
  waste: { unit: "mol", label: "organic carbon in waste", counts: "carbon", minimum: 0 },
} as const satisfies Record<string, { unit: string; label: string; counts: ConservedId; minimum: number }>;

export type StateId = keyof typeof states;

export const stateIds = Object.keys(states) as readonly StateId[];

/** Index of each state in the state vector. */
export const S = Object.fromEntries(stateIds.map((id, i) => [id, i])) as { readonly [K in StateId]: number };

/** Places outside the water that matter and heat come from or go to. */
export type Outside = "room air" | "cylinder" | "plants" | "animals" | "bed" | "food" | "mains" | "top-up";
