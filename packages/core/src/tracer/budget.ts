/** Where the light of a lamp of unit flux ends, shares of it in one band; all together with `balance` they make 1. */
export interface Budget {
  /** Never met the water: beside the opening, or sent upwards; of daylight what falls on the pane below the ground. */
  readonly spill: number;
  /** Thrown back by the surface, or by the pane that daylight falls on, on arrival. */
  readonly reflected: number;
  /** Out through the surface, or off what stands out of the water. */
  readonly top: number;
  /** Out through each bare wall. */
  readonly left: number;
  readonly right: number;
  readonly front: number;
  readonly back: number;
  /** Absorbed by the water, by leaves, by the ground, by solids, by opaque walls. */
  readonly water: number;
  readonly leaves: number;
  readonly ground: number;
  readonly solids: number;
  readonly walls: number;
  /** Weight that ending weak paths by lot took (above 0) or gave (below 0): noise about 0, kept so that the sum is exact. */
  readonly balance: number;
}

export const BUDGET: readonly (keyof Budget)[] = [
  "spill",
  "reflected",
  "top",
  "left",
  "right",
  "front",
  "back",
  "water",
  "leaves",
  "ground",
  "solids",
  "walls",
  "balance",
];

/** Places of the terms in a band's row of counters. */
export const [SPILL, REFLECTED, TOP, LEFT, RIGHT, FRONT, BACK, WATER, LEAVES, GROUND, SOLIDS, WALLS, BALANCE] =
  BUDGET.map((_, k) => k) as [number, number, number, number, number, number, number, number, number, number, number, number, number]; // biome-ignore format: one a term

/** The budget of one band from a row of counters. @param scale applied to each */
export function budgetOf(counters: Float64Array, band: number, scale: number): Budget {
  const entries = BUDGET.map((term, k) => [term, counters[band * BUDGET.length + k]! * scale] as const);
  return Object.fromEntries(entries) as unknown as Budget;
}
