/**
 * A scan from file to solid: reading half a million triangles, then welding, checking and mending them, and how long that
 * holds up other work; and the volumes that are asked for at every move of a piece.
 */
import { fieldFrom } from "@lentic/core/geometry";
import { createRandom } from "@lentic/core/numerics";
import { formFromMesh } from "@lentic/core/scape";
import {
  icosphere,
  type Mesh,
  mendMesh,
  meshVolume,
  partSolid,
  placeMesh,
  readMesh,
  restingHeight,
  stoneMesh,
  woodMesh,
} from "@lentic/core/solids";
import { quantilesOf, sampled } from "./timing.ts";

/** Parts of each edge of the icosahedron: 20 x 158² = 499 280 triangles. */
const parts = 158;

/** A ball of 0.15 m with a scanner's noise of a tenth of an edge. */
function scan(): Mesh {
  const random = createRandom(1);
  const { positions, triangles } = icosphere(parts);
  for (let k = 0; k < positions.length; k += 3) {
    const r = 0.15 * (1 + (0.1 / parts) * (random.uniform() - 0.5));
    for (let axis = 0; axis < 3; axis++) positions[k + axis]! *= r;
  }
  return { positions, triangles };
}

function stlOf({ positions, triangles }: Mesh): Uint8Array {
  const count = triangles.length / 3;
  const bytes = new Uint8Array(84 + 50 * count);
  const view = new DataView(bytes.buffer);
  view.setUint32(80, count, true);
  for (let t = 0; t < count; t++) {
    for (let k = 0; k < 9; k++) {
      const value = positions[3 * triangles[3 * t + Math.floor(k / 3)]! + (k % 3)]!;
      view.setFloat32(84 + 50 * t + 12 + 4 * k, value, true);
    }
  }
  return bytes;
}

function objOf({ positions, triangles }: Mesh): Uint8Array {
  const lines: string[] = [];
  for (let k = 0; k < positions.length; k += 3) {
    lines.push(`v ${[0, 1, 2].map((axis) => positions[k + axis]!.toFixed(7)).join(" ")}`);
  }
  for (let t = 0; t < triangles.length; t += 3) {
    lines.push(`f ${triangles[t]! + 1} ${triangles[t + 1]! + 1} ${triangles[t + 2]! + 1}`);
  }
  return new TextEncoder().encode(lines.join("\n"));
}

async function imported(name: string, bytes: Uint8Array): Promise<string> {
  let held = 0;
  let last = performance.now();
  const timer = setInterval(() => {
    const now = performance.now();
    held = Math.max(held, now - last);
    last = now;
  }, 1);
  const start = performance.now();
  const { mesh } = await readMesh(bytes, name);
  const read = performance.now();
  const mended = await mendMesh(mesh);
  const end = performance.now();
  clearInterval(timer);
  const share = meshVolume(mended.mesh) / ((4 / 3) * Math.PI * 0.15 ** 3);
  const size = (bytes.length / 1e6).toFixed(0);
  return `${name}, ${size} MB, ${mesh.triangles.length / 3} triangles: read ${(read - start).toFixed(0)} ms, mended ${(end - read).toFixed(0)} ms, together ${((end - start) / 1000).toFixed(2)} s; other work waited ${held.toFixed(0)} ms at most; volume ${share.toFixed(5)} of the ball's`;
}

/** From the bytes of a file to the form that a plan keeps; and how soon it stops when told to half way. */
async function brought(name: string, bytes: Uint8Array): Promise<string> {
  const known = { side: "width", metres: 0.3 } as const;
  const start = performance.now();
  const form = await formFromMesh(await readMesh(bytes, name), { known });
  const whole = performance.now() - start;
  const stop = new AbortController();
  let told = 0;
  const timer = setTimeout(() => {
    told = performance.now();
    stop.abort(new Error("stopped"));
  }, whole / 2);
  const { signal } = stop;
  const outcome = await readMesh(bytes, name, { signal })
    .then((read) => formFromMesh(read, { known, signal }))
    .then(
      () => "was not stopped",
      () => `stopped ${(performance.now() - told).toFixed(0)} ms after it was told`,
    );
  clearTimeout(timer);
  return `${name} as an own piece: ${form.kept} of ${form.found} triangles kept, ${(whole / 1000).toFixed(2)} s; ${outcome}`;
}

export async function run(): Promise<{ name: string; lines: string[] }> {
  const mesh = scan();
  const [stl, obj] = [stlOf(mesh), objOf(mesh)];
  const lines = [await imported("scan.stl", stl), await imported("scan.obj", obj)];
  lines.push(await brought("scan.stl", stl), await brought("scan.obj", obj));
  const bed = fieldFrom(
    { length: 1.2, width: 0.5, columns: 65, rows: 33 },
    (x, y) => 0.05 + 0.1 * y + 0.02 * Math.sin(9 * x),
  );
  const timed = (what: string, count: number, work: () => unknown): void => {
    const { median, p95 } = quantilesOf(sampled(count, work));
    lines.push(`${what.padEnd(58)} median ${median.toFixed(2)} ms   p95 ${p95.toFixed(2)} ms`);
  };
  const stone = placeMesh(stoneMesh({ shape: "irregular", width: 0.3, breadth: 0.2, height: 0.2, seed: 1 }).mesh, {
    shift: [0.6, 0.25, 0.05],
  });
  const wood = placeMesh(woodMesh({ width: 0.6, breadth: 0.3, height: 0.3, branches: 8, seed: 1 }).mesh, {
    shift: [0.6, 0.25, 0.2],
  });
  let seed = 0;
  timed("a stone parted by ground and water", 60, () => partSolid(stone, bed, 0.4));
  timed("a piece of wood parted by ground and water", 60, () => partSolid(wood, bed, 0.4));
  timed("wood dropped on a stone and the ground", 60, () => restingHeight(wood, bed, [stone]));
  timed("an irregular stone made", 60, () => {
    seed += 1;
    return stoneMesh({ shape: "irregular", width: 0.3, breadth: 0.2, height: 0.2, seed });
  });
  timed("a piece of wood with 8 branches made", 30, () => {
    seed += 1;
    return woodMesh({ width: 0.6, breadth: 0.3, height: 0.3, branches: 8, seed });
  });
  return { name: "Solids (bar: half a million triangles from file to solid in 5 s on one core)", lines };
}
