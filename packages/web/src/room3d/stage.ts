import type { ScapeScene, ScapeZone } from "@lentic/core/drawing";
import { boundsOf } from "@lentic/core/geometry";
import {
  coverOf,
  type FloorCover,
  type FloorGrid,
  floorCover,
  floorGrid,
  isTaken,
  type PieceCover,
  type Stand,
  standsOf,
  type Vector,
} from "@lentic/core/model3d";
import { meshBounds } from "@lentic/core/solids";
import { Group } from "three";
import { type SceneChange, sceneChange } from "./diff.ts";
import type { SharedInk } from "./ink.ts";
import { type Theme, type Tone, tonesOf } from "./look.ts";
import { GroundPart } from "./parts/ground-part.ts";
import { LampPart } from "./parts/lamp-part.ts";
import type { Part } from "./parts/part.ts";
import { PiecePart } from "./parts/piece-part.ts";
import { TankPart } from "./parts/tank-part.ts";
import { ZonePart } from "./parts/zone-part.ts";
import { meetBox, meetLamp, meetMesh, meetPlants, type Ray } from "./pick.ts";

export type ThingKind = "piece" | "zone" | "lamp";

/** One thing of the scene: its kind and its position in the scene's own list. */
export interface Thing {
  readonly kind: ThingKind;
  readonly index: number;
}

interface Piece {
  readonly part: PiecePart;
  readonly cover: PieceCover;
  readonly min: Vector;
  readonly max: Vector;
}

interface Planting {
  readonly part: ZonePart;
  readonly tone: Tone;
}

/** How many parts a change of the scene made anew. */
export interface Rebuilt {
  readonly pieces: number;
  readonly moved: number;
  readonly zones: number;
  readonly lamps: number;
  readonly ground: boolean;
}

/** From this elevation on the eye looks at the bed from above, rad. Design value. */
const fromAbove = 0.95;

/** All parts of a scene, of which only those are made anew that have changed. */
export class Stage {
  readonly object = new Group();
  readonly #shared: SharedInk;
  readonly #redraw: () => void;
  #scene: ScapeScene | null = null;
  #grid: FloorGrid = { length: 1, width: 1, columns: 2, rows: 2 };
  #floor: FloorCover | null = null;
  #tank: TankPart | null = null;
  #ground: GroundPart | null = null;
  #pieces: Piece[] = [];
  #zones: Planting[] = [];
  #lamps: LampPart[] = [];
  #theme: Theme;
  #chosen: Thing | null = null;
  #light = true;

  constructor(shared: SharedInk, theme: Theme, redraw: () => void) {
    this.#shared = shared;
    this.#theme = theme;
    this.#redraw = redraw;
  }

  get scene(): ScapeScene {
    if (!this.#scene) throw new Error("the stage has no scene yet");
    return this.#scene;
  }

  update(scene: ScapeScene): Rebuilt {
    const before = this.#scene;
    const change = sceneChange(before, scene);
    this.#scene = scene;
    if (change.tank) {
      this.#grid = floorGrid(scene.tank);
      this.#tank = this.#put(this.#tank, new TankPart(scene.tank, this.#shared));
    }
    if (change.ground) this.#ground = this.#put(this.#ground, new GroundPart(scene, this.#grid, this.#shared));
    const touched = this.#updatePieces(scene, change);
    const disturbed = change.ground || touched.length > 0;
    if (disturbed) {
      this.#floor = floorCover(
        this.#pieces.map(({ cover }) => cover),
        scene.ground,
        this.#grid,
      );
      this.#ground?.shade(this.#floor);
    }
    const zones = this.#updateZones(scene, change, touched);
    const lamps = this.#updateLamps(scene, change);
    this.#mark();
    return {
      pieces: change.pieces.filter(({ kind }) => kind === "new").length,
      moved: change.pieces.filter(({ kind }) => kind === "moved").length,
      zones,
      lamps,
      ground: change.ground,
    };
  }

  /** @returns floor rectangles from which a piece has gone or on which one has come, m. */
  #updatePieces(scene: ScapeScene, change: SceneChange): readonly (readonly [min: Vector, max: Vector])[] {
    const before = this.#pieces;
    const used = new Set<Piece>();
    const touched: (readonly [Vector, Vector])[] = [];
    this.#pieces = scene.pieces.map((piece, k) => {
      const became = change.pieces[k]!;
      const old = before[change.piecesFrom[k]!];
      if (old && became.kind !== "new") {
        used.add(old);
        if (became.kind === "same" && !change.tank) return old;
      }
      const { min, max } = meshBounds(piece.mesh);
      touched.push([min, max]);
      if (old && became.kind !== "new") {
        touched.push([old.min, old.max]);
        if (became.kind === "moved") old.part.moveBy(became.shift);
        return { part: old.part, cover: coverOf(piece.mesh, [0, 0, 0], this.#grid), min, max };
      }
      const part = new PiecePart(piece, scene.seed + piece.index, this.#shared, this.#redraw);
      this.#put(null, part);
      return { part, cover: coverOf(piece.mesh, [0, 0, 0], this.#grid), min, max };
    });
    for (const old of before) {
      if (used.has(old)) continue;
      touched.push([old.min, old.max]);
      this.#drop(old.part);
    }
    return touched;
  }

  #updateZones(
    scene: ScapeScene,
    change: SceneChange,
    touched: readonly (readonly [min: Vector, max: Vector])[],
  ): number {
    const tones = tonesOf(scene.zones);
    const before = this.#zones;
    let made = 0;
    this.#zones = scene.zones.map((zone, k) => {
      const [old, tone] = [before[k], tones[k]!];
      const changed = change.zones[k]! || !old || old.tone !== tone;
      if (!changed && !(zone.on === null && touched.some((area) => lies(zone, area)))) return old;
      const stands = this.#stands(zone, scene);
      if (old && !changed && sameStands(old.part.stands, stands)) return old;
      made += 1;
      const part = new ZonePart(zone, tone, stands, scene, this.#shared);
      this.#put(old?.part ?? null, part);
      return { part, tone };
    });
    for (const old of before.slice(scene.zones.length)) this.#drop(old.part);
    return made;
  }

  #stands(zone: ScapeZone, scene: ScapeScene): readonly Stand[] {
    const floor = this.#floor;
    return standsOf(zone, {
      ground: scene.ground,
      waterLine: scene.tank.waterLine,
      seed: scene.seed,
      taken: (x, y) => floor !== null && isTaken(floor, this.#grid, x, y),
      piece: zone.on === null ? null : (scene.pieces[zone.on]?.mesh ?? null),
    });
  }

  #updateLamps(scene: ScapeScene, change: SceneChange): number {
    const before = this.#lamps;
    let made = 0;
    this.#lamps = scene.lamps.map((lamp, k) => {
      const old = before[k];
      if (old && !change.lamps[k]) return old;
      made += 1;
      const part = new LampPart(lamp, scene.tank, this.#shared);
      part.light(this.#light);
      return this.#put(old ?? null, part);
    });
    for (const old of before.slice(scene.lamps.length)) this.#drop(old);
    return made;
  }

  #put<T extends Part>(old: Part | null, part: T): T {
    if (old) this.#drop(old);
    part.dress(this.#theme);
    this.object.add(part.object);
    return part;
  }

  #drop(part: Part): void {
    this.object.remove(part.object);
    part.dispose();
  }

  #parts(): readonly Part[] {
    return [
      this.#tank,
      this.#ground,
      ...this.#pieces.map((p) => p.part),
      ...this.#zones.map((z) => z.part),
      ...this.#lamps,
    ].filter((part) => part !== null);
  }

  dress(theme: Theme): void {
    this.#theme = theme;
    for (const part of this.#parts()) part.dress(theme);
    this.#mark();
  }

  light(shown: boolean): void {
    this.#light = shown;
    for (const lamp of this.#lamps) lamp.light(shown);
  }

  /** Told how high the eye stands over the level, rad: what would hide the bed from above is drawn as lines only. */
  raiseEye(elevation: number): void {
    const above = elevation > fromAbove;
    this.#tank?.fromAbove(above);
    for (const lamp of this.#lamps) lamp.fromAbove(above);
  }

  choose(thing: Thing | null): void {
    this.#chosen = thing;
    this.#mark();
  }

  #mark(): void {
    const chosen = this.#chosen;
    const lists: Readonly<Record<ThingKind, readonly Part[]>> = {
      piece: this.#pieces.map(({ part }) => part),
      zone: this.#zones.map(({ part }) => part),
      lamp: this.#lamps,
    };
    for (const kind of ["piece", "zone", "lamp"] as const)
      lists[kind].forEach((part, index) => {
        part.choose(chosen?.kind === kind && chosen.index === index);
      });
  }

  /** The nearest thing on a line of sight, and the share of the line at which it is met. */
  meet(ray: Ray): { readonly thing: Thing; readonly share: number } | null {
    const scene = this.scene;
    let best: { thing: Thing; share: number } | null = null;
    const offer = (kind: ThingKind, index: number, share: number): void => {
      if (share < (best?.share ?? Number.POSITIVE_INFINITY)) best = { thing: { kind, index }, share };
    };
    this.#pieces.forEach(({ min, max }, index) => {
      if (meetBox(ray, min, max) < (best?.share ?? Number.POSITIVE_INFINITY))
        offer("piece", index, meetMesh(ray, scene.pieces[index]!.mesh));
    });
    this.#zones.forEach(({ part }, index) => {
      offer("zone", index, meetPlants(ray, part.stands, part.size[0], part.size[1]));
    });
    scene.lamps.forEach((lamp, index) => {
      offer("lamp", index, meetLamp(ray, lamp));
    });
    return best;
  }

  /** Middle of a piece seen from above, m. */
  middle(index: number): readonly [x: number, y: number] | null {
    const piece = this.#pieces[index];
    return piece ? [(piece.min[0] + piece.max[0]) / 2, (piece.min[1] + piece.max[1]) / 2] : null;
  }

  /** Sets a piece aside from where the scene has it, until the scene follows; m. */
  lend(index: number, x: number, y: number): void {
    const part = this.#pieces[index]?.part;
    if (part) part.object.position.set(part.shift[0] + x, part.shift[1] + y, part.shift[2]);
  }

  dispose(): void {
    for (const part of this.#parts()) this.#drop(part);
  }
}

/** Whether a planting in the ground reaches over a rectangle of the floor. */
function lies(zone: ScapeZone, [min, max]: readonly [min: Vector, max: Vector]): boolean {
  if (zone.form === "floating" || zone.outline.length < 3) return false;
  const { left, right, front, back } = boundsOf(zone.outline);
  return left < max[0] && right > min[0] && front < max[1] && back > min[1];
}

function sameStands(a: readonly Stand[], b: readonly Stand[]): boolean {
  return a.length === b.length && a.every(({ at }, k) => at.every((value, axis) => value === b[k]!.at[axis]));
}
