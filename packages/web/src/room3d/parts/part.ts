import type { Object3D } from "three";
import type { Theme } from "../look.ts";

/** One thing of the scene as it is drawn. */
export interface Part {
  readonly object: Object3D;
  dress(theme: Theme): void;
  choose(chosen: boolean): void;
  dispose(): void;
}
