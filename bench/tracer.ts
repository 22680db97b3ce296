/**
 * Times the light solver on one core, in processor time, so that other work on the machine shows less; the median of
 * several runs counts.
 */
import { fieldFrom } from "@lentic/core/geometry";
import { placeMesh, stoneMesh } from "@lentic/core/solids";
import { rectangleLamp, type Scene, type TraceOptions, trace, weigh } from "@lentic/core/tracer";

const RUNS = 5;
/** Bars: paths per second in the empty tank, and with six bands and the water's light; a scape's map, s. */
const EMPTY_BAR = 3e6;
const WATER_BAR = 0.3e6;
const MAP_BAR = 1;
const WANTED = 0.01;

function emptyTank(bands: number, water: Scene["water"]): Scene {
  return {
    box: { length: 0.6, width: 0.3, surface: 0.3, index: 1.333 },
    bands: Array.from({ length: bands }, (_, b) => ({ absorption: 0.4 + 0.01 * b })),
    walls: { left: "bare", right: "bare", front: "bare", back: "bare" },
    materials: [{ albedo: Array.from({ length: bands }, () => (water ? 0.3 : 0)) }],
    ground: null,
    cells: { columns: 30, rows: 15 },
    groundMaterial: 0,
    solids: [],
    water,
    lamps: [
      {
        ...rectangleLamp({ x: 0.3, y: 0.15, z: 0.45, length: 0.4, width: 0.12 }, 0.3),
        beam: { kind: "lobe", exponent: 1 },
      },
    ],
  };
}

/** A sloped bed with five stones under one bar. */
function scape(): Scene {
  const [length, width, surface] = [0.744, 0.364, 0.372];
  const bed = (y: number): number => 0.02 + (0.13 * y) / width;
  const absorption = [0.5, 0.3, 0.15, 0.12, 0.3, 0.46];
  const places = [
    [0.15, 0.2],
    [0.3, 0.1],
    [0.42, 0.22],
    [0.55, 0.12],
    [0.65, 0.25],
  ] as const;
  return {
    box: { length, width, surface, index: 1.333 },
    bands: absorption.map((a) => ({ absorption: a })),
    walls: { left: "bare", right: "bare", front: "bare", back: "bare" },
    materials: [{ albedo: absorption.map(() => 0.08) }, { albedo: absorption.map(() => 0.22) }],
    ground: fieldFrom({ length, width, columns: 25, rows: 13 }, (_, y) => bed(y)),
    cells: { columns: 50, rows: 24 },
    groundMaterial: 0,
    solids: places.map(([x, y], k) => {
      const { mesh } = stoneMesh({ shape: "irregular", seed: k + 1, width: 0.15, breadth: 0.12, height: 0.15 });
      return { mesh: placeMesh(mesh, { shift: [x, y, bed(y) - 0.03] }), material: 1 };
    }),
    water: null,
    lamps: [
      {
        ...rectangleLamp({ x: length / 2, y: width / 2, z: surface + 0.102, length: 0.6, width: 0.06 }, surface),
        beam: { kind: "lobe", exponent: 1 },
      },
    ],
  };
}

function seconds(work: () => void): number {
  const times = Array.from({ length: RUNS }, () => {
    const start = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(start);
    return (user + system) / 1e6;
  });
  return times.sort((a, b) => a - b)[Math.floor(RUNS / 2)]!;
}

const verdict = (good: boolean): string => (good ? "reached" : "MISSED");

function pace(name: string, scene: Scene, paths: number, bar: number): string {
  const options: TraceOptions = { photons: paths, mode: "forward" };
  trace(scene, { ...options, photons: paths / 10 });
  const rate = paths / seconds(() => trace(scene, options));
  return `${name.padEnd(52)} ${(rate / 1e6).toFixed(2).padStart(6)} million paths/s   bar ${bar / 1e6}: ${verdict(rate >= bar)}`;
}

const evenly = Array.from({ length: 6 }, () => 1 / 6);

export async function run(): Promise<{ name: string; lines: string[] }> {
  const lines = [
    pace("empty tank, one band", emptyTank(1, null), 2_000_000, EMPTY_BAR),
    pace(
      "six bands, floor 0.30, 6750 cells of water",
      emptyTank(6, { columns: 30, rows: 15, layers: 15 }),
      300_000,
      WATER_BAR,
    ),
  ];
  const scene = scape();
  const options: TraceOptions = { photons: 400_000, noise: WANTED };
  trace(scene, options);
  const time = seconds(() => trace(scene, options));
  const result = trace(scene, options);
  const fine = weigh(trace(scene, { photons: 3_000_000, directNoise: 0.001, seed: 77 }), [evenly]);
  const map = weigh(result, [evenly]);
  const mean = fine.reduce((a, b) => a + b, 0) / fine.length;
  const error = Math.sqrt(fine.reduce((sum, v, i) => sum + (map[i]! - v) ** 2, 0) / fine.length) / mean;
  const { paths, noise } = result.lamps[0]!;
  const percent = (x: number): string => `${(100 * x).toFixed(2)} %`;
  lines.push(
    `scape with five stones, six bands, 1200 cells: ${time.toFixed(2)} s   bar ${MAP_BAR} s: ${verdict(time <= MAP_BAR)}`,
    `  its error against a fine trace ${percent(error)} rms, bar ${percent(WANTED)}: ${verdict(error <= WANTED)}; stated ${percent(noise.total)}, ${paths} paths`,
  );
  let sink = 0;
  const weighing = seconds(() => {
    for (let k = 0; k < 10_000; k++) sink += weigh(result, [evenly])[k % 1200]!;
  });
  lines.push(`dimmer: that map weighed anew in ${((weighing / 10_000) * 1e6).toFixed(0)} microseconds`);
  if (!Number.isFinite(sink)) throw new Error("a map is not finite");
  return { name: "Light solver, one core (processor time)", lines };
}
