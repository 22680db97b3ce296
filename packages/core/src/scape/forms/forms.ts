import type { FormName } from "./types.ts";

/** The forms a layout can begin from. */
export const forms: readonly {
  readonly name: FormName;
  readonly label: string;
  /** What it is and for which tanks, in one sentence. */
  readonly says: string;
}[] = [
  {
    name: "island",
    label: "Island",
    says: "A planted mound in open sand, low all round; for tanks seen from several sides, and long ones.",
  },
  {
    name: "mound",
    label: "Mound",
    says: "One rounded hill, highest near the middle and planted all over; calm, for most tanks and for cubes.",
  },
  {
    name: "valley",
    label: "Valley",
    says: "Two unlike masses with open low ground between them; gives depth, best in tanks longer than high.",
  },
  {
    name: "triangle",
    label: "Triangle",
    says: "High on one side and falling to the other; for tanks in a corner or seen from one end, and for small ones.",
  },
  {
    name: "street",
    label: "Planted street",
    says: "Terraced groups on both sides of a path that narrows to the back; many species, for tanks with some width.",
  },
  {
    name: "bank",
    label: "Biotope bank",
    says: "Roots and a rising shore over open sand with few species of one part of the world; quiet, needs little light.",
  },
];
