/** What is asked of the drawings of a scape. */
import { clamp } from "./geometry.ts";

/** A length as it is written: "760" and "mm". */
export interface WrittenLength {
  readonly number: string;
  readonly unit: string;
}

export const inMillimetres = (metres: number): WrittenLength => ({
  number: String(Math.round(metres * 1000)),
  unit: "mm",
});

/** Photon flux density on the ground, row by row from the front pane, each from left to right, at the middles of cells. */
export interface LightMap {
  readonly columns: number;
  readonly rows: number;
  /** umol/m2/s */
  readonly values: Float64Array;
  /** For which lines are drawn, umol/m2/s. */
  readonly levels: readonly number[];
}

/** Something that can be taken hold of, by its `index` in the plan. */
export interface Selected {
  readonly kind: "piece" | "zone" | "lamp";
  readonly index: number;
}

export const figureOf = ({ kind, index }: Selected): string => `${kind}:${index}`;

export interface PlanShow {
  readonly light: boolean;
  readonly height: boolean;
  readonly planting: boolean;
  readonly lamps: boolean;
  readonly thirds: boolean;
  /** Keys of stones and wood. */
  readonly names: boolean;
  readonly dimensions: boolean;
}

export interface PlanOptions {
  /** Width of the page, px: 160 to 2400, usually 520. */
  readonly width?: number;
  readonly light?: LightMap | null;
  readonly show?: Partial<PlanShow>;
  readonly selected?: Selected | null;
  /** Writes a length given in m. */
  readonly length?: (metres: number) => WrittenLength;
}

export const usualPlan: PlanShow = {
  light: true,
  height: true,
  planting: true,
  lamps: true,
  thirds: false,
  names: false,
  dimensions: true,
};

export interface ElevationShow {
  readonly lamps: boolean;
  readonly animals: boolean;
  readonly planting: boolean;
  readonly dimensions: boolean;
  /** Letters of plants and keys of stones and wood. */
  readonly names: boolean;
  readonly thirds: boolean;
  readonly golden: boolean;
  /** How what is seen weighs left against right. */
  readonly balance: boolean;
  /** Where the ground meets the back pane, on the mean. */
  readonly horizon: boolean;
}

export interface ElevationOptions {
  /** Width of the page, px: 160 to 2400, usually 760. */
  readonly width?: number;
  readonly show?: Partial<ElevationShow>;
  readonly selected?: Selected | null;
  /** Writes a length given in m. */
  readonly length?: (metres: number) => WrittenLength;
}

export const usualElevation: ElevationShow = {
  lamps: true,
  animals: true,
  planting: true,
  dimensions: true,
  names: false,
  thirds: false,
  golden: false,
  balance: false,
  horizon: false,
};

/** Most lines of height on a plan. Design value. */
const MOST_LINES = 7;

/**
 * Heights for lines between two heights, m: round in the unit that lengths are written in, 3 to 7 of them where the
 * ground is not level.
 */
export function heightLevels(low: number, high: number, length: (metres: number) => WrittenLength): number[] {
  const perMetre = Number(length(10).number) / 10;
  const unit = Number.isFinite(perMetre) && perMetre > 0 ? 1 / perMetre : 0.001;
  const range = (high - low) / unit;
  // Under a millimetre a bed is level.
  if (!(high - low > 0.001)) return [];
  const power = 10 ** Math.floor(Math.log10(range / MOST_LINES));
  const step = [1, 2, 5, 10].map((k) => k * power).find((s) => range / s <= MOST_LINES) ?? 10 * power;
  const first = Math.ceil(low / unit / step + 1e-9);
  const count = clamp(Math.floor(high / unit / step - 1e-9) - first + 1, 0, MOST_LINES + 1);
  return Array.from({ length: count }, (_, k) => (first + k) * step * unit);
}
