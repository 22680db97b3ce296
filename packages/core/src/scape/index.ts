export { type Amount, type Bill, type BillGroup, type BillItem, billCsv, billOf, settling } from "./bill.ts";
export { placeWords, type ScapeFinding, type ScapeSeverity, scapeFindings } from "./checks.ts";
export {
  addEdge,
  addLamp,
  addPiece,
  addSand,
  addZone,
  type Board,
  brushed,
  brushedField,
  brushedLayer,
  drawZone,
  duplicate,
  group,
  heightRows,
  laid,
  lengthText,
  letDown,
  lock,
  moveTo,
  pathOfTarget,
  raiseTo,
  resize,
  type Sizes,
  scaleBy,
  type Target,
  takeOut,
  targetName,
  turnTo,
} from "./edits.ts";
export type { PlacedPiece } from "./pieces.ts";
export { type Scape, type ScapeLayer, scapeOf } from "./scape.ts";
export { areaAbout, letterOf, portionsFor, type Zone } from "./zones.ts";
