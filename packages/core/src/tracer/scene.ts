import type { HeightField } from "../geometry/index.ts";
import type { Mesh, Point3 } from "../solids/index.ts";

/**
 * What the solver is told, free of any plan. SI; x from the left pane, y from the front pane to the back, z up from the
 * inside floor. Everything that has one figure per band lists them in the order of `bands`.
 */
export interface Scene {
  readonly box: Box;
  readonly bands: readonly Band[];
  readonly walls: Walls;
  /** Reflecting materials that ground and solids name by their position here. */
  readonly materials: readonly Material[];
  /** Top of the bed; null = the bare floor at height 0. It may reach out of the water. */
  readonly ground: HeightField | null;
  /** Cells of the result over the floor. */
  readonly cells: CellGrid;
  /** Material of every cell, row by row from the front; one number for all. */
  readonly groundMaterial: number | Uint8Array;
  readonly solids: readonly Solid[];
  /** Grid over the water body for light in the open water and leaves; null = neither is wanted. */
  readonly water: WaterGrid | null;
  readonly lamps: readonly Lamp[];
  /** Diffuse light from outside; its fields follow those of the lamps. At least one lamp or one of these. */
  readonly daylight?: readonly PaneLight[];
}

export interface Box {
  /** Inside, m. */
  readonly length: number;
  readonly width: number;
  /** Height of the water's surface above the floor, m. */
  readonly surface: number;
  /** Refractive index of the water, 1 to 2. */
  readonly index: number;
}

/** Optics of the water in one band. */
export interface Band {
  /** 1/m */
  readonly absorption: number;
  /** 1/m; default 0. */
  readonly scattering?: number;
  /** Mean cosine of the scattering angle (Henyey-Greenstein), -1 to 1 apart from the ends; default 0. */
  readonly asymmetry?: number;
}

export type Side = "left" | "right" | "front" | "back";

/** "bare" = a water/air face: total reflection, and Fresnel's leak below the critical angle. Else opaque and diffuse. */
export type Wall = "bare" | Material;

export type Walls = Readonly<Record<Side, Wall>>;

/**
 * Light of even radiance from the whole half-space outside that falls on one side of the box, up to the water's surface,
 * or on its opening; of unit flux on that side in every band. The side must be bare.
 */
interface PaneLight {
  readonly side: Side | "top";
}

export interface Material {
  /** Share given back diffusely, 0 to 1, for each band. */
  readonly albedo: readonly number[];
}

export interface CellGrid {
  readonly columns: number;
  readonly rows: number;
}

/** Opaque and diffuse on both sides of its triangles; it need not be closed, but what it wraps is then reachable. */
export interface Solid {
  readonly mesh: Mesh;
  readonly material: number;
}

/** Even cells from the floor to the surface, position (layer * rows + row) * columns + column, layers from below. */
export interface WaterGrid extends CellGrid {
  readonly layers: number;
  readonly leaves?: Leaves;
  /** Cells whose direct light is wanted, not 0; in the others the result tells the diffuse part alone. All when left out. */
  readonly told?: Uint8Array;
}

/** Leaves that lie every way alike (G = 0.5): a path meets 0.5 x density of them per metre. */
export interface Leaves {
  /** Leaf area (one side) per volume of each cell of the water grid, m2/m3. */
  readonly density: Float64Array;
  /** Share of what a leaf meets that it absorbs, 0 to 1, for each band; the rest leaves it evenly to all sides. */
  readonly absorptance: readonly number[];
}

/** A lamp of unit photon flux in every band. */
export interface Lamp {
  readonly emitters: readonly Emitter[];
  /** Main direction; any length. */
  readonly axis: Point3;
  /** Direction of its long side, which a table's horizontal angle 0 points to; any length, not along `axis`. */
  readonly along: Point3;
  readonly beam: Beam;
}

/** A point, or a flat parallelogram, that sends out its share of the lamp's flux evenly over itself. */
export interface Emitter {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  /** Share of the lamp's flux; those of a lamp add up to 1. */
  readonly share: number;
  /** From the middle to the middle of two adjoining edges, m; none for a point. */
  readonly halves?: readonly [Point3, Point3];
}

export type Beam = Lobe | IntensityTable;

/** Intensity as the cosine of the angle from the axis to a power; nothing behind. */
export interface Lobe {
  readonly kind: "lobe";
  /** 0 to 100 000; 1 = Lambertian. */
  readonly exponent: number;
}

/** Intensity at angles, straight between them both ways; its scale is of no account. */
export interface IntensityTable {
  readonly kind: "table";
  /** Degrees from the axis, from 0 upwards to at most 180; beyond the last there is no light. */
  readonly vertical: readonly number[];
  /**
   * Degrees about the axis from `along` towards `along` x `axis` (for a lamp that hangs level with `along` to the
   * right: to the back), from 0 upwards. The last tells the symmetry: 0 the same all round, 90 about both planes,
   * 180 about the plane of `along`, 360 none.
   */
  readonly horizontal: readonly number[];
  /** For each horizontal angle the intensities at all vertical angles. */
  readonly intensity: Float64Array;
}
