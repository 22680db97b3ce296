export { type ElevationDrawing, elevationDrawing } from "./elevation.ts";
export type { SectionOptions } from "./frame.ts";
export type { PieceForm } from "./mesh-piece.ts";
export { type DrawingNode, toSvg } from "./node.ts";
export { type PlanDrawing, planDrawing } from "./plan.ts";
export type {
  ElevationOptions,
  ElevationShow,
  LightMap,
  PlanOptions,
  PlanShow,
  Selected,
  WrittenLength,
} from "./plan-options.ts";
export { type KeyRow, keyOf } from "./scape-key.ts";
export type {
  Point2,
  ScapeLamp,
  ScapeLayer,
  ScapePiece,
  ScapeScene,
  ScapeTank,
  ScapeZone,
} from "./scape-scene.ts";
export { zoneTones } from "./scape-tones.ts";
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
export { type Marked, selectionMarks } from "./selection.ts";
export { type StandaloneOptions, standaloneSvg } from "./standalone.ts";
export { drawingCss, lightTokens, roomTokens, type Tokens, tokenCss } from "./styles.ts";
export { fitted, textWidth } from "./text.ts";
