import type { ScapeScene } from "@lentic/core/drawing";
import { fieldHeight } from "@lentic/core/geometry";
import { type FloorCover, type FloorGrid, groundMesh, laidLine, topMaterials } from "@lentic/core/model3d";
import {
  ClampToEdgeWrapping,
  DataTexture,
  Group,
  LinearFilter,
  Mesh,
  RGBAFormat,
  UnsignedByteType,
  Vector2,
} from "three";
import { Ink, type SharedInk } from "../ink.ts";
import type { Theme } from "../look.ts";
import { groundFragment, groundVertex } from "../shaders.ts";
import { geometryOf, lineInk, lines } from "./geometry.ts";
import type { Part } from "./part.ts";

/** The bed: its surface by material, its section behind the panes, steps and the edges of laid areas. */
export class GroundPart implements Part {
  readonly object = new Group();
  readonly #fill: Ink;
  readonly #inks: Ink[];
  readonly #cover: DataTexture;
  readonly #texels: Uint8Array;

  constructor(scene: ScapeScene, grid: FloorGrid, shared: SharedInk) {
    const { tank, ground, layers, edges } = scene;
    const mesh = groundMesh(scene);
    this.#texels = new Uint8Array(4 * grid.columns * grid.rows);
    topMaterials(layers, grid).forEach((material, cell) => {
      this.#texels[4 * cell + material] = 255;
    });
    this.#cover = new DataTexture(this.#texels, grid.columns, grid.rows, RGBAFormat, UnsignedByteType);
    this.#cover.minFilter = LinearFilter;
    this.#cover.magFilter = LinearFilter;
    this.#cover.wrapS = ClampToEdgeWrapping;
    this.#cover.wrapT = ClampToEdgeWrapping;
    this.#cover.needsUpdate = true;
    this.#fill = new Ink(shared, {
      vertex: groundVertex,
      fragment: groundFragment,
      uniforms: { uCover: this.#cover, uFloor: new Vector2(tank.length, tank.width) },
      tokens: {
        uSoil: "--d-soil",
        uSand: "--d-sand",
        uGravel: "--d-gravel",
        uSoilBack: "--d-soil-back",
        uSandBack: "--d-sand-back",
        uGravelBack: "--d-gravel-back",
        uGrainInk: "--d-grain",
        uGrainBack: "--d-grain-back",
        uShadeInk: "--d-stone-line",
        uWater: "--d-water",
      },
      side: "both",
      behind: true,
    });
    const cut = lineInk(shared, { token: "--ink", pale: 0.6 });
    const laid = lineInk(shared, { token: "--d-grain", dash: 0.012 });
    const step = lineInk(shared, { token: "--ink-2" });
    this.#inks = [this.#fill, cut, laid, step];
    const geometry = geometryOf({ position: [mesh.positions, 3], sides: [mesh.sides, 2] }, mesh.triangles);
    geometry.computeVertexNormals();
    this.object.add(new Mesh(geometry, this.#fill.material), lines(mesh.lines, cut));
    const height = (x: number, y: number): number => fieldHeight(ground, x, y) + 0.0006;
    for (const { within } of layers) if (within) this.object.add(lines(laidLine(within, true, tank, height), laid));
    for (const edge of edges) if (edge.length > 1) this.object.add(lines(laidLine(edge, false, tank, height), step));
  }

  /** The shade that the pieces throw. */
  shade({ shade }: FloorCover): void {
    for (let cell = 0; cell < shade.length; cell++) this.#texels[4 * cell + 3] = Math.round(255 * shade[cell]!);
    this.#cover.needsUpdate = true;
  }

  dress(theme: Theme): void {
    for (const ink of this.#inks) ink.dress(theme);
  }

  choose(): void {}

  dispose(): void {
    this.#cover.dispose();
    for (const child of this.object.children) (child as Mesh).geometry.dispose();
    for (const ink of this.#inks) ink.dispose();
  }
}
