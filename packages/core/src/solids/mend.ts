import { edgeMates, sidesOn } from "./edges.ts";
import { MeshFault } from "./fault.ts";
import { lidOf, type Rim, rimsOf } from "./holes.ts";
import { meshBounds } from "./measure.ts";
import type { Mesh } from "./mesh.ts";
import { middle, orient, placeOf } from "./orient.ts";
import { Pace, type WorkOptions } from "./pace.ts";
import { chooseParts, partsAsBodies } from "./parts.ts";
import { findSelfCuts } from "./self-cut.ts";
import { tidy } from "./tidy.ts";
import { weld } from "./weld.ts";

export interface MendOptions extends WorkOptions {
  /** Corners nearer than this share of the mesh's diagonal become one; default 1e-6. */
  readonly weld?: number;
  /** Holes up to this share of the diagonal across are closed; default 0.1. */
  readonly largestHole?: number;
  /** The part with the largest surface alone (default), or every part but specks; each must be closed. */
  readonly keep?: "largest" | "all";
}

/** A closed mesh and what was done to it. */
export interface MendedMesh {
  readonly mesh: Mesh;
  /** What was done, in words; empty when nothing had to be. */
  readonly done: readonly string[];
}

/** Cuts through itself that are let pass, as a share of the diagonal, all together: folds of a scan's noise. Design value. */
const mostCuts = 0.01;

/**
 * Makes a closed solid of a surface: welds corners, leaves out triangles that bound nothing, turns them alike, closes
 * small holes, leaves out loose parts, and turns the outside out. Gives way to other work at least every 30 ms or so.
 * @throws MeshFault for a surface with one side only, one that is open by more, or where three surfaces meet, or that
 * cuts through itself; with the place in the mesh's own units. RangeError for bad options; the signal's reason when
 * stopped.
 */
export async function mendMesh(mesh: Mesh, options: MendOptions = {}): Promise<MendedMesh> {
  const { weld: nearness = 1e-6, largestHole = 0.1, keep = "largest" } = options;
  if (!(nearness > 0 && nearness <= 0.01))
    throw new RangeError(`weld ${nearness}: above 0, up to 0.01 of the diagonal`);
  if (!(largestHole >= 0 && largestHole <= 1))
    throw new RangeError(`largestHole ${largestHole}: 0 to 1 of the diagonal`);
  const pace = new Pace(options);
  const done: string[] = [];
  const diagonal = diagonalOf(mesh);
  const touch = nearness * diagonal;
  await pace.turn();

  const welded = await weld(mesh, touch, pace.part(0, 0.15));
  if (welded.merged > 0) done.push(`${welded.merged} corners joined with others in the same place`);
  const clean = await tidy(welded.mesh.triangles, pace.part(0.15, 0.3));
  if (clean.degenerate > 0) done.push(`${clean.degenerate} triangles without area left out`);
  if (clean.doubled > 0) done.push(`${clean.doubled} doubled triangles left out`);
  if (clean.triangles.length === 0) throw new MeshFault("file", "no triangle with an area", "a closed surface");

  const { positions } = welded.mesh;
  const mates = await edgeMates(clean.triangles, pace.part(0.3, 0.38));
  const oriented = await orient(positions, clean.triangles, mates, pace.part(0.38, 0.46));
  const triangles = chooseParts(positions, oriented, keep, done);
  const closed = await close({ positions, triangles }, largestHole * diagonal, diagonal, done, pace);
  const solid = await partsAsBodies(closed, done, pace.part(0.52, 0.6));
  if (oriented.turned > 0) done.push(`${oriented.turned} triangles turned like their neighbours`);

  const cuts = await findSelfCuts(solid, touch, mostCuts * diagonal, pace.part(0.6, 1));
  if (cuts.place && cuts.length > mostCuts * diagonal)
    throw new MeshFault(
      placeOf(cuts.place),
      `the surface cuts through itself, in ${cuts.pairs} or more places`,
      "a surface that meets itself nowhere",
    );
  if (cuts.pairs > 0)
    done.push(
      `${cuts.pairs} small folds left as they are, where triangles cut each other, ${percent(cuts.length / diagonal)} of its size in all`,
    );
  const whole = await compact(solid, pace.part(1, 1));
  options.onProgress?.(1);
  return { mesh: whole, done };
}

function diagonalOf(mesh: Mesh): number {
  const { min, max } = meshBounds(mesh);
  const diagonal = Math.hypot(max[0] - min[0], max[1] - min[1], max[2] - min[2]);
  if (!(diagonal > 0 && Number.isFinite(diagonal)))
    throw new MeshFault("file", "all corners lie in one place, or some are not numbers", "a solid with an extent");
  return diagonal;
}

/** Closes holes up to a size. @throws MeshFault when one is larger or surfaces meet in an edge. */
async function close(mesh: Mesh, limit: number, diagonal: number, done: string[], pace: Pace): Promise<Mesh> {
  const { positions, triangles } = mesh;
  const mates = await edgeMates(triangles, pace.part(0.46, 0.52));
  await checkEdges(mesh, mates, pace);
  const rims = await rimsOf(triangles, mates, pace);
  if (rims.length === 0) return mesh;
  const place = (corner: number): readonly [number, number, number] => [
    positions[3 * corner]!,
    positions[3 * corner + 1]!,
    positions[3 * corner + 2]!,
  ];
  const across = rims.map((rim) => acrossRim(rim, place));
  const widest = across.indexOf(Math.max(...across));
  if (across[widest]! > limit) {
    const rim = rims[widest]!;
    const more = across.filter((a) => a > limit).length - 1;
    throw new MeshFault(
      placeOf(centre(rim, place)),
      `the surface is open by a hole ${Number(across[widest]!.toPrecision(3))} across, ${percent(across[widest]! / diagonal)} of its size, with ${rim.length} edges${more > 0 ? `, and ${more} more` : ""}`,
      `holes up to ${percent(limit / diagonal)} of its size, which are closed`,
    );
  }
  const more: number[] = [];
  const added: number[] = [];
  for (const rim of rims) {
    const lid = lidOf(rim, place, (positions.length + added.length) / 3);
    for (const corner of lid.triangles) more.push(corner);
    if (lid.middle) added.push(...lid.middle);
  }
  done.push(
    `${rims.length === 1 ? "1 hole" : `${rims.length} holes`} closed, the widest ${percent(across[widest]! / diagonal)} of its size`,
  );
  const places = new Float64Array(positions.length + added.length);
  places.set(positions);
  places.set(added, positions.length);
  const list = new Uint32Array(triangles.length + more.length);
  list.set(triangles);
  list.set(more, triangles.length);
  return { positions: places, triangles: list };
}

/** An odd number of surfaces that meet at an edge cannot bound a solid; one alone is a rim and may be closed. */
async function checkEdges({ positions, triangles }: Mesh, mates: Int32Array, pace: Pace): Promise<void> {
  await pace.slices(triangles.length, 1 << 17, (from, to) => {
    for (let side = from; side < to; side++) {
      const mate = mates[side]!;
      if (mate === side || mates[mate] === side) continue;
      const count = sidesOn(mates, side);
      if (count % 2 === 1)
        throw new MeshFault(
          placeOf(middle(positions, triangles, side)),
          `${count} triangles meet at one edge`,
          "two at every edge",
        );
    }
  });
}

function acrossRim(rim: Rim, place: (corner: number) => readonly [number, number, number]): number {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (const corner of rim) {
    place(corner).forEach((value, axis) => {
      low[axis] = Math.min(low[axis]!, value);
      high[axis] = Math.max(high[axis]!, value);
    });
  }
  return Math.hypot(high[0]! - low[0]!, high[1]! - low[1]!, high[2]! - low[2]!);
}

function centre(
  rim: Rim,
  place: (corner: number) => readonly [number, number, number],
): readonly [number, number, number] {
  const sum = [0, 0, 0];
  for (const corner of rim) {
    place(corner).forEach((value, axis) => {
      sum[axis]! += value / rim.length;
    });
  }
  return sum as [number, number, number];
}

function percent(share: number): string {
  return `${Number((100 * share).toPrecision(2))} %`;
}

/** The same without corners that no triangle uses. */
async function compact({ positions, triangles }: Mesh, pace: Pace): Promise<Mesh> {
  const names = new Int32Array(positions.length / 3).fill(-1);
  const places = new Float64Array(positions.length);
  const list = new Uint32Array(triangles.length);
  let count = 0;
  await pace.slices(triangles.length, 1 << 17, (from, to) => {
    for (let t = from; t < to; t++) {
      const corner = triangles[t]!;
      if (names[corner]! < 0) {
        for (let axis = 0; axis < 3; axis++) places[3 * count + axis] = positions[3 * corner + axis]!;
        names[corner] = count;
        count += 1;
      }
      list[t] = names[corner]!;
    }
  });
  return { positions: places.slice(0, 3 * count), triangles: list };
}
