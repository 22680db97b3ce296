export {
  coverOf,
  type FloorCover,
  type FloorGrid,
  floorCover,
  floorGrid,
  isTaken,
  type PieceCover,
} from "./columns.ts";
export { groundMesh, laidLine, topMaterials } from "./ground-mesh.ts";
export { lampAxes, lampThickness } from "./lamp-body.ts";
export { type Stand, standsOf, widthOf } from "./placement.ts";
export { drawnHeight, plantSets, settingOf } from "./plant-set.ts";
export { add, cross, dot, minus, times, unit, type Vector } from "./plants/vector.ts";
export { scapeGlb } from "./scape-glb.ts";
