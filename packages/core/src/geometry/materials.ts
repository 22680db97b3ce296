/** Densities of substrates and stones as ranges, [low, high]; keys into this room's sources. */

export type Range = readonly [number, number];

export interface SubstrateMaterial {
  readonly name: string;
  /** kg/m³ */
  readonly grainDensity: Range;
  /** Dry, kg/m³. */
  readonly bulkDensity: Range;
  /** 0..1; null where the source gives none. */
  readonly porosity: Range | null;
  readonly source: string;
  readonly note?: string;
}

export const substrateMaterials: readonly SubstrateMaterial[] = [
  {
    name: "quartz sand or gravel",
    grainDensity: [2650, 2650],
    bulkDensity: [1450, 1700],
    porosity: [0.36, 0.45],
    source: "soil-handbooks",
  },
  {
    name: "basalt grit",
    grainDensity: [2900, 2900],
    bulkDensity: [1500, 1750],
    porosity: [0.4, 0.48],
    source: "soil-handbooks",
  },
  {
    name: "fired clay granules",
    grainDensity: [1500, 1900],
    bulkDensity: [700, 1000],
    porosity: [0.55, 0.7],
    source: "soil-handbooks",
    note: "doubtful; porosity with the pores inside the grains, whose substance is about 2500 kg/m³",
  },
  {
    name: "lava grit",
    grainDensity: [1500, 2000],
    bulkDensity: [700, 1000],
    porosity: null,
    source: "soil-handbooks",
    note: "doubtful",
  },
  {
    name: "pumice grit",
    grainDensity: [500, 1000],
    bulkDensity: [350, 600],
    porosity: null,
    source: "soil-handbooks",
    note: "doubtful; floats until soaked",
  },
  {
    name: "baked organic soil granules",
    grainDensity: [1500, 1800],
    bulkDensity: [750, 1000],
    porosity: [0.55, 0.65],
    source: "trade-practice",
    note: "doubtful; porosity with the pores inside the grains, whose substance is about 2200 kg/m³",
  },
  {
    name: "peat or humus soil",
    grainDensity: [1400, 1600],
    bulkDensity: [150, 400],
    porosity: [0.75, 0.9],
    source: "soil-handbooks",
  },
];

export interface StoneMaterial {
  readonly name: string;
  /** kg/m³ */
  readonly density: Range;
  readonly source: string;
  /** May raise hardness and alkalinity. */
  readonly carbonate: boolean;
}

function stone(name: string, low: number, high: number, source: string, carbonate = false): StoneMaterial {
  return { name, density: [low, high], source, carbonate };
}

export const stoneMaterials: readonly StoneMaterial[] = [
  stone("granite", 2600, 2700, "rock-densities"),
  stone("basalt", 2800, 3000, "rock-densities"),
  stone("slate", 2700, 2800, "rock-densities"),
  stone("sandstone", 2200, 2800, "rock-densities"),
  stone("gneiss", 2600, 2900, "rock-densities"),
  stone("limestone", 2300, 2700, "rock-densities", true),
  stone("marble", 2400, 2700, "rock-densities", true),
  stone("dolomite", 2800, 2900, "rock-densities", true),
  stone("quartzite", 2600, 2800, "rock-densities"),
  stone("shale", 2400, 2800, "rock-densities"),
  stone("petrified wood", 2200, 2650, "soil-handbooks"),
  stone("vesicular lava", 1200, 2000, "soil-handbooks"),
  stone("pumice", 500, 1000, "soil-handbooks"),
];
