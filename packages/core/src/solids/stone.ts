import { createRandom, type RandomStream } from "../numerics/index.ts";
import { type BoxSize, checkSize, fitToBox, type MadePiece, type RawForm } from "./fit.ts";
import { icosphere } from "./icosphere.ts";
import { meshBounds, meshVolume } from "./measure.ts";
import type { Mesh } from "./mesh.ts";
import { createNoise } from "./noise.ts";
import { placeNormal } from "./place.ts";
import { facetedForm } from "./stone-faceted.ts";
import { layeredForm } from "./stone-layered.ts";
import { dot, type Point3, unit } from "./vector.ts";

/** Ways in which stones break or wear. */
export type StoneShape = "irregular" | "faceted" | "layered" | "rounded";

/** A stone to be made; the same figures give the same stone. */
export interface StoneForm extends BoxSize {
  readonly shape: StoneShape;
  /** 32-bit integer. */
  readonly seed: number;
}

/**
 * A closed stone of 100 to 400 triangles that fills its box exactly. Layered stones are slabs slipped along their beds,
 * faceted ones are broken along planes, rounded ones water-worn, irregular ones rough with edges. How much of its box a
 * stone takes lies within `stoneFill`.
 * @throws RangeError for a bad size, seed or shape.
 */
export function stoneMesh(form: StoneForm): MadePiece {
  checkSize(form);
  const make = makers[form.shape];
  if (!make) throw new RangeError(`shape ${form.shape}: it must be one of ${Object.keys(makers).join(", ")}`);
  const random = createRandom(form.seed, streams[form.shape]);
  let raw = make(random);
  for (let tries = 1; tries < mostTries && !fills(raw.mesh, form.shape); tries++) raw = make(random);
  const fitted = fitToBox(raw.mesh, form);
  return { mesh: fitted.mesh, grain: placeNormal(raw.across, { scale: fitted.stretch }) };
}

/** Share of its box that a stone takes, least and most. Design values. */
export const stoneFill = {
  irregular: [0.37, 0.52],
  faceted: [0.45, 0.6],
  layered: [0.4, 0.5],
  rounded: [0.5, 0.6],
} as const satisfies Readonly<Record<StoneShape, readonly [number, number]>>;

/** Forms are drawn again until one fills its box as such stones do; nearly every one does by the third. */
const mostTries = 40;

function fills(mesh: Mesh, shape: StoneShape): boolean {
  const { min, max } = meshBounds(mesh);
  const share = meshVolume(mesh) / ((max[0] - min[0]) * (max[1] - min[1]) * (max[2] - min[2]));
  return share >= stoneFill[shape][0] && share <= stoneFill[shape][1];
}

const streams = { irregular: 1, faceted: 2, layered: 3, rounded: 4 } as const;

const makers: Readonly<Record<StoneShape, (random: RandomStream) => RawForm>> = {
  irregular: irregularForm,
  faceted: facetedForm,
  layered: layeredForm,
  rounded: roundedForm,
};

/** Parts of each edge of the icosahedron: 320 triangles. */
const parts = 4;

/** A ball pushed in or out along its rays, which never folds it. */
function pushed(radius: (direction: Point3) => number): Mesh {
  const { positions, triangles } = icosphere(parts);
  for (let k = 0; k < positions.length; k += 3) {
    const r = radius([positions[k]!, positions[k + 1]!, positions[k + 2]!]);
    for (let axis = 0; axis < 3; axis++) positions[k + axis]! *= r;
  }
  return { positions, triangles };
}

/** Reach of |x|^p + |y|^p + |z|^p = 1 along a direction: a ball for p = 2, squarer above. */
function squircle([x, y, z]: Point3, p: number): number {
  return (Math.abs(x) ** p + Math.abs(y) ** p + Math.abs(z) ** p) ** (-1 / p);
}

function leaning(random: RandomStream, spread: number): Point3 {
  return unit([spread * random.normal(), spread * random.normal(), 1]);
}

function roundedForm(random: RandomStream): RawForm {
  const noise = createNoise(random);
  const p = 2.25 + 0.35 * random.uniform();
  const mesh = pushed(([x, y, z]) => {
    const wear = 0.1 * noise(1.1 * x + 9, 1.1 * y, 1.1 * z) + 0.03 * noise(2.7 * x, 2.7 * y + 5, 2.7 * z);
    return squircle([x, y, z], p) * (1 + wear);
  });
  return { mesh, across: leaning(random, 0.2) };
}

function irregularForm(random: RandomStream): RawForm {
  const noise = createNoise(random);
  const flats = Array.from({ length: 7 }, () => ({
    normal: unit([random.normal(), random.normal(), random.normal()]),
    distance: 0.68 + 0.2 * random.uniform(),
  }));
  const mesh = pushed(([x, y, z]) => {
    const lumps = 0.3 * noise(1.4 * x + 3, 1.4 * y, 1.4 * z);
    // Folded noise makes sharp ridges where it changes sign.
    const ridges = 0.22 * (0.35 - Math.abs(noise(2.3 * x, 2.3 * y + 7, 2.3 * z)));
    const grit = 0.09 * noise(5.1 * x, 5.1 * y, 5.1 * z + 4);
    let reach = squircle([x, y, z], 2.8) * (1 + lumps + ridges + grit);
    for (const { normal, distance } of flats) {
      const towards = dot(normal, [x, y, z]);
      if (towards > 0) reach = Math.min(reach, (distance * (1 + 0.5 * grit)) / towards);
    }
    return reach;
  });
  return { mesh, across: leaning(random, 0.3) };
}
