import { scapeScene } from "../packages/core/src/design/index.ts";
import { elevationDrawing, planDrawing, type ScapeScene } from "../packages/core/src/drawing/index.ts";
import { applyToRaw, resolvePlan } from "../packages/core/src/plan/index.ts";
import { type Board, groundAt, lightScene, moveTo, scapeOf } from "../packages/core/src/scape/index.ts";
import { trace } from "../packages/core/src/tracer/index.ts";
import { boardFrames } from "./board-frames.ts";
import { crowded } from "./crowded.ts";
import { quantilesOf } from "./timing.ts";

/** The drawing board: work of one frame while a piece is moved over a crowded scape; a dimmer that redraws the map. */
export async function run(): Promise<{ name: string; lines: string[] }> {
  const name = "The drawing board: 60 stones, 12 woods, 25 plantings, 4 lamps (bars: p95 <= 33 ms of work a frame)";
  const raw = crowded();
  const resolved = resolvePlan(raw);
  if (!resolved.ok) throw new Error(JSON.stringify(resolved.faults.slice(0, 3)));
  const board: Board = { raw, scape: scapeOf(resolved.plan), units: "metric" };
  let scene: ScapeScene | undefined;
  const times: { model: number[]; plan: number[]; front: number[]; all: number[] } = {
    model: [],
    plan: [],
    front: [],
    all: [],
  };
  for (let i = 0; i < 140; i++) {
    const start = performance.now();
    const changes = moveTo(board, { kind: "piece", index: 7 }, 0.3 + 0.004 * i, 0.2 + 0.001 * i);
    const moved = resolvePlan(applyToRaw(raw, changes));
    if (!moved.ok) throw new Error("a move broke the plan");
    scene = scapeScene(scapeOf(moved.plan), scene);
    const made = performance.now();
    planDrawing(scene, { width: 560, selected: { kind: "piece", index: 7 } });
    const drawn = performance.now();
    elevationDrawing(scene, { width: 760, selected: { kind: "piece", index: 7 } });
    const end = performance.now();
    if (i < 20) continue;
    times.model.push(made - start);
    times.plan.push(drawn - made);
    times.front.push(end - drawn);
    times.all.push(end - start);
  }
  const light = lightScene(board.scape)!;
  const traced = trace(light.scene, { photons: 2000, directNoise: 0.2 });
  const dim: number[] = [];
  for (let i = 0; i < 60; i++) {
    const start = performance.now();
    const ground = groundAt(light, traced, [1, 0.5, i / 60, 1]);
    planDrawing(scene!, { width: 560, light: { ...ground, levels: [20, 40, 60, 80, 100] } });
    if (i >= 10) dim.push(performance.now() - start);
  }
  const line = (what: string, list: readonly number[]): string => {
    const { median, p95, max } = quantilesOf([...list]);
    return `${what.padEnd(46)} median ${median.toFixed(1).padStart(6)} ms   p95 ${p95.toFixed(1).padStart(6)} ms   max ${max.toFixed(1)} ms`;
  };
  return {
    name,
    lines: [
      line("a piece moved: plan, scape and scene", times.model),
      line("  the plan drawn", times.plan),
      line("  the elevation drawn", times.front),
      line("  all of one frame", times.all),
      line("a dimmer moved: map and plan drawn", dim),
      ...(await boardFrames(raw)),
    ],
  };
}
