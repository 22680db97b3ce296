/** A piece of known form in the section: seen from the front, its foot hidden later by the ground before it. */
import type { Frame } from "./frame.ts";
import { crestOf, drawMesh, fromFront, type PieceForm } from "./mesh-piece.ts";
import { group } from "./node.ts";
import { streamOf } from "./random.ts";
import type { DrawnScene, SectionHardscape } from "./scene.ts";
import type { Perch } from "./stage.ts";
import type { Drawn } from "./stone.ts";

/** Half the thickness of a limb that a plant holds on to, px. Design value. */
const limb = 6;
const perchesOf = { stone: 9, wood: 17 } as const;

export function drawForm(
  scene: DrawnScene,
  frame: Frame,
  piece: SectionHardscape,
  form: PieceForm,
  index: number,
): Drawn {
  const { inner, scale } = frame;
  const random = streamOf(scene.seed, "form", index);
  const view = {
    ...fromFront,
    project: (x: number, _y: number, z: number) => [inner.left + x * scale, inner.bottom - z * scale] as const,
  };
  const drawn = drawMesh(form, view, random, frame.compact ? 5 : 3.6);
  const half = (drawn.box.right - drawn.box.left) / 2;
  const perches = crestOf(drawn, perchesOf[form.kind]).map(
    (point, i, all): Perch => ({
      point,
      heading: (i - (all.length - 1) / 2) * (1.1 / all.length),
      radius: form.kind === "wood" ? limb : half,
      depth: piece.depth,
      on: form.kind,
    }),
  );
  return { nodes: [group("d-piece", drawn.nodes)], perches, box: drawn.box };
}
