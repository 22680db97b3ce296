/** An invented scape for tests and for looking at: slate and wood on a bank that rises to the right and back. */
import { fieldFrom, fieldHeight, type HeightField, outlineContains } from "../geometry/index.ts";
import { meshBounds, placeDirection, placeMesh, placeNormal, stoneMesh, woodMesh } from "../solids/index.ts";
import type { LightMap } from "./plan-options.ts";
import type { Point2, ScapePiece, ScapeScene, ScapeTank, ScapeZone } from "./scape-scene.ts";

type Triple = readonly [number, number, number];

/** A piece set down with a share of its height buried. */
export function setPiece(
  index: number,
  kind: "stone" | "wood",
  texture: ScapePiece["texture"],
  size: Triple,
  [x, y]: Point2,
  ground: HeightField,
  { turn = 0, lean = 0, buried = 0.2, seed = index * 7 + 11, branches = 6 } = {},
): ScapePiece {
  const [width, breadth, height] = size;
  const made =
    kind === "stone"
      ? stoneMesh({ width, breadth, height, shape: texture, seed })
      : woodMesh({ width, breadth, height, branches, seed });
  const turned = placeMesh(made.mesh, { lean, turn });
  const { min, max } = meshBounds(turned);
  const foot = fieldHeight(ground, x, y) - buried * (max[2] - min[2]) - min[2];
  const direction = kind === "stone" ? placeNormal : placeDirection;
  return {
    index,
    key: `${kind === "stone" ? "S" : "W"}${index + 1}`,
    label: kind === "stone" ? "slate" : "branching wood",
    kind,
    texture,
    mesh: placeMesh(turned, { shift: [x, y, foot] }),
    grain: direction(made.grain, { lean, turn }),
    locked: false,
  };
}

export const demoTank: ScapeTank = {
  length: 0.744,
  width: 0.364,
  height: 0.392,
  glass: 0.008,
  base: 0.008,
  waterLine: 0.38,
  cover: "open",
};

const eased = (t: number): number => {
  const u = Math.min(1, Math.max(0, t));
  return u * u * (3 - 2 * u);
};

/** A bank over the floor of any tank: as in the demo, in the same shares of its sides. */
export function demoGround({ length, width, height }: ScapeTank): HeightField {
  return fieldFrom({ length, width, columns: 65, rows: 33 }, (x, y) => {
    const [u, v] = [x / length, y / width];
    const crest = Math.exp(-(((u - 0.93) / 0.24) ** 2) - ((v - 0.97) / 0.4) ** 2);
    const knoll = Math.exp(-(((u - 0.67) / 0.19) ** 2) - ((v - 0.59) / 0.26) ** 2);
    return (height / 0.392) * (0.027 + 0.004 * u + 0.032 * eased(v) * (0.7 + 0.45 * u) + 0.066 * crest + 0.016 * knoll);
  });
}

const zones: readonly (readonly [
  label: string,
  form: ScapeZone["form"],
  leaf: ScapeZone["leaf"],
  height: number,
  cover: number,
  spread: number,
  outline: readonly Point2[],
])[] = [
  [
    "Vallisneria nana",
    "runner",
    "ribbon",
    0.342,
    0.72,
    0.05,
    [
      [0.034, 0.28],
      [0.1, 0.268],
      [0.18, 0.276],
      [0.262, 0.284],
      [0.33, 0.3],
      [0.386, 0.318],
      [0.384, 0.352],
      [0.3, 0.357],
      [0.17, 0.357],
      [0.06, 0.354],
      [0.028, 0.33],
    ],
  ],
  [
    "Hygrophila pinnatifida",
    "stem",
    "lobed",
    0.175,
    0.68,
    0.05,
    [
      [0.446, 0.3],
      [0.52, 0.28],
      [0.59, 0.274],
      [0.65, 0.25],
      [0.7, 0.222],
      [0.73, 0.228],
      [0.734, 0.35],
      [0.64, 0.357],
      [0.52, 0.357],
      [0.45, 0.354],
    ],
  ],
  [
    "Eleocharis acicularis",
    "carpet",
    "needle",
    0.053,
    0.78,
    0.02,
    [
      [0.012, 0.012],
      [0.12, 0.009],
      [0.25, 0.012],
      [0.35, 0.011],
      [0.396, 0.022],
      [0.392, 0.058],
      [0.372, 0.092],
      [0.33, 0.126],
      [0.262, 0.146],
      [0.18, 0.164],
      [0.1, 0.182],
      [0.04, 0.186],
      [0.012, 0.15],
    ],
  ],
  [
    "Staurogyne repens",
    "carpet",
    "oval",
    0.044,
    0.69,
    0.025,
    [
      [0.52, 0.022],
      [0.566, 0.011],
      [0.64, 0.009],
      [0.7, 0.012],
      [0.733, 0.02],
      [0.735, 0.066],
      [0.722, 0.096],
      [0.676, 0.096],
      [0.63, 0.08],
      [0.59, 0.066],
      [0.548, 0.052],
      [0.522, 0.038],
    ],
  ],
  [
    "Cryptocoryne wendtii",
    "rosette",
    "oval",
    0.09,
    0.45,
    0.075,
    [
      [0.604, 0.11],
      [0.664, 0.112],
      [0.716, 0.108],
      [0.735, 0.126],
      [0.734, 0.2],
      [0.7, 0.212],
      [0.664, 0.196],
      [0.632, 0.166],
      [0.606, 0.14],
    ],
  ],
];

const fernOutline: readonly Point2[] = [
  [0.15, 0.206],
  [0.19, 0.176],
  [0.25, 0.168],
  [0.318, 0.18],
  [0.392, 0.192],
  [0.404, 0.222],
  [0.372, 0.25],
  [0.3, 0.248],
  [0.226, 0.244],
  [0.17, 0.236],
];

const sandOutline: readonly Point2[] = [
  [0.4, -0.01],
  [0.53, -0.01],
  [0.535, 0.03],
  [0.47, 0.05],
  [0.415, 0.045],
];

const stones: readonly (readonly [size: Triple, at: Point2, buried: number])[] = [
  [[0.176, 0.104, 0.204], [0.52, 0.214], 0.16],
  [[0.112, 0.09, 0.132], [0.628, 0.24], 0.2],
  [[0.11, 0.09, 0.104], [0.422, 0.228], 0.24],
  [[0.18, 0.11, 0.095], [0.472, 0.104], 0.28],
  [[0.1, 0.072, 0.088], [0.592, 0.168], 0.22],
  [[0.118, 0.084, 0.072], [0.276, 0.172], 0.3],
  [[0.07, 0.056, 0.044], [0.398, 0.042], 0.3],
  [[0.096, 0.072, 0.056], [0.166, 0.2], 0.32],
];

/** The demo's layout in a tank of any size: places and sizes keep their shares of its sides. */
export function demoScapeIn(tank: ScapeTank): ScapeScene {
  const [kx, ky, kz] = [tank.length / demoTank.length, tank.width / demoTank.width, tank.height / demoTank.height];
  const ground = demoGround(tank);
  const at = ([x, y]: Point2): Point2 => [x * kx, y * ky];
  const sized = ([a, b, c]: Triple): Triple => [a * kx, b * ky, c * kz];
  const path = sandOutline.map(at);
  const soil = fieldFrom(
    ground,
    (x, y) => fieldHeight(ground, x, y) - (outlineContains(path, [x, y]) ? 0.012 * kz : 0),
  );
  const pieces: ScapePiece[] = stones.map(([size, place, buried], i) =>
    setPiece(i, "stone", "layered", sized(size), at(place), ground, { buried, turn: i * 37 }),
  );
  const wood = setPiece(8, "wood", "layered", sized([0.42, 0.16, 0.3]), at([0.3, 0.214]), ground, {
    buried: 0.08,
    seed: 5,
    branches: 7,
  });
  const planted = zones.map(
    ([label, form, leaf, height, cover, spread, outline], index): ScapeZone => ({
      index,
      key: "ABCDE"[index] ?? "?",
      label,
      form,
      leaf,
      outline: outline.map(at),
      height: height * kz,
      cover,
      on: null,
      spread: spread * Math.sqrt(kx * ky),
    }),
  );
  return {
    tank,
    layers: [
      { material: "soil", top: soil, within: null },
      { material: "sand", top: ground, within: path },
    ],
    ground,
    edges: [[at([0.4, 0.27]), at([0.46, 0.265]), at([0.52, 0.27])]],
    pieces: [...pieces, wood],
    zones: [
      ...planted,
      {
        index: 5,
        key: "F",
        label: "Bolbitis heudelotii",
        form: "rhizome",
        leaf: "fern",
        outline: fernOutline.map(at),
        height: 0.146 * kz,
        cover: 0.54,
        on: 8,
        spread: 0.1 * Math.sqrt(kx * ky),
      },
    ],
    lamps: [
      {
        index: 0,
        kind: "bar",
        length: 0.6 * kx,
        width: 0.08 * ky,
        x: 0.372 * kx,
        y: 0.176 * ky,
        z: tank.height + 0.09 * kz,
        turn: 0,
        tilt: 0,
        strength: 0.65,
        caption: "bar lamp, 46 W at 65 %",
      },
    ],
    animals: [
      { label: "Boraras brigittae", body: "slender", layer: "mid", count: 14, length: 0.018 },
      { label: "Corydoras habrosus", body: "catfish", layer: "bottom", count: 8, length: 0.028 },
    ],
    seed: 7,
  };
}

export const demoScape: ScapeScene = demoScapeIn(demoTank);

/** An invented light map over the floor of a scene: bright under the lamp, dim under the wood. */
export function demoLight({ tank }: ScapeScene): LightMap {
  const [columns, rows] = [48, 24];
  const values = new Float64Array(columns * rows);
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) {
      const [u, v] = [(i + 0.5) / columns, (j + 0.5) / rows];
      const lamp = Math.exp(-(((u - 0.5) / 0.46) ** 2) - ((v - 0.48) / 0.62) ** 2);
      const wood = Math.exp(-(((u - 0.34) / 0.17) ** 2) - ((v - 0.57) / 0.16) ** 2);
      const stems = Math.exp(-(((u - 0.8) / 0.2) ** 2) - ((v - 0.86) / 0.17) ** 2);
      values[j * columns + i] = 104 * lamp * (1 - 0.72 * wood) * (1 - 0.8 * stems) * (tank.height > 0 ? 1 : 0);
    }
  }
  return { columns, rows, values, levels: [20, 40, 60, 90] };
}
