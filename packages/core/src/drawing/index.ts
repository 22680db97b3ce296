export type { SectionOptions } from "./frame.ts";
export { type DrawingNode, toSvg } from "./node.ts";
export { drawMesh, fromFront, type PieceForm } from "./mesh-piece.ts";
export { type PlanDrawing, type PlanLight, type PlanOptions, planDrawing } from "./scape-plan.ts";
export type {
  Point2,
  ScapeLamp,
  ScapeLayer,
  ScapePiece,
  ScapeScene,
  ScapeTank,
  ScapeZone,
} from "./scape-scene.ts";
export type {
  Body,
  Leaf,
  Place,
  PlantForm,
  SectionAnimal,
  SectionFigure,
  SectionHardscape,
  SectionLamp,
  SectionLayer,
  SectionPlant,
  SectionScene,
  SectionTank,
  Texture,
  WaterLayer,
} from "./scene.ts";
export { type Section, section } from "./section.ts";
export { type DrawingOptions, type SectionDrawing, type SectionKey, sectionDrawing } from "./section-drawing.ts";
export { type PlacedFigure, type SectionFigures, sectionFigures } from "./section-figures.ts";
export { drawingCss, lightTokens, roomTokens, type Tokens, tokenCss } from "./styles.ts";
