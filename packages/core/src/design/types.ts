import type { SectionFigure, SectionScene } from "../drawing/index.ts";
import type { Change, Known, Plan } from "../plan/index.ts";
import type { SeriesId } from "../tank/index.ts";
import type { UnitSystem } from "../units/index.ts";

export type { UnitSystem };

/** How a figure is known: as an input is, or computed from inputs. */
export type FigureKnown = Known | "computed";

/** One verdict word beside a figure. */
export type Verdict = "low" | "fine" | "high" | "cannot tell";

/** A number ready for reading: rounded to what its inputs deserve, in the reader's units. */
export interface Shown {
  readonly text: string;
  readonly unit: string;
}

export interface WorkingTerm {
  /** "=" stands before the first source of the result; the result itself has none. */
  readonly sign: "" | "=" | "+" | "−" | "×" | "÷";
  readonly value: Shown;
  /** Length of the bar under the term, relative to the largest; 0 to 1. */
  readonly share: number;
  readonly label: string;
}

export interface WorkingInput {
  readonly label: string;
  readonly value: Shown;
  readonly known: FigureKnown;
  readonly note?: string;
  /** Field of the plan that holds it, e.g. "co2.dissolved"; it can be replaced there. */
  readonly path?: string;
  /** Why the default is what it is. */
  readonly reason?: string;
}

/** How a figure came about, as a ledger in words. */
export interface Working {
  readonly title: string;
  /** Unit and span: "mg/L, from the valve at 08:00 to the lamp at 10:00". */
  readonly span: string;
  readonly terms: readonly WorkingTerm[];
  readonly inputs: readonly WorkingInput[];
  /** "Likely 16 to 21 mg/L; the share dissolved widens it most." */
  readonly doubt?: string;
  readonly equation: string;
  /** Full citations with how they are held. */
  readonly sources: readonly string[];
  /** Name of a relation for `lentic calc`, where one gives the same. */
  readonly relation?: string;
  readonly caution?: string;
}

export interface Figure {
  readonly id: string;
  readonly label: string;
  /** Number in `unit`, unrounded. */
  readonly value: number;
  /** Unit of `value`, `low` and `high`. */
  readonly unit: string;
  readonly low?: number;
  readonly high?: number;
  readonly shown: Shown;
  readonly verdict?: Verdict;
  /** "low, 16 to 21" */
  readonly note?: string;
  readonly known: FigureKnown;
  readonly path?: string;
  readonly working: Working;
}

/** A limit of what lives in the tank, drawn as a hatched band with words. */
export interface Limit {
  readonly series: "co2" | "oxygen" | "ph" | "temperature";
  readonly side: "over" | "under";
  readonly value: number;
  /** "over 30: Boraras breathe hard" */
  readonly words: string;
  readonly source: string;
}

/** A change that answers a finding, tried by the model before it is offered. */
export interface Remedy {
  readonly id: string;
  /** "Open the valve at 07:20" */
  readonly text: string;
  readonly changes: readonly Change[];
  /** What the day becomes: "the day then tops out at 27.5 mg/L". */
  readonly effect: string;
  /** False when it breaks an animals' limit. */
  readonly safe: boolean;
}

export type Severity = "note" | "caution" | "stop";

export interface Finding {
  readonly id: string;
  readonly severity: Severity;
  readonly title: string;
  /** Id of the figure it judges. */
  readonly figure?: string;
  /** Distance from the limit or wish, positive = on the good side. */
  readonly margin?: Shown;
  readonly reason: string;
  readonly next: readonly Remedy[];
  readonly caution?: string;
}

/** A highest or lowest point of a curve, labelled as in a tide table. */
export interface Extreme {
  readonly series: "co2" | "oxygen" | "ph" | "temperature";
  readonly kind: "high" | "low";
  /** Hours. */
  readonly at: number;
  readonly value: number;
}

/** Low and high edge of a curve's likely range. */
export interface Band {
  readonly low: Float64Array;
  readonly high: Float64Array;
}

export type BandedSeries = "co2" | "oxygen" | "ph" | "temperature";

/** CO2 wanted while the lamp is on. */
export interface Wanted {
  readonly value: number;
  readonly from: number;
  readonly to: number;
  /** CO2 at lights-on, mg/L. */
  readonly atOn: number;
  /** Hour at which it is reached while the gas runs, null when never. */
  readonly reachedAt: number | null;
  /** Minutes after lights-on; 0 when in time. */
  readonly late: number;
}

/** The day's curves: what must follow the finger. */
export interface DayCurves {
  readonly hours: Float64Array;
  readonly series: Readonly<Record<SeriesId, Float64Array>>;
  readonly extremes: readonly Extreme[];
  readonly wanted: Wanted | null;
  readonly repeats: boolean;
  /** States at midnight: a good start for the next search. */
  readonly start: Float64Array;
}

/** One part of the leading sentence: words, or a remedy to try. */
export type SentencePart = { readonly words: string } | { readonly remedy: string; readonly words: string };

/** All that is told of a tank's day; screen, command line and paper read the same. */
export interface DayReport {
  readonly plan: Plan;
  readonly curves: DayCurves;
  readonly limits: readonly Limit[];
  readonly figures: readonly Figure[];
  /** Main sentence with its remedies. */
  readonly headline: readonly SentencePart[];
  /** Second, smaller sentence. */
  readonly aside: string;
  readonly findings: readonly Finding[];
  readonly scene: SectionScene;
  /** Figures drawn in their place in the section. */
  readonly placed: readonly SectionFigure[];
}

/** The likely ranges, computed after the curves. */
export interface DayDoubt {
  readonly bands: Readonly<Record<BandedSeries, Band>>;
  /** Per figure id: low, high and the input that widens it most. */
  readonly figures: Readonly<Record<string, { low: number; high: number; widest: string }>>;
}
