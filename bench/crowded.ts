import type { RawPlan } from "../packages/core/src/plan/index.ts";

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;

/** A crowded scape: 60 stones, 12 pieces of wood, 25 plantings, 4 lamps. */
export function crowded(): RawPlan {
  const stones = Array.from({ length: 60 }, (_, i) => ({
    kind: "stone",
    material: i % 2 ? "slate" : "granite",
    at: percent(0.05 + (0.9 * ((i * 7) % 60)) / 60),
    depth: percent(0.1 + (0.8 * ((i * 13) % 60)) / 60),
    width: `${60 + ((i * 11) % 90)} mm`,
    breadth: `${50 + ((i * 5) % 60)} mm`,
    height: `${40 + ((i * 17) % 120)} mm`,
  }));
  const woods = Array.from({ length: 12 }, (_, i) => ({
    kind: "wood",
    at: percent(0.1 + (0.8 * i) / 12),
    depth: percent(0.3 + (0.4 * ((i * 5) % 12)) / 12),
    width: "300 mm",
    breadth: "120 mm",
    height: "220 mm",
  }));
  const species = [
    "Eleocharis acicularis",
    "Staurogyne repens",
    "Rotala rotundifolia",
    "Vallisneria nana",
    "Cryptocoryne wendtii",
  ];
  const plants = Array.from({ length: 25 }, (_, i) => {
    const [x, y] = [2 + (i % 5) * 19.5, 3 + Math.floor(i / 5) * 19];
    return {
      species: species[i % species.length]!,
      outline: `${x} % ${y} %, ${x + 17} % ${y} %, ${x + 17} % ${y + 16} %, ${x} % ${y + 16} %`,
    };
  });
  return {
    lentic: 1,
    tank: { length: "180 cm", width: "60 cm", height: "60 cm" },
    substrate: [{ material: "baked soil", front: "40 mm", back: "120 mm" }],
    hardscape: [...stones, ...woods],
    plants,
    light: { kind: "panel", at: "20 %", length: "300 mm" },
    lamps: [0.4, 0.6, 0.8].map((at) => ({ kind: "panel", at: percent(at), length: "300 mm" })),
  };
}
