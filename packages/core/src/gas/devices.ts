export interface Device {
  readonly id: "fine plate" | "coarse plate" | "open line" | "in-line" | "reactor";
  /** Share of the CO2 that dissolves: the value to start from and its usual span. */
  readonly dissolved: number;
  readonly low: number;
  readonly high: number;
  readonly reason: string;
}

/**
 * What ways of bringing CO2 into the water dissolve, at about 0.45 m depth. Spans follow the single-bubble model for
 * the bubble sizes named; the value to start from is a design value that allows for merging and wear. Source: closure-design
 */
export const devices: readonly Device[] = [
  {
    id: "fine plate",
    dissolved: 0.85,
    low: 0.75,
    high: 1,
    reason: "pores of 10 to 50 µm give bubbles of 0.7 to 1.3 mm, nearly gone at 0.45 m; some merge",
  },
  {
    id: "coarse plate",
    dissolved: 0.5,
    low: 0.34,
    high: 0.76,
    reason: "worn or coarse pores give 1.5 to 2.5 mm, which surface half full",
  },
  {
    id: "open line",
    dissolved: 0.14,
    low: 0.1,
    high: 0.18,
    reason: "an open line or wide tip gives 4 to 5 mm, which hardly shrink",
  },
  {
    id: "in-line",
    dissolved: 0.95,
    low: 0.9,
    high: 1,
    reason: "bubbles below 1.5 mm are sheared in the hose and gone before its end; the mist is mostly air gases",
  },
  {
    id: "reactor",
    dissolved: 0.97,
    low: 0.9,
    high: 1,
    reason: "down-flow holds bubbles until they dissolve; 2 to 2.5 % stays as air gases that must be purged",
  },
];
