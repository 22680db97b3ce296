/**
 * The same tanks through Mitsuba 3, a general renderer, and through the light solver here: mean and cells of the floor's
 * light, and the processor time of one core that each takes to 1 % of noise, in one run.
 */
import type { Mesh } from "@lentic/core/solids";
import { placeMesh, stoneMesh } from "@lentic/core/solids";
import { rectangleLamp, type Scene, type TraceOptions, trace } from "@lentic/core/tracer";
import { askPython, findPython } from "./python.ts";

/** Paths of each of the renderer's two halves. */
const PATHS = 10_000_000;
const COLUMNS = 20;
const ROWS = 10;
const RUNS = 5;
/** Bars: the floor's mean, its cells beyond the noise of both (root mean square). */
const MEAN_BAR = 0.005;
const CELL_BAR = 0.01;
const WANTED = 0.01;

const box = { length: 0.6, width: 0.3, surface: 0.3, index: 1.333 };
const panel = { length: 0.4, width: 0.12, z: 0.45 };

interface Tank {
  readonly name: string;
  readonly absorption: number;
  readonly scattering?: number;
  readonly asymmetry?: number;
  readonly floor: number;
  /** Albedo of the back wall; bare water to air without. */
  readonly back?: number;
  readonly stone?: { readonly mesh: Mesh; readonly albedo: number };
  /** Thickness of panes of glass (index 1.52) that the renderer is given, m; walls are water to air without, as here. */
  readonly pane?: number;
}

function stone(): Mesh {
  const { mesh } = stoneMesh({ shape: "irregular", seed: 3, width: 0.17, breadth: 0.13, height: 0.16 });
  return placeMesh(mesh, { shift: [0.2, 0.16, -0.02] });
}

const tanks: readonly Tank[] = [
  { name: "empty, black floor", absorption: 0.4, floor: 0 },
  { name: "floor 0.30, back wall 0.50", absorption: 0.4, floor: 0.3, back: 0.5 },
  {
    name: "the same, an irregular stone",
    absorption: 0.4,
    floor: 0.3,
    back: 0.5,
    stone: { mesh: stone(), albedo: 0.15 },
  },
  {
    name: "the same floor and wall, cloudy water",
    absorption: 0.4,
    scattering: 2,
    asymmetry: 0.8,
    floor: 0.3,
    back: 0.5,
  },
];

/** What is neglected here: light that walks in the panes is lost at the water line and at the joints. */
const panes: readonly Tank[] = [0.006, 0.012].map((pane) => ({
  ...tanks[1]!,
  name: `panes of ${1000 * pane} mm`,
  pane,
}));

function sceneOf(tank: Tank): Scene {
  const { absorption, scattering = 0, asymmetry = 0 } = tank;
  const materials = [{ albedo: [tank.floor] }, { albedo: [tank.stone?.albedo ?? 0] }];
  return {
    box,
    bands: [{ absorption, scattering, asymmetry }],
    walls: {
      left: "bare",
      right: "bare",
      front: "bare",
      back: tank.back === undefined ? "bare" : { albedo: [tank.back] },
    },
    materials,
    ground: null,
    cells: { columns: COLUMNS, rows: ROWS },
    groundMaterial: 0,
    solids: tank.stone ? [{ mesh: tank.stone.mesh, material: 1 }] : [],
    water: null,
    lamps: [
      {
        ...rectangleLamp(
          { x: box.length / 2, y: box.width / 2, z: panel.z, length: panel.length, width: panel.width },
          box.surface,
        ),
        beam: { kind: "lobe", exponent: 1 },
      },
    ],
  };
}

function asked(tank: Tank): unknown {
  return {
    length: box.length,
    width: box.width,
    depth: box.surface,
    index: box.index,
    absorption: tank.absorption,
    scattering: tank.scattering ?? 0,
    asymmetry: tank.asymmetry ?? 0,
    floor: tank.floor,
    walls: { left: null, right: null, front: null, back: tank.back ?? null },
    pane: tank.pane ?? 0,
    lamp: panel,
    columns: COLUMNS,
    rows: ROWS,
    stone: tank.stone
      ? {
          positions: Array.from(tank.stone.mesh.positions),
          triangles: Array.from(tank.stone.mesh.triangles),
          albedo: tank.stone.albedo,
        }
      : null,
  };
}

const mean = (v: ArrayLike<number>): number => Array.from(v).reduce((a, b) => a + b, 0) / v.length;
/** Root mean square of what two maps differ by, as a share of their mean. */
const apart = (a: ArrayLike<number>, b: ArrayLike<number>): number =>
  Math.sqrt(mean(Array.from(a, (v, i) => (v - b[i]!) ** 2))) / mean(a);

function floorOf(scene: Scene, options: TraceOptions): Float64Array {
  return trace(scene, options).lamps[0]!.ground[0]!;
}

/** Processor time that a map wanted to 1 % takes, s, and what it differs by from a fine one. */
function pace(scene: Scene, fine: Float64Array): { seconds: number; error: number } {
  const options = { photons: 2_000_000, noise: WANTED };
  const times = Array.from({ length: RUNS }, () => {
    const start = process.cpuUsage();
    trace(scene, options);
    const { user, system } = process.cpuUsage(start);
    return (user + system) / 1e6;
  }).sort((a, b) => a - b);
  return { seconds: times[Math.floor(RUNS / 2)]!, error: apart(floorOf(scene, options), fine) };
}

const percent = (x: number): string => `${(100 * x).toFixed(2)} %`;
const verdict = (good: boolean): string => (good ? "met" : "NOT met");

interface Answer {
  /** Processor time of both halves, s. */
  readonly seconds: number;
  /** The floor's map, 1/m2, from each half of the paths. */
  readonly halves: readonly number[][];
}

function beside(tank: Tank, answer: Answer): string[] {
  const [first, second] = answer.halves as [number[], number[]];
  const theirs = first.map((v, i) => (v + second[i]!) / 2);
  const scene = sceneOf(tank);
  const fine = floorOf(scene, { photons: 4_000_000, directNoise: 0.001, seed: 5 });
  const single = apart(first, second) / Math.SQRT2;
  const theirNoise = single / Math.SQRT2;
  const off = mean(fine) / mean(theirs) - 1;
  const cells = apart(theirs, fine);
  const beyond = Math.sqrt(Math.max(0, cells ** 2 - theirNoise ** 2));
  const own = pace(scene, fine);
  // noise falls with the root of the work; ours is never scaled down
  const mine = own.seconds * Math.max(1, own.error / WANTED) ** 2;
  const toOne = (answer.seconds / 2) * (single / WANTED) ** 2;
  return [
    `${tank.name}`,
    `  mean ${mean(fine).toFixed(4)} 1/m2, Mitsuba ${mean(theirs).toFixed(4)}: ${percent(off)} apart, bar ${percent(MEAN_BAR)}: ${verdict(Math.abs(off) <= MEAN_BAR)}`,
    `  cells ${percent(cells)} apart (rms), of which Mitsuba's noise is ${percent(theirNoise)}: ${percent(beyond)} beyond it, bar ${percent(CELL_BAR)}: ${verdict(beyond <= CELL_BAR)}`,
    `  to 1 %: here ${mine.toFixed(3)} s (${own.seconds.toFixed(3)} s at ${percent(own.error)}), Mitsuba ${toOne.toFixed(1)} s (${(answer.seconds / 2).toFixed(1)} s at ${percent(single)}): ratio ${(toOne / mine).toFixed(0)}`,
    `  paths/s: Mitsuba ${((2 * PATHS) / answer.seconds / 1e6).toFixed(2)} million from the floor, here ${forward(scene).toFixed(2)} million from the lamp`,
  ];
}

/** Million paths a second when all light is followed by paths. */
function forward(scene: Scene): number {
  const photons = 500_000;
  const start = process.cpuUsage();
  trace(scene, { photons, mode: "forward" });
  const { user, system } = process.cpuUsage(start);
  return photons / (user + system);
}

/** Compares and times, if a Python with Mitsuba is there. */
export async function run(): Promise<{ name: string; lines: string[] }> {
  const name = "Light beside a general renderer";
  const found = findPython("LENTIC_MITSUBA_PYTHON", "mitsuba", "mitsuba==3.9.1");
  if ("how" in found) return { name, lines: [found.how] };
  const answers = askPython<Answer[]>(found.python, "bench/renderer.py", {
    paths: PATHS,
    tanks: [...tanks, ...panes].map(asked),
  });
  const floorMean = (k: number): number => mean(answers[k]!.halves.map(mean));
  const neglected = panes.map((tank, k) => {
    const off = floorMean(tanks.length + k) / floorMean(1) - 1;
    return `${tank.name} in Mitsuba, dark at water line and joints: mean ${percent(off)} against bare walls (neglected here)`;
  });
  return { name, lines: [...tanks.flatMap((tank, k) => beside(tank, answers[k]!)), ...neglected] };
}
