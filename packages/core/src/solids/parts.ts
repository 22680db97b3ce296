import { castRays } from "./columns.ts";
import { edgeMates } from "./edges.ts";
import { MeshFault } from "./fault.ts";
import { meshArea, meshBounds, meshVolume } from "./measure.ts";
import type { Mesh } from "./mesh.ts";
import { middle, type Oriented, orient, placeOf } from "./orient.ts";
import type { Pace } from "./pace.ts";

/** Most parts that are looked at one by one. Design value. */
const mostParts = 100;

/** Parts with less than this share of the largest one's surface are specks of a scan. Design value. */
const speck = 1e-3;

/** Triangles of the part with the largest surface, or of all parts but specks. */
export function chooseParts(
  positions: Float64Array,
  { triangles, parts, count }: Oriented,
  keep: "largest" | "all",
  done: string[],
): Uint32Array {
  if (count === 1) return triangles;
  const areas = new Float64Array(count);
  for (let t = 0; t < parts.length; t++) {
    areas[parts[t]!]! += meshArea({ positions, triangles: triangles.subarray(3 * t, 3 * t + 3) });
  }
  const largest = areas.reduce((best, area, part) => (area > areas[best]! ? part : best), 0);
  const stays = (part: number): boolean =>
    keep === "largest" ? part === largest : areas[part]! >= speck * areas[largest]!;
  const out = areas.filter((_, part) => !stays(part));
  if (out.length === 0) return triangles;
  const share = out.reduce((a, b) => a + b, 0) / areas.reduce((a, b) => a + b, 0);
  const name = out.length === 1 ? "1 loose part" : `${out.length} loose parts`;
  done.push(`${name} left out, ${Number((100 * share).toPrecision(2))} % of the surface`);
  return triangles.filter((_, k) => stays(parts[Math.floor(k / 3)]!));
}

/**
 * A closed surface as bodies: every part turned outside out, hollows within bodies left out.
 * @throws MeshFault where surfaces meet at an edge so that in and out cannot be told, or nothing is enclosed.
 */
export async function partsAsBodies({ positions, triangles }: Mesh, done: string[], pace: Pace): Promise<Mesh> {
  const mates = await edgeMates(triangles, pace);
  const oriented = await orient(positions, triangles, mates, pace);
  const { count } = oriented;
  if (count > mostParts)
    throw new MeshFault("file", `${count} separate parts`, `up to ${mostParts}, or only the largest one`);
  const lists: number[][] = Array.from({ length: count }, () => []);
  if (count > 1) {
    oriented.triangles.forEach((corner, k) => {
      lists[oriented.parts[Math.floor(k / 3)]!]!.push(corner);
    });
  }
  const bodies: Mesh[] = [];
  let changed = count > 1 || oriented.turned > 0;
  for (const list of lists) {
    await pace.turn();
    const own = { positions, triangles: count === 1 ? oriented.triangles : Uint32Array.from(list) };
    const outward = meshVolume(own) >= 0;
    changed ||= !outward;
    if (!outward) done.push(count === 1 ? "the surface turned outside out" : "a part turned outside out");
    bodies.push(outward ? own : { positions, triangles: inverted(own.triangles) });
  }
  await pace.turn();
  const solid = bodies.filter((body) => {
    if (bodies.length === 1 || !bodies.some((other) => other !== body && lies(body, other))) return true;
    done.push("a hollow within left out, so that it counts as filled");
    return false;
  });
  const list = new Uint32Array(solid.reduce((sum, body) => sum + body.triangles.length, 0));
  let at = 0;
  for (const body of solid) {
    list.set(body.triangles, at);
    at += body.triangles.length;
  }
  const whole = { positions, triangles: list };
  if (!(meshVolume(whole) > 0)) throw new MeshFault("file", "the surface encloses nothing", "a solid");
  await checkBalance(whole, changed ? await edgeMates(list, pace) : mates, pace);
  return whole;
}

function inverted(triangles: Uint32Array): Uint32Array {
  return triangles.map((_, k) => triangles[k % 3 === 0 ? k : k % 3 === 1 ? k + 1 : k - 1]!);
}

/** Whether a body lies within another: an upright ray from one of its corners up leaves the other once more than it enters. */
function lies(body: Mesh, other: Mesh): boolean {
  const [inner, outer] = [meshBounds(body), meshBounds(other)];
  if ([0, 1, 2].some((axis) => inner.min[axis]! < outer.min[axis]! || inner.max[axis]! > outer.max[axis]!))
    return false;
  const at = 3 * body.triangles[0]!;
  const [x, y, z] = [0, 1, 2].map((axis) => body.positions[at + axis]!) as [number, number, number];
  let leaves = 0;
  castRays(other, { left: x, front: y, stepX: 1, stepY: 1, columns: 1, rows: 1 }, (_, height, way) => {
    if (height > z) leaves -= way;
  });
  return leaves > 0;
}

/** Where more than two triangles meet at an edge, as many must run through it one way as the other. */
async function checkBalance({ positions, triangles }: Mesh, mates: Int32Array, pace: Pace): Promise<void> {
  await pace.slices(triangles.length, 1 << 17, (from, to) => {
    for (let side = from; side < to; side++) {
      const mate = mates[side]!;
      if (mates[mate] === side && mate !== side) continue;
      let sum = 1;
      let count = 1;
      for (let other = mate; other !== side; other = mates[other]!) {
        sum += triangles[other] === triangles[side] ? 1 : -1;
        count += 1;
      }
      if (sum !== 0)
        throw new MeshFault(
          placeOf(middle(positions, triangles, side)),
          `${count} triangles meet at one edge, and what is inside cannot be told`,
          "two at every edge",
        );
    }
  });
}
