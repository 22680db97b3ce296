import { scapeScene } from "@lentic/core/design";
import { drawingCss, elevationDrawing, planDrawing, tokenCss, toSvg } from "@lentic/core/drawing";
import { type Scape, scapeOf } from "@lentic/core/scape";
import { type Mesh, writeGlb } from "@lentic/core/solids";
import { exit, InputError } from "../fault.ts";
import { resolvedPlan } from "../plan-file.ts";
import { save } from "../save.ts";
import { standalone } from "../standalone.ts";

export interface DrawOptions {
  readonly view: "plan" | "front";
  readonly out?: string;
  readonly width: string;
  readonly dark?: boolean;
  readonly gltf?: string;
  readonly alternative?: string;
}

/** Colours of a model's parts, red, green and blue 0..1. Design values. */
const stone = [0.45, 0.48, 0.47] as const;
const wood = [0.62, 0.48, 0.3] as const;

/** glTF has y upwards and looks along -z: x to the right, height up, the back pane away from the viewer. */
function yUp({ positions, triangles }: Mesh): Mesh {
  const turned = new Float64Array(positions.length);
  for (let i = 0; i < positions.length; i += 3) {
    turned[i] = positions[i]!;
    turned[i + 1] = positions[i + 2]!;
    turned[i + 2] = -positions[i + 1]!;
  }
  return { positions: turned, triangles };
}

/** Stones and wood where they lie, for other programs. */
function model({ pieces }: Scape): Uint8Array {
  return writeGlb(
    pieces.map((p) => ({
      name: `${p.key} ${p.names[0]}`,
      mesh: yUp(p.mesh),
      colour: p.kind === "stone" ? stone : wood,
    })),
  );
}

/** Draws the scape to scale, or writes its stones and wood as a model. */
export function drawCommand(file: string, options: DrawOptions): number {
  const width = Number(options.width);
  if (!(width >= 160 && width <= 2400)) {
    throw new InputError(`--width ${options.width} will not do; allowed: 160 to 2400 px`);
  }
  const scape = scapeOf(resolvedPlan(file, options.alternative));
  if (options.gltf !== undefined) {
    if (scape.pieces.length === 0) throw new InputError("the plan has no stones and no wood to write");
    save(options.gltf, model(scape));
    process.stdout.write(`${options.gltf}: ${scape.pieces.length} pieces, glTF 2.0\n`);
    if (options.out === undefined) return exit.fine;
  }
  const scene = scapeScene(scape);
  const { node } = options.view === "plan" ? planDrawing(scene, { width }) : elevationDrawing(scene, { width });
  const svg = standalone(toSvg(node), `${tokenCss}${drawingCss}`, options.dark === true);
  if (options.out === undefined) process.stdout.write(svg);
  else {
    save(options.out, svg);
    process.stdout.write(`${options.out}: the scape ${options.view === "plan" ? "from above" : "from the front"}\n`);
  }
  return exit.fine;
}
