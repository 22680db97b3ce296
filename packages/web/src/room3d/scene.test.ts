import { fieldFrom } from "@lentic/core/geometry";
import { icosphere, placeMesh } from "@lentic/core/solids";
import type { Mesh } from "three";
import { describe, expect, test } from "vitest";
import { demoScene, withMoved } from "./demo.ts";
import { sceneChange, shiftBetween } from "./diff.ts";
import { sharedInk } from "./ink.ts";
import { PiecePart } from "./parts/piece-part.ts";
import { Stage } from "./stage.ts";

const scene = demoScene();

/** The same scene written anew: no object is the same. */
const copy = (): typeof scene => structuredClone(scene);

describe("what changes between scenes", () => {
  test("the first scene is all new", () => {
    const change = sceneChange(null, scene);
    expect(change.tank && change.ground).toBe(true);
    expect(change.pieces.every(({ kind }) => kind === "new")).toBe(true);
    expect(change.zones.every(Boolean)).toBe(true);
  });

  test("the same scene written anew is no change", () => {
    const change = sceneChange(scene, copy());
    expect(change).toMatchObject({ tank: false, ground: false });
    expect(change.pieces.every(({ kind }) => kind === "same")).toBe(true);
    expect([...change.zones, ...change.lamps].some(Boolean)).toBe(false);
  });

  test("a moved piece is told with its shift, and what grows on it", () => {
    const change = sceneChange(scene, withMoved(scene, 5, 0.01, -0.02));
    expect(change.pieces.map(({ kind }) => kind)).toEqual(["same", "same", "same", "same", "same", "moved"]);
    const moved = change.pieces[5]!;
    if (moved.kind !== "moved") throw new Error("not moved");
    expect(moved.shift[0]).toBeCloseTo(0.01, 12);
    expect(moved.shift[1]).toBeCloseTo(-0.02, 12);
    expect(change.zones).toEqual([false, false, false, false, false, true]);
  });

  test("a turned piece is new, one taken away leaves the others as they are", () => {
    const turned = { ...scene.pieces[1]!, mesh: placeMesh(scene.pieces[1]!.mesh, { turn: 10 }) };
    const change = sceneChange(scene, { ...scene, pieces: scene.pieces.map((p, k) => (k === 1 ? turned : p)) });
    expect(change.pieces[1]!.kind).toBe("new");
    const without = sceneChange(scene, { ...scene, pieces: scene.pieces.filter((_, k) => k !== 0) });
    expect(without.pieces.every(({ kind }) => kind === "same")).toBe(true);
    expect(without.piecesFrom).toEqual([1, 2, 3, 4, 5]);
  });

  test("growth changes one planting only; another ground changes all", () => {
    const zones = scene.zones.map((z, k) => (k === 2 ? { ...z, height: 0.06 } : z));
    expect(sceneChange(scene, { ...scene, zones }).zones).toEqual([false, false, true, false, false, false]);
    const ground = fieldFrom(scene.ground, () => 0.05);
    const change = sceneChange(scene, { ...scene, ground });
    expect(change.ground).toBe(true);
    expect(change.zones.every(Boolean)).toBe(true);
    expect(change.pieces.every(({ kind }) => kind === "same")).toBe(true);
  });

  test("a shift is one only where all corners moved alike", () => {
    const { mesh } = scene.pieces[0]!;
    expect(shiftBetween(mesh, mesh)).toEqual([0, 0, 0]);
    const stretched = { ...mesh, positions: mesh.positions.map((p, k) => (k === 7 ? p + 1e-4 : p)) };
    expect(shiftBetween(mesh, stretched)).toBeNull();
    expect(shiftBetween(mesh, scene.pieces[1]!.mesh)).toBeNull();
  });
});

describe("a mesh from a scanner", () => {
  test("above 20,000 triangles is thinned for the eye before it is drawn", async () => {
    const { positions, triangles } = icosphere(34);
    const mesh = placeMesh({ positions, triangles }, { scale: 0.05, shift: [0.3, 0.2, 0.08] });
    expect(mesh.triangles.length / 3).toBeGreaterThan(20_000);
    const piece = { ...scene.pieces[4]!, mesh };
    const drawn = await new Promise<PiecePart>((resolve) => {
      const part: PiecePart = new PiecePart(piece, 1, sharedInk(), () => resolve(part));
      expect(part.object.children).toHaveLength(0);
    });
    const faces = (drawn.object.children[0] as Mesh).geometry.index!.count / 3;
    expect(faces).toBeGreaterThan(10_000);
    expect(faces).toBeLessThanOrEqual(24_000);
    drawn.dispose();
  });

  test("taken away before that is done, it is dropped without a sound", async () => {
    const { positions, triangles } = icosphere(34);
    let told = false;
    const part = new PiecePart({ ...scene.pieces[4]!, mesh: { positions, triangles } }, 1, sharedInk(), () => {
      told = true;
    });
    part.dispose();
    await new Promise((done) => setTimeout(done, 300));
    expect(told).toBe(false);
    expect(part.object.children).toHaveLength(0);
  });
});

describe("parts made anew", () => {
  const staged = () => {
    const stage = new Stage(sharedInk(), "paper", () => {});
    const first = stage.update(scene);
    return { stage, first };
  };

  test("the first time all, then only those that have changed", () => {
    const { stage, first } = staged();
    expect(first).toEqual({ pieces: 6, moved: 0, zones: 6, lamps: 1, ground: true });
    expect(stage.update(copy())).toEqual({ pieces: 0, moved: 0, zones: 0, lamps: 0, ground: false });
    const children = [...stage.object.children];
    // the pebble lies beside the plantings
    const nudged = stage.update(withMoved(scene, 4, 0.002, 0));
    expect(nudged).toMatchObject({ pieces: 0, moved: 1, lamps: 0, ground: false });
    expect(nudged.zones).toBeLessThanOrEqual(1);
    expect(children.filter((child) => !stage.object.children.includes(child)).length).toBe(nudged.zones);
  });

  test("a stone set into a planting parts its plants", () => {
    const { stage } = staged();
    const rebuilt = stage.update(withMoved(scene, 4, -0.2, 0.02));
    expect(rebuilt).toMatchObject({ pieces: 0, moved: 1, ground: false });
    expect(rebuilt.zones).toBe(1);
  });

  test("growing plants are grown anew, the others stay", () => {
    const { stage } = staged();
    const zones = scene.zones.map((z, k) => (k === 0 ? { ...z, cover: 0.3 } : z));
    expect(stage.update({ ...scene, zones })).toEqual({ pieces: 0, moved: 0, zones: 1, lamps: 0, ground: false });
  });

  test("a line of sight meets the nearest thing", () => {
    const { stage } = staged();
    const pebble = stage.middle(4)!;
    const met = stage.meet({ from: [pebble[0], -1, 0.045], way: [0, 1, 0] });
    expect(met?.thing).toEqual({ kind: "piece", index: 4 });
    expect(stage.meet({ from: [0.372, 0.18, 2], way: [0, 0, -1] })?.thing).toEqual({ kind: "lamp", index: 0 });
    expect(stage.meet({ from: [0.17, 0.08, 0.4], way: [0, 0, -1] })?.thing).toEqual({ kind: "zone", index: 2 });
    expect(stage.meet({ from: [0, -1, 0.3], way: [-1, 0, 0] })).toBeNull();
  });
});
