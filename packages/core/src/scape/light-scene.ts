/** A scape as the light solver is told it: lamps, water, walls, ground, stones, wood and leaves, in six bands. */
import { cellOverlaps, type FieldGrid, fieldHeight } from "../geometry/index.ts";
import {
  albedoOf,
  BAND_EDGES,
  bandsOf,
  daylightSpectrum,
  diffusePaneTransmission,
  diffuseReflectance,
  figuresOf,
  HAZE_ASYMMETRY,
  intensityAt,
  type LightBands,
  lobeFromBeamAngle,
  mixedSpectrum,
  type Photometry,
  parPhotons,
  photonsBetween,
  type Spectrum,
  WATER_INDEX,
} from "../light/index.ts";
import {
  type DaylightLevel,
  daylightLevel,
  type LampPlan,
  lampsOf,
  lightsOf,
  openDaylight,
  type PlanLight,
} from "../plan/index.ts";
import { type Beam, type Lamp, type Material, rectangleLamp, type Scene, type Wall } from "../tracer/index.ts";
import { LampError, type LampOutput, lampOutput } from "./lamp-output.ts";
import { patchLeafArea } from "./leaf-area.ts";
import type { Scape } from "./scape.ts";
import { topOf, zoneTops } from "./zone-tops.ts";

/** One light of the plan as a source of photons: a lamp, one of its channels, or daylight. */
export interface LampSource extends PlanLight {
  /** Position among the lights of the plan. */
  readonly index: number;
  /** Position of its field in a trace: channels of a lamp share one. */
  readonly field: number;
  /** Its light as typed: 6500 K, deep red; daylight. */
  readonly name: string;
  /** Photons of 400-700 nm at full strength, umol/s, and its likely span; of daylight those that fall on its side. */
  readonly photons: number;
  readonly low: number;
  readonly high: number;
  /** Share of its photons in each band; they add up to 1. */
  readonly share: readonly number[];
  /** Lux of its light for each umol/m2/s. */
  readonly luxPerPhoton: number;
  /** Electrical power at full, W. */
  readonly watts: number;
}

export interface LightScene {
  readonly scene: Scene;
  /** Lamp by lamp, channel by channel, then daylight. */
  readonly sources: readonly LampSource[];
  /** What each lamp gives and where that was taken from. */
  readonly outputs: readonly LampOutput[];
  readonly daylight: DaylightLevel | null;
  readonly bands: LightBands;
}

/** Cells of the result: about this wide, m, and at most so many a side. Design values. */
const usualCell = 0.015;
const mostCells = 64;
/** Cells of the open water and its leaves, m. Design value. */
const voxelSize = 0.03;
const mostVoxels = 32;

/** Leaves lie in every direction alike and absorb most of what they meet. Design value (published span 0.4 to 0.85). */
const leafAbsorptance = 0.75;

const countOf = (extent: number, size: number, most: number): number =>
  Math.max(4, Math.min(most, Math.round(extent / size)));

/** Reflectance where nothing is known of a material. Design value. */
const unknownAlbedo = 0.2;

/** Share of the photons of a spectrum in each band. */
function bandShares(spectrum: Spectrum): readonly number[] {
  const total = parPhotons(spectrum);
  return BAND_EDGES.slice(1).map((to, i) => photonsBetween(spectrum, BAND_EDGES[i]!, to) / total);
}

/** Photons through a pane of glass for each through the bare face that the solver knows, evenly diffuse light. */
const throughGlass = diffusePaneTransmission(WATER_INDEX) / (1 - diffuseReflectance(WATER_INDEX));

interface Made {
  readonly source: LampSource;
  readonly spectrum: Spectrum;
}

/** The lights of a plan as sources, in the order of `lightsOf`. */
function sourcesOf(scape: Scape, outputs: readonly LampOutput[], daylight: DaylightLevel | null): readonly Made[] {
  const { plan, length, width, waterDepth } = scape;
  return lightsOf(plan).map((light, index): Made => {
    const { lamp, channel } = light;
    if (lamp === null) {
      const { side } = plan.daylight!;
      const along = side.value === "left" || side.value === "right" ? width : length;
      const area = side.value === "top" ? length * width : along * waterDepth;
      const photons = daylight!.ppfd * area * (side.value === "top" ? 1 : throughGlass);
      const [low, high] = daylight!.span.map((part) => part * photons) as [number, number];
      return {
        spectrum: daylightSpectrum,
        source: {
          ...light,
          index,
          field: outputs.length,
          name: "daylight",
          photons,
          low,
          high,
          share: bandShares(daylightSpectrum),
          luxPerPhoton: figuresOf(daylightSpectrum).luxPerPhoton,
          watts: 0,
        },
      };
    }
    const output = outputs[lamp]!;
    const { name, spectrum, photons, luxPerPhoton, watts } = output.parts[channel ?? 0]!;
    return {
      spectrum,
      source: {
        ...light,
        index,
        field: lamp,
        name,
        photons,
        low: (photons * output.low) / output.photons,
        high: (photons * output.high) / output.photons,
        share: bandShares(spectrum),
        luxPerPhoton,
        watts,
      },
    };
  });
}

/** The beam of a lamp: its photometric file, else the lobe of its beam angle. */
function beamOf(lamp: LampPlan, photometry: Photometry | null, index: number): Beam {
  if (photometry === null) return { kind: "lobe", exponent: lobeFromBeamAngle(lamp.beam.value) };
  // what the file sends upwards is lost past the tank, not bent down
  const last = photometry.vertical.at(-1)! > 90 ? 180 : 90;
  const vertical = Array.from({ length: last / 2.5 + 1 }, (_, i) => 2.5 * i);
  const horizontal = Array.from({ length: 25 }, (_, i) => 15 * i);
  const intensity = Float64Array.from(horizontal.flatMap((h) => vertical.map((v) => intensityAt(photometry, v, h))));
  const half = vertical.filter((v) => v < 90).length;
  if (!intensity.some((value, k) => value > 0 && k % vertical.length < half))
    throw new LampError(index, "its photometric file holds no light downwards");
  return { kind: "table", vertical, horizontal, intensity };
}

function lampOf(scape: Scape, lamp: LampPlan, output: LampOutput, index: number): Lamp {
  const rectangle = {
    x: lamp.at.value * scape.length,
    y: lamp.depth.value * scape.width,
    z: scape.height + lamp.aboveRim.value,
    length: lamp.length.value,
    width: lamp.width.value,
    turn: lamp.turn.value,
    tip: lamp.tilt.value,
  };
  try {
    return { ...rectangleLamp(rectangle, scape.waterDepth), beam: beamOf(lamp, output.photometry, index) };
  } catch (error) {
    if (error instanceof RangeError) throw new LampError(index, error.message);
    throw error;
  }
}

/**
 * The scape for the light solver.
 * @param leaves whether the plants shade, as they stand now
 * @param cell cells of the map on the ground are about this wide, m
 * @returns null where the plan has neither lamp nor daylight
 * @throws LampError for a photometric file that cannot be used
 */
export function lightScene(scape: Scape, leaves = true, cell = usualCell): LightScene | null {
  const { plan, length, width, waterDepth } = scape;
  const lamps = lampsOf(plan);
  const sky = openDaylight(plan);
  if (lamps.length === 0 && !sky) return null;
  const outputs = lamps.map(lampOutput);
  const daylight = sky && daylightLevel(sky);
  const made = sourcesOf(scape, outputs, daylight);
  const mixed = mixedSpectrum(made.map(({ spectrum, source }) => ({ spectrum, photons: source.photons })));
  const bands = bandsOf(mixed, { a440: plan.water.stain.value, chlorophyll: 0, turbidity: plan.water.haze.value });
  // haze scatters all bands nearly alike; taken alike, they share their paths
  const scattering = bands.scattering.reduce((sum, b, i) => sum + b * bands.share[i]!, 0);
  const flat = (albedo: number): Material => ({ albedo: bands.share.map(() => albedo) });
  const named = (material: string): Material => flat(albedoOf(material)?.value ?? unknownAlbedo);

  const materials: Material[] = [];
  const place = (material: Material): number => materials.push(material) - 1;
  const cells = { columns: countOf(length, cell, mostCells), rows: countOf(width, cell, mostCells) };
  const whole = plan.substrate.filter((layer) => !layer.within).at(-1);
  const ground = place(whole ? named(whole.material) : flat(0.05));
  const groundMaterial = new Uint8Array(cells.columns * cells.rows).fill(ground);
  const grid: FieldGrid = { length, width, columns: cells.columns + 1, rows: cells.rows + 1 };
  const cellArea = (length * width) / (cells.columns * cells.rows);
  scape.layers.forEach(({ material, within }) => {
    if (!within) return;
    const own = place(named(material));
    cellOverlaps(within, grid).forEach((area, i) => {
      if (area > cellArea / 2) groundMaterial[i] = own;
    });
  });
  const solids = scape.pieces.map((piece) => ({ mesh: piece.mesh, material: place(named(piece.material)) }));
  const { background } = plan.tank;
  const bare: Wall = "bare";
  const backs = { none: bare, black: flat(0.04), grey: flat(0.2), white: flat(0.75) } as const;

  return {
    bands,
    sources: made.map(({ source }) => source),
    outputs,
    daylight,
    scene: {
      box: { length, width, surface: waterDepth, index: 1.333 },
      bands: bands.absorption.map((absorption) => ({ absorption, scattering, asymmetry: HAZE_ASYMMETRY })),
      walls: { left: bare, right: bare, front: bare, back: backs[background.value] },
      materials,
      ground: scape.ground,
      cells,
      groundMaterial,
      solids,
      water: waterGrid(scape, leaves, bands.share.length),
      lamps: lamps.map((lamp, i) => lampOf(scape, lamp, outputs[i]!, i)),
      ...(sky ? { daylight: [{ side: sky.side.value }] } : {}),
    },
  };
}

function waterGrid(scape: Scape, leaves: boolean, bandCount: number): Scene["water"] {
  const { length, width, waterDepth } = scape;
  const columns = countOf(length, voxelSize, mostVoxels);
  const rows = countOf(width, voxelSize, mostVoxels);
  const layers = countOf(waterDepth, voxelSize, mostVoxels);
  // only what is read above the plantings is worth its time
  const told = new Uint8Array(columns * rows * layers);
  for (const zone of scape.zones)
    for (const { cell } of zoneTops(scape, zone, { columns, rows, layers })) told[cell] = 1;
  const grid = { columns, rows, layers, told };
  if (!leaves || scape.zones.length === 0) return grid;
  const density = new Float64Array(columns * rows * layers);
  const step = waterDepth / layers;
  const cellArea = (length * width) / (columns * rows);
  for (const zone of scape.zones) {
    const areas = cellOverlaps(zone.outline, { length, width, columns: columns + 1, rows: rows + 1 });
    const height = Math.max(0.005, zone.planting.height.value);
    const top = scape.pieces.find((p) => p.index === zone.on);
    areas.forEach((area, i) => {
      if (!(area > 0)) return;
      const x = ((i % columns) + 0.5) * (length / columns);
      const y = (Math.floor(i / columns) + 0.5) * (width / rows);
      const foot = zone.afloat
        ? waterDepth - height
        : top
          ? topOf(top.mesh.positions) - height / 2
          : fieldHeight(scape.ground, x, y);
      const [low, high] = [Math.max(0, foot), Math.min(waterDepth, foot + height)];
      if (!(high > low)) return;
      // leaves that would stand out of the water lie on its surface: all of them stay within it
      const leafArea = patchLeafArea(zone.fact, zone.planting.biomass.value) * (area / cellArea);
      for (let k = Math.floor(low / step); k < layers && k * step < high; k++) {
        const part = Math.min(high, (k + 1) * step) - Math.max(low, k * step);
        if (part > 0) density[k * columns * rows + i]! += (leafArea * (part / (high - low))) / step;
      }
    });
  }
  return { ...grid, leaves: { density, absorptance: Array.from({ length: bandCount }, () => leafAbsorptance) } };
}
