/** What every artist of the section is handed, and what it hands back. */
import type { Frame } from "./frame.ts";
import type { Box, Point } from "./geometry.ts";
import type { Ground } from "./ground.ts";
import type { DrawingNode } from "./node.ts";
import type { DrawnScene } from "./scene.ts";

/** A place on wood or stone where something can grow or sit. */
export interface Perch {
  readonly point: Point;
  /** Away from the surface, rad from upright. */
  readonly heading: number;
  /** Half the thickness of a limb, px; for stone its half width. */
  readonly radius: number;
  readonly depth: number;
  readonly on: "wood" | "stone";
}

export interface Stage {
  readonly scene: DrawnScene;
  readonly frame: Frame;
  readonly ground: Ground;
  /** Where plants and animals may be: inside the glass and under the surface. */
  readonly water: Box;
  readonly perches: readonly Perch[];
  /** 1 for a tank with a few plants, less for one with many: how full each of them is drawn. */
  readonly fullness: number;
}

/** Something to be painted; what lies deeper is painted first. */
export interface Item {
  readonly depth: number;
  readonly nodes: readonly DrawingNode[];
}

/** What animals need to know of where they are. */
export interface AnimalStage {
  readonly scene: Pick<DrawnScene, "animals" | "seed">;
  readonly frame: Pick<Frame, "scale">;
  readonly ground: Pick<Ground, "y">;
  readonly water: Box;
  readonly perches: readonly Perch[];
}
