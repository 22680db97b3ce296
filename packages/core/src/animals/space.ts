import { RelationError, relation, yesNo } from "../relation/index.ts";
import { choice, quantity, series } from "./usual-inputs.ts";

/**
 * Litres per centimetre of body (head to root of the tail fin) in the Swiss ordinance. @param length cm. Source:
 * swiss-455-1
 */
export function swissLitresPerCentimetre(length: number): number {
  if (length <= 5) return 0.5;
  if (length <= 10) return 0.75;
  if (length <= 15) return 1;
  if (length <= 20) return 1.25;
  if (length <= 30) return 1.75;
  return length <= 40 ? 2.25 : 3;
}

/**
 * Depth of prey that a fish can swallow over its length without tail, by habit; design values. Source:
 * mihalitsis-bellwood-2017
 */
export const gapeShare = { predatory: 0.25, "half predatory": 0.15, other: 0.1 } as const;

export const spaceRelations = [
  relation({
    id: "swiss-minimum",
    title: "Least tank of the Swiss animal protection ordinance",
    room: "animals",
    inputs: {
      lengths: series("body length without tail fin, by species", "cm", 0.5, 150),
      counts: series("number, by species", "1", 0, 10000),
    },
    outputs: {
      litres: { label: "least volume", unit: "L" },
      length: { label: "least length of the tank", unit: "cm" },
      width: { label: "least width", unit: "cm" },
      depth: { label: "least depth of water", unit: "cm" },
    },
    equation: "sum of n L q(L); 3, 2 and 1 times the largest fish",
    sources: ["swiss-455-1"],
    validity: "a legal floor in one country, not a measure of welfare, of load or of oxygen",
    caution: "Other places have other rules: check the law where the tank stands.",
    compute: (i) => {
      if (i.lengths.length !== i.counts.length) {
        throw new RelationError("swiss-minimum", [
          { input: "counts", message: `must hold ${i.lengths.length} numbers` },
        ]);
      }
      const kept = i.lengths.filter((_, n) => (i.counts[n] ?? 0) > 0);
      const largest = kept.length > 0 ? Math.max(...kept) : 0;
      return {
        litres: i.lengths.reduce((sum, l, n) => sum + (i.counts[n] ?? 0) * l * swissLitresPerCentimetre(l), 0),
        length: 3 * largest,
        width: 2 * largest,
        depth: largest,
      };
    },
  }),
  relation({
    id: "gape",
    title: "Whether one animal fits the mouth of another",
    room: "animals",
    inputs: {
      predator: quantity("length of the larger without tail fin", "cm", 0.5, 150),
      prey_depth: quantity("body depth of the smaller", "cm", 0.05, 100),
      habit: choice("habit of the larger", ["predatory", "half predatory", "other"], "other"),
    },
    outputs: {
      share: { label: "depth of the smaller over length of the larger", unit: "1" },
      swallowed: yesNo("whether it fits"),
      caution_from: { label: "depth from which it may fit an ambush hunter", unit: "cm" },
      caution_to: { label: "depth above which it does not", unit: "cm" },
    },
    equation: "fits where depth <= k L; k 0.25 predatory, 0.15 half predatory, 0.10 other; ambush hunters 0.20 to 0.27",
    sources: ["mihalitsis-bellwood-2017", "chosen"],
    compute: (i) => {
      const share = i.prey_depth / i.predator;
      return {
        share,
        swallowed: share <= gapeShare[i.habit] ? 1 : 0,
        caution_from: 0.2 * i.predator,
        caution_to: 0.27 * i.predator,
      };
    },
  }),
] as const;
