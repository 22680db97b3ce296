import type { RandomStream } from "../numerics/index.ts";
import type { RawForm } from "./fit.ts";
import { placeDirection, placeMesh } from "./place.ts";

/** Corners round each bed. */
const around = 11;

/**
 * Slabs broken to a few straight sides and slipped over each other, then tilted. Each ring of corners lies above the one
 * before and runs once round the middle, so that no slab can cut another.
 */
export function layeredForm(random: RandomStream): RawForm {
  const slabs = 6 + Math.floor(4 * random.uniform());
  const turns = Array.from({ length: around }, (_, k) => (2 * Math.PI * (k + 0.5 * random.uniform())) / around);
  const base = brokenSides(random, 6, 0.8, 0.25);
  const rings: { readonly z: number; readonly radii: readonly number[] }[] = [];
  let z = 0;
  for (let k = 0; k < slabs; k++) {
    const thick = 0.1 + 0.4 * random.uniform() ** 3;
    const size = (0.88 + 0.24 * random.uniform()) * (1 - 0.12 * Math.abs((2 * k) / (slabs - 1) - 0.8));
    const way = 2 * Math.PI * random.uniform();
    const slip = 0.13 * random.uniform();
    const own = brokenSides(random, 4, 0.82, 0.5);
    const draft = 0.94 + 0.06 * random.uniform();
    const radii = turns.map((turn) => size * Math.min(base(turn), own(turn)) + slip * Math.cos(turn - way));
    const wavy = (share: number): readonly number[] => radii.map((r) => r * share * (0.97 + 0.06 * random.uniform()));
    rings.push({ z, radii: wavy(1) }, { z: z + thick, radii: wavy(draft) });
    // The next bed starts a hair higher, so that the ledge between them is not folded flat.
    z += thick * 1.05;
  }
  const positions = rings.flatMap((ring) =>
    turns.flatMap((turn, k) => [ring.radii[k]! * Math.cos(turn), ring.radii[k]! * Math.sin(turn), ring.z]),
  );
  const top = (rings.length - 1) * around;
  const triangles: number[] = [];
  for (let ring = 0; ring < rings.length - 1; ring++) {
    for (let k = 0; k < around; k++) {
      const [a, b] = [ring * around + k, ring * around + ((k + 1) % around)];
      triangles.push(a, b, b + around, a, b + around, a + around);
    }
  }
  positions.push(0, 0, 0, 0, 0, rings.at(-1)!.z);
  for (let k = 0; k < around; k++) {
    const next = (k + 1) % around;
    triangles.push(top + around, next, k, top + around + 1, top + k, top + next);
  }
  const flat = { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
  const placement = { scale: [1, 1, 1.5 / z] as const, tip: 12 + 22 * random.uniform(), turn: 360 * random.uniform() };
  return { mesh: placeMesh(flat, placement), across: placeDirection([0, 0, 1], placement) };
}

/** Reach of an outline of straight breaks about its middle along a turn (radians). */
function brokenSides(random: RandomStream, sides: number, least: number, spread: number): (turn: number) => number {
  const breaks = Array.from({ length: sides }, (_, k) => ({
    turn: (2 * Math.PI * (k + 0.8 * random.uniform())) / sides,
    distance: least + spread * random.uniform(),
  }));
  return (turn) => {
    let reach = 1.25;
    for (const side of breaks) {
      const towards = Math.cos(turn - side.turn);
      if (towards > 0.05) reach = Math.min(reach, side.distance / towards);
    }
    return reach;
  };
}
