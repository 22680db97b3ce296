import { findStone, findSubstrate, findWood } from "../facts/index.ts";
import { type How, relation } from "../relation/index.ts";
import { choice, quantity } from "./usual-inputs.ts";

/** Reflectance of a surface under water for light of 400 to 700 nm, matt. */
export interface AlbedoFact {
  /** Words as a keeper writes them; those of the facts room where it holds the material. */
  readonly id: string;
  /** Share reflected, 0..1, and its usual span. */
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly how: How;
  readonly source: string;
}

type Row = readonly [id: string, low: number, value: number, high: number];

/** As told in the trade, uncertain by 40 % whatever the span says. Source: trade-albedo */
// biome-ignore format: one material a line
const trade: readonly Row[] = [
  ["quartz sand", 0.3, 0.35, 0.4],
  ["river sand", 0.15, 0.2, 0.25],
  ["baked soil", 0.03, 0.05, 0.08],
  ["granite", 0.2, 0.25, 0.3],
  ["slate", 0.05, 0.08, 0.12],
  ["basalt", 0.05, 0.08, 0.12],
  ["weathered wood", 0.15, 0.2, 0.25],
  ["tannin-dark wood", 0.06, 0.09, 0.12],
  ["black background", 0.03, 0.04, 0.06],
  ["white background", 0.65, 0.75, 0.85],
];

/** Placed next to a material of the same look in the list above. Source: chosen */
// biome-ignore format: one material a line
const likened: readonly Row[] = [
  ["gravel", 0.12, 0.2, 0.3],
  ["basalt grit", 0.05, 0.08, 0.12],
  ["fired clay", 0.06, 0.12, 0.2],
  ["lava grit", 0.04, 0.08, 0.12],
  ["pumice", 0.2, 0.3, 0.4],
  ["peat soil", 0.02, 0.04, 0.08],
  ["sandstone", 0.15, 0.25, 0.35],
  ["gneiss", 0.15, 0.22, 0.3],
  ["limestone", 0.25, 0.35, 0.45],
  ["marble", 0.35, 0.45, 0.6],
  ["dolomite", 0.25, 0.35, 0.45],
  ["quartzite", 0.25, 0.35, 0.45],
  ["shale", 0.05, 0.08, 0.14],
  ["petrified wood", 0.1, 0.17, 0.25],
  ["lava", 0.04, 0.07, 0.12],
  ["pumice stone", 0.2, 0.3, 0.4],
  ["root wood", 0.08, 0.14, 0.22],
  ["softwood", 0.1, 0.18, 0.25],
  ["oak", 0.06, 0.1, 0.16],
  ["dense tropical wood", 0.05, 0.08, 0.12],
];

/** Mean of measured points from 400 to 520 nm; coral sand reflects yet more in the yellow and red. */
// biome-ignore format: one material a line
const measured: readonly Row[] = [
  ["coral sand", 0.28, 0.4, 0.45],
  ["green algal cover", 0.046, 0.1, 0.208],
  ["brown algal cover", 0.022, 0.03, 0.037],
];

const facts = (rows: readonly Row[], how: How, source: string): readonly AlbedoFact[] =>
  rows.map(([id, low, value, high]) => ({ id, low, value, high, how, source }));

/** Albedos of what lies and stands in a tank, under water. */
export const albedos: readonly AlbedoFact[] = [
  ...facts(trade, "common practice", "trade-albedo"),
  ...facts(measured, "read", "maritorena-1994"),
  ...facts(likened, "design value", "chosen"),
];

/** Measured reflectance under water by wavelength, nm and share. Source: maritorena-1994 */
// biome-ignore format: one surface a line
export const albedoSpectra: readonly { readonly id: string; readonly points: readonly (readonly [number, number])[] }[] = [
  { id: "coral sand", points: [[400, 0.281], [450, 0.339], [500, 0.394], [520, 0.417]] },
  { id: "green algal cover", points: [[400, 0.046], [450, 0.055], [500, 0.103], [520, 0.208]] },
  { id: "brown algal cover", points: [[400, 0.022], [450, 0.024], [500, 0.032], [520, 0.037]] },
];

/**
 * The albedo of a material under water, by its name here or in the facts room; case, dashes and spacing as there.
 * @returns undefined where the room holds none: ask the owner
 */
export function albedoOf(name: string): AlbedoFact | undefined {
  const plain = name.trim().toLowerCase();
  const id = (findSubstrate(name) ?? findStone(name) ?? findWood(name))?.id ?? plain;
  return albedos.find((a) => a.id === id);
}

/** Grains are darker under water than dry: factor on a dry albedo, from memory. */
export const WET_FACTOR = { low: 0.5, value: 0.6, high: 0.7 } as const;

/** Albedo under water of grains whose dry albedo is known. Source: twomey-1986 */
export const wetAlbedo = (dry: number): number => dry * WET_FACTOR.value;

const share = (label: string) => ({ label, unit: "1" }) as const;

export const albedoRelations = [
  relation({
    id: "material-albedo",
    title: "Share of light that a material reflects under water",
    room: "light",
    inputs: {
      material: choice(
        "material",
        albedos.map((a) => a.id),
        "quartz sand",
      ),
    },
    outputs: { albedo: share("albedo 400 to 700 nm"), low: share("lower end"), high: share("upper end") },
    equation: "table",
    sources: ["trade-albedo", "maritorena-1994", "chosen"],
    validity: "By look, uncertain by 40 %; a film of algae or debris covers all of them in time.",
    compute: ({ material }) => {
      const { value, low, high } = albedos.find((a) => a.id === material)!;
      return { albedo: value, low, high };
    },
  }),
  relation({
    id: "wet-albedo",
    title: "Albedo of grains under water from their dry albedo",
    room: "light",
    inputs: { dry: quantity("albedo when dry", "1", 0, 1) },
    outputs: { wet: share("albedo under water"), low: share("lower end"), high: share("upper end") },
    equation: "wet = dry x 0.6 (0.5 to 0.7)",
    sources: ["twomey-1986"],
    compute: ({ dry }) => ({ wet: wetAlbedo(dry), low: dry * WET_FACTOR.low, high: dry * WET_FACTOR.high }),
  }),
] as const;
