/** An invented tank for tests and for looking at: slate and wood on a bank that rises to the right and back. */
import type { SectionFigure, SectionScene } from "./scene.ts";

export const demoScene: SectionScene = {
  tank: { length: 0.76, width: 0.38, height: 0.4, glass: 0.008, base: 0.008, waterLine: 0.372, cover: "open" },
  layers: [
    { material: "gravel", frontLeft: 0.01, frontRight: 0.03, backLeft: 0.012, backRight: 0.05 },
    { material: "soil", frontLeft: 0.02, frontRight: 0.04, backLeft: 0.026, backRight: 0.1 },
  ],
  hardscape: [
    { kind: "wood", texture: "layered", at: 0.575, depth: 0.56, width: 0.5, height: 0.29, lean: -0.6 },
    { kind: "stone", texture: "layered", at: 0.72, depth: 0.5, width: 0.13, height: 0.2, lean: -0.5 },
    { kind: "stone", texture: "layered", at: 0.84, depth: 0.66, width: 0.11, height: 0.1, lean: -0.3 },
    { kind: "stone", texture: "layered", at: 0.56, depth: 0.38, width: 0.1, height: 0.09, lean: -0.6 },
    { kind: "stone", texture: "layered", at: 0.93, depth: 0.42, width: 0.08, height: 0.05, lean: 0.3 },
  ],
  plants: [
    { label: "Vallisneria nana", form: "runner", at: 0.83, depth: 0.92, width: 0.19, height: 0.4, leaf: "ribbon" },
    { label: "Bolbitis heudelotii", form: "rhizome", at: 0.54, width: 0.2, height: 0.12, leaf: "fern" },
    { label: "Hygrophila pinnatifida", form: "stem", at: 0.91, depth: 0.52, width: 0.13, height: 0.17, leaf: "lobed" },
    { label: "Cryptocoryne wendtii", form: "rosette", at: 0.42, depth: 0.4, width: 0.12, height: 0.11, leaf: "oval" },
    { label: "Staurogyne repens", form: "carpet", at: 0.68, depth: 0.35, width: 0.3, height: 0.045, leaf: "oval" },
    { label: "Eleocharis acicularis", form: "carpet", at: 0.26, depth: 0.3, width: 0.38, height: 0.04, leaf: "needle" },
  ],
  animals: [
    { label: "Boraras brigittae", body: "slender", layer: "mid", count: 14, length: 0.018 },
    { label: "Corydoras habrosus", body: "catfish", layer: "bottom", count: 8, length: 0.028 },
    { label: "Neocaridina davidi", body: "shrimp", layer: "bottom", count: 20, length: 0.025 },
  ],
  lamp: { kind: "bar", length: 0.6, aboveRim: 0.09, strength: 0.65, caption: "bar lamp, 46 W at 65 %" },
  pipes: { outlet: true, intake: true, ripple: 3 },
  diffuser: { device: "ceramic disc", bubbles: 1.4 },
  heater: true,
  thermometer: 24.4,
  seed: 7,
};

export const demoFigures: readonly SectionFigure[] = [
  { id: "flow", label: "outlet, measured", value: "380", unit: "L/h", note: "of 650 rated", place: "outlet" },
  { id: "ripple", label: "surface ripple", value: "3", unit: "of 4", note: "whole surface", place: "surface" },
  {
    id: "co2",
    label: "CO2 at lights-on",
    value: "18.4",
    unit: "mg/L",
    note: "low, 16 to 21",
    place: "water-upper",
    selected: true,
  },
  { id: "oxygen", label: "O2 at dawn", value: "7.4", unit: "mg/L", note: "fine, 7.1 to 7.7", place: "water" },
  { id: "warmth", label: "water, now", value: "24.4", unit: "°C", note: "fine, 24.0 to 24.8", place: "thermometer" },
  {
    id: "bubbles",
    label: "diffuser, counted",
    value: "1.4",
    unit: "bubbles/s",
    note: "0.25 mg each",
    place: "diffuser",
  },
  {
    id: "light",
    label: "PPFD at the carpet",
    value: "72",
    unit: "µmol/m²s",
    note: "fine, 58 to 90",
    place: "substrate",
  },
];
