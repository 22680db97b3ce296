export type AnimalKind = "fish" | "shrimp" | "snail";

/**
 * Shape of body, from which mass follows by length. Stout, armoured or plate-shaped bodies weigh more at one length.
 */
export type BodyClass =
  | "eel-like"
  | "elongated"
  | "fusiform"
  | "deep"
  | "disc"
  | "shrimp"
  | "round snail"
  | "coiled snail"
  | "oval snail"
  | "cone snail"
  | "tower snail";

/** One animal species. Every figure is common practice, rounded and reviewed; see the head of the table. */
export interface AnimalFact {
  /** Zoological name in lower case with dashes. */
  readonly id: string;
  /** Zoological name. */
  readonly name: string;
  readonly common: string;
  readonly kind: AnimalKind;
  readonly family: string;
  readonly bodyClass: BodyClass;
  /** Adult total length for planning, m: nose to tail tip, shrimp without feelers, longest side of a snail's shell. */
  readonly adultLength: number;
  /** Fewest to keep together. */
  readonly groupMin: number;
  readonly layer: "top" | "mid" | "bottom" | "all";
  /** Keeping range, °C. */
  readonly temperatureMin: number;
  readonly temperatureMax: number;
  readonly phMin: number;
  readonly phMax: number;
  /** General hardness, dGH. */
  readonly ghMin: number;
  readonly ghMax: number;
  readonly flow: "still" | "gentle" | "moderate" | "strong";
  readonly temperament: "peaceful" | "semi" | "territorial" | "predatory";
  readonly diet:
    | "omnivore"
    | "herbivore"
    | "carnivore"
    | "micro-carnivore"
    | "grazer"
    | "detritivore"
    | "filter-feeder";
  readonly plantSafe: "yes" | "partly" | "no";
  readonly shrimpSafe: "yes" | "adults only" | "no";
  /** Smallest tank, L, and its length, m. */
  readonly minTankL: number;
  readonly minTankLength: number;
  readonly how: "common practice";
  readonly note?: string;
  readonly synonyms: readonly string[];
}
