/** Invented scapes for tests and for looking at the view. */
import type { Leaf, PlantForm, Point2, ScapePiece, ScapeScene, ScapeTank, ScapeZone } from "@lentic/core/drawing";
import { fieldFrom, fieldHeight, type HeightField } from "@lentic/core/geometry";
import { meshBounds, placeDirection, placeMesh, placeNormal, stoneMesh, woodMesh } from "@lentic/core/solids";

const demoTank: ScapeTank = {
  length: 0.744,
  width: 0.364,
  height: 0.392,
  glass: 0.008,
  base: 0.008,
  waterLine: 0.38,
  cover: "open",
};

interface PieceForm {
  readonly kind: "stone" | "wood";
  readonly texture: ScapePiece["texture"];
  readonly size: readonly [width: number, breadth: number, height: number];
  readonly at: Point2;
  readonly buried: number;
  readonly turn: number;
  readonly seed: number;
}

/** A piece set down with a share of its height in the ground. */
function setPiece(index: number, form: PieceForm, ground: HeightField): ScapePiece {
  const { kind, texture, size, at, buried, turn, seed } = form;
  const [width, breadth, height] = size;
  const made =
    kind === "stone"
      ? stoneMesh({ width, breadth, height, shape: texture, seed })
      : woodMesh({ width, breadth, height, branches: 7, seed });
  const turned = placeMesh(made.mesh, { turn });
  const { min, max } = meshBounds(turned);
  const foot = fieldHeight(ground, at[0], at[1]) - buried * (max[2] - min[2]) - min[2];
  return {
    index,
    key: `${kind === "stone" ? "S" : "W"}${index + 1}`,
    label: kind === "stone" ? "slate" : "branching wood",
    kind,
    texture,
    mesh: placeMesh(turned, { shift: [at[0], at[1], foot] }),
    grain: (kind === "stone" ? placeNormal : placeDirection)(made.grain, { turn }),
    locked: false,
  };
}

function bank({ length, width }: ScapeTank): HeightField {
  return fieldFrom({ length, width, columns: 65, rows: 33 }, (x, y) => {
    const [u, v] = [x / length, y / width];
    const rise = Math.min(1, Math.max(0, v));
    return (
      0.03 +
      0.05 * rise * rise * (3 - 2 * rise) * (0.5 + u) +
      0.02 * Math.exp(-(((u - 0.68) / 0.2) ** 2) - ((v - 0.6) / 0.3) ** 2)
    );
  });
}

/** An ellipse as an outline, m. */
function oval(x: number, y: number, wide: number, deep: number): readonly Point2[] {
  return Array.from({ length: 20 }, (_, k): Point2 => {
    const a = (2 * Math.PI * k) / 20;
    return [x + wide * Math.cos(a), y + deep * Math.sin(a)];
  });
}

const stones: readonly Omit<PieceForm, "kind">[] = [
  { texture: "layered", size: [0.18, 0.11, 0.2], at: [0.5, 0.22], buried: 0.16, turn: 12, seed: 11 },
  { texture: "layered", size: [0.12, 0.09, 0.13], at: [0.62, 0.2], buried: 0.2, turn: 40, seed: 18 },
  { texture: "layered", size: [0.15, 0.1, 0.09], at: [0.45, 0.11], buried: 0.25, turn: 5, seed: 25 },
  { texture: "faceted", size: [0.1, 0.08, 0.07], at: [0.26, 0.15], buried: 0.3, turn: 60, seed: 32 },
  { texture: "rounded", size: [0.07, 0.055, 0.045], at: [0.38, 0.06], buried: 0.25, turn: 20, seed: 39 },
];

const plants: readonly Omit<ScapeZone, "index" | "key">[] = [
  {
    label: "Vallisneria nana",
    form: "runner",
    leaf: "ribbon",
    outline: oval(0.19, 0.32, 0.16, 0.034),
    height: 0.35,
    cover: 0.7,
    on: null,
    spread: 0.05,
  },
  {
    label: "Hygrophila pinnatifida",
    form: "stem",
    leaf: "lobed",
    outline: oval(0.6, 0.315, 0.13, 0.038),
    height: 0.2,
    cover: 0.75,
    on: null,
    spread: 0.05,
  },
  {
    label: "Eleocharis acicularis",
    form: "carpet",
    leaf: "needle",
    outline: oval(0.17, 0.08, 0.16, 0.07),
    height: 0.05,
    cover: 0.8,
    on: null,
    spread: 0.02,
  },
  {
    label: "Staurogyne repens",
    form: "carpet",
    leaf: "oval",
    outline: oval(0.63, 0.05, 0.1, 0.04),
    height: 0.044,
    cover: 0.75,
    on: null,
    spread: 0.025,
  },
  {
    label: "Cryptocoryne wendtii",
    form: "rosette",
    leaf: "oval",
    outline: oval(0.67, 0.15, 0.055, 0.045),
    height: 0.09,
    cover: 0.6,
    on: null,
    spread: 0.075,
  },
  {
    label: "Bolbitis heudelotii",
    form: "rhizome",
    leaf: "fern",
    outline: oval(0.3, 0.21, 0.16, 0.06),
    height: 0.13,
    cover: 0.55,
    on: 5,
    spread: 0.1,
  },
];

/** Five stones, a piece of wood and six plantings of different forms. */
export function demoScene(): ScapeScene {
  const ground = bank(demoTank);
  return {
    tank: demoTank,
    layers: [
      { material: "gravel", top: fieldFrom(ground, () => 0.012), within: null },
      { material: "soil", top: ground, within: null },
      { material: "sand", top: ground, within: oval(0.46, 0.02, 0.09, 0.05) },
    ],
    ground,
    edges: [],
    pieces: [
      ...stones.map((stone, k) => setPiece(k, { kind: "stone", ...stone }, ground)),
      setPiece(
        5,
        {
          kind: "wood",
          texture: "layered",
          size: [0.42, 0.16, 0.29],
          at: [0.31, 0.21],
          buried: 0.08,
          turn: 0,
          seed: 5,
        },
        ground,
      ),
    ],
    zones: plants.map((plant, index) => ({ ...plant, index, key: "ABCDEF"[index]! })),
    lamps: [
      {
        index: 0,
        kind: "bar",
        length: 0.6,
        width: 0.08,
        x: 0.372,
        y: 0.18,
        z: 0.482,
        turn: 0,
        tilt: 0,
        strength: 0.65,
        caption: "bar lamp",
      },
    ],
    animals: [],
    seed: 7,
  };
}

/** A bed of plantings beside each other: one of each leaf for some growth forms. */
export function gardenScene(forms: readonly PlantForm[]): ScapeScene {
  const leaves: readonly Leaf[] = ["ribbon", "fern", "lobed", "oval", "needle", "round"];
  const heights: Readonly<Record<PlantForm, number>> = {
    stem: 0.2,
    rosette: 0.12,
    runner: 0.3,
    carpet: 0.05,
    moss: 0.04,
    bulb: 0.25,
    rhizome: 0.12,
    floating: 0.06,
  };
  const scene = demoScene();
  const ground = fieldFrom(scene.ground, () => 0.03);
  const zones = forms.flatMap((form, row) =>
    leaves.map(
      (leaf, column): Omit<ScapeZone, "index" | "key"> => ({
        label: `${form} ${leaf}`,
        form,
        leaf,
        outline: oval(0.062 + 0.124 * column, demoTank.width * ((row + 0.5) / forms.length), 0.05, 0.05),
        height: heights[form],
        cover: 0.5,
        on: null,
        spread: form === "carpet" ? 0.025 : form === "moss" ? 0.05 : 0.08,
      }),
    ),
  );
  return {
    ...scene,
    ground,
    layers: [{ material: "soil", top: ground, within: null }],
    pieces: [],
    zones: zones.map((zone, index) => ({ ...zone, index, key: String(index) })),
  };
}

/** A full plan: 60 stones, 12 pieces of wood, 25 plantings and 4 lamps. */
export function fullScene(): ScapeScene {
  const scene = demoScene();
  const forms: readonly PlantForm[] = ["stem", "rosette", "carpet", "runner", "rhizome"];
  const pieces = Array.from({ length: 72 }, (_, k) => {
    const at: Point2 = [0.05 + 0.064 * (k % 11), 0.04 + 0.046 * Math.floor(k / 11)];
    return k < 60
      ? setPiece(
          k,
          { kind: "stone", texture: "layered", size: [0.05, 0.04, 0.04], at, buried: 0.2, turn: 31 * k, seed: k },
          scene.ground,
        )
      : setPiece(
          k,
          { kind: "wood", texture: "layered", size: [0.14, 0.06, 0.1], at, buried: 0.1, turn: 47 * k, seed: k },
          scene.ground,
        );
  });
  const lamp = scene.lamps[0]!;
  return {
    ...scene,
    pieces,
    zones: Array.from(
      { length: 25 },
      (_, index): ScapeZone => ({
        index,
        key: String(index),
        label: `planting ${index}`,
        form: forms[index % 5]!,
        leaf: (["oval", "oval", "needle", "ribbon", "fern"] as const)[index % 5]!,
        outline: oval(0.08 + 0.145 * (index % 5), 0.04 + 0.07 * Math.floor(index / 5), 0.06, 0.03),
        height: [0.18, 0.09, 0.04, 0.3, 0.1][index % 5]!,
        cover: 0.6,
        on: null,
        spread: [0.05, 0.07, 0.022, 0.05, 0.08][index % 5]!,
      }),
    ),
    lamps: [0, 1, 2, 3].map((index) => ({ ...lamp, index, length: 0.3, y: 0.1 + 0.05 * index })),
  };
}

/** The same scene with one piece moved along the floor, m. */
export function withMoved(scene: ScapeScene, index: number, x: number, y: number): ScapeScene {
  return {
    ...scene,
    pieces: scene.pieces.map((piece, k) =>
      k === index ? { ...piece, mesh: placeMesh(piece.mesh, { shift: [x, y, 0] }) } : piece,
    ),
  };
}
