export { partSolid, type SolidParts, volumeBelowField, volumeBelowLevel } from "./below.ts";
export { type HeightMaps, heightMaps, overlapVolume, unionVolume } from "./columns.ts";
export { type Bounds, meshArea, meshBounds, meshCentroid, meshVolume } from "./measure.ts";
export type { Mesh } from "./mesh.ts";
export { type Footprint, footprint, silhouetteEdges } from "./outline.ts";
export { joinMeshes, type Placement, placeDirection, placeMesh, placeNormal } from "./place.ts";
export { type BeyondBox, beyondBox, floatingGap, type Resting, restingHeight } from "./rest.ts";
export type { Point3 } from "./vector.ts";
