import type { ScapeScene } from "@lentic/core/drawing";
import { add, dot, minus, times, type Vector } from "@lentic/core/model3d";
import { Color, LinearSRGBColorSpace, PerspectiveCamera, Scene, WebGLRenderer } from "three";
import { watchHand } from "./hand.ts";
import { sharedInk } from "./ink.ts";
import { colourOf, type Theme } from "./look.ts";
import {
  axesOf,
  between,
  extentOf,
  eyeOf,
  middleOf,
  type Orbit,
  orbitFor,
  panned,
  turned,
  type ViewName,
  viewAngle,
  zoomed,
} from "./orbit.ts";
import { meetLevel, type Ray } from "./pick.ts";
import { type Rebuilt, Stage, type Thing, type ThingKind } from "./stage.ts";

/** Where a thing is moved to: the middle of its bounds seen from above, and how far that is from where it lay; m. */
interface MovePlace {
  readonly x: number;
  readonly y: number;
  readonly dx: number;
  readonly dy: number;
}

/** A drag is told again and again; "end" when it is let go, "cancel" when it is broken off and nothing has moved. */
type MovePhase = "drag" | "end" | "cancel";

export interface ViewOptions {
  readonly theme: Theme;
  /** No moving of the eye but by the hand itself. */
  readonly reducedMotion?: boolean;
  /** Where the eye stands first; "corner" by default. */
  readonly view?: ViewName;
  /** Whether the light under the lamps is shown; it is by default. */
  readonly light?: boolean;
  readonly onSelect?: (thing: Thing | null) => void;
  readonly onMove?: (kind: ThingKind, index: number, place: MovePlace, phase: MovePhase) => void;
  /** Called when the browser has taken the picture's memory away, and when it has given it back. */
  readonly onLost?: (lost: boolean) => void;
}

interface ViewStats {
  /** Scripting for the last frame: changes of the scene since the one before, and drawing it; ms. */
  readonly scripting: number;
  readonly drawCalls: number;
  readonly triangles: number;
  readonly frames: number;
  /** What the last change of the scene made anew. */
  readonly rebuilt: Rebuilt;
}

/** A view of a scape in three dimensions on a canvas; drawn only when something has changed. */
export interface View {
  update(scene: ScapeScene): void;
  select(thing: Thing | null): void;
  /** "free" leaves the eye where the hand has brought it. */
  view(name: ViewName | "free"): void;
  dress(theme: Theme): void;
  light(shown: boolean): void;
  /** No moving of the eye by itself from now on, or again. */
  calm(reducedMotion: boolean): void;
  /** The picture as it stands, as PNG. */
  picture(): Promise<Blob>;
  stats(): ViewStats;
  dispose(): void;
}

/** The browser has no WebGL 2, or does not give it now. */
export class NoPicture extends Error {
  override readonly name = "NoPicture";
}

/** How long the eye takes from one stand to another, ms. */
const travel = 150;

/** Dots for a CSS pixel, at most: more are not seen and cost. */
const mostRatio = 2;

/** Turning by a drag over the whole height of the picture, rad. */
const [turnAcross, turnUp] = [2.6, 1.8];

/**
 * Opens a view on a canvas; the canvas keeps its size in the page.
 * @throws NoPicture without WebGL 2.
 */
export function createView(canvas: HTMLCanvasElement, first: ScapeScene, options: ViewOptions): View {
  const context = canvas.getContext("webgl2", { alpha: false, antialias: true, depth: true, stencil: false });
  if (!context) throw new NoPicture("this browser gives no WebGL 2");
  const renderer = new WebGLRenderer({ canvas, context, antialias: true });
  // colours are those of the style sheet, as they are written
  renderer.outputColorSpace = LinearSRGBColorSpace;
  renderer.info.autoReset = true;
  const shared = sharedInk();
  const world = new Scene();
  const camera = new PerspectiveCamera((viewAngle * 180) / Math.PI, 1, 0.01, 10);
  camera.up.set(0, 0, 1);
  let theme = options.theme;
  let calm = options.reducedMotion ?? false;
  let lost = false;
  let gone = false;
  let asked = 0;
  let working = 0;
  let stats: ViewStats = {
    scripting: 0,
    drawCalls: 0,
    triangles: 0,
    frames: 0,
    rebuilt: { pieces: 0, moved: 0, zones: 0, lamps: 0, ground: false },
  };
  let named: ViewName | "free" = options.view ?? ("corner" as ViewName | "free");
  let orbit: Orbit;
  let journey: { from: Orbit; to: Orbit; began: number } | null = null;
  let held: {
    index: number;
    at: readonly [number, number];
    from: readonly [number, number];
    z: number;
    place: MovePlace | null;
  } | null = null;
  let chosen: Thing | null = null;

  const stage = new Stage(shared, theme, () => ask());
  world.add(stage.object);

  function ask(): void {
    if (gone || lost || asked !== 0) return;
    asked = requestAnimationFrame((now) => {
      asked = 0;
      if (journey) {
        const share = Math.min(1, Math.max(0, (now - journey.began) / travel));
        orbit = between(journey.from, journey.to, share * share * (3 - 2 * share));
        if (share >= 1) journey = null;
      }
      draw();
      if (journey) ask();
    });
  }

  function aim(): void {
    const eye = eyeOf(orbit);
    camera.position.set(...eye);
    camera.lookAt(...orbit.target);
    const [back] = axesOf(orbit);
    const { tank } = stage.scene;
    const away = [0, 1, 2, 3, 4, 5, 6, 7].map((k) =>
      dot(minus(eye, [k & 1 ? tank.length : 0, k & 2 ? tank.width : 0, k & 4 ? tank.height : 0]), back),
    );
    const [near, far] = [Math.min(...away), Math.max(...away)];
    const extent = extentOf(stage.scene);
    camera.near = Math.max(0.02 * extent, near - 0.6 * extent);
    camera.far = far + 2 * extent;
    camera.updateProjectionMatrix();
    // seen from above all of the bed lies equally far: nothing pales
    const level = Math.cos(orbit.elevation) ** 2;
    shared.uFade.value.set(near, near + (far - near) / Math.max(0.05, level));
    stage.raiseEye(orbit.elevation);
  }

  function draw(): void {
    if (lost || gone) return;
    const began = performance.now();
    aim();
    const [r, g, b] = colourOf(theme, "--paper");
    renderer.setClearColor(new Color().setRGB(r, g, b, LinearSRGBColorSpace), 1);
    renderer.render(world, camera);
    const { calls, triangles } = renderer.info.render;
    stats = {
      ...stats,
      scripting: working + performance.now() - began,
      drawCalls: calls,
      triangles,
      frames: stats.frames + 1,
    };
    working = 0;
  }

  function worked<T>(work: () => T): T {
    const began = performance.now();
    const result = work();
    working += performance.now() - began;
    return result;
  }

  const aspect = (): number => Math.max(1, canvas.clientWidth) / Math.max(1, canvas.clientHeight);

  function fit(): void {
    const ratio = Math.min(mostRatio, window.devicePixelRatio || 1);
    const [wide, high] = [Math.max(1, canvas.clientWidth), Math.max(1, canvas.clientHeight)];
    renderer.setPixelRatio(ratio);
    renderer.setSize(wide, high, false);
    shared.uRatio.value = ratio;
    shared.uPixel.value.set(2 / (wide * ratio), 2 / (high * ratio));
    camera.aspect = wide / high;
    if (named !== "free") orbit = orbitFor(stage.scene, named, aspect());
  }

  function go(to: Orbit): void {
    if (calm) {
      journey = null;
      orbit = to;
    } else journey = { from: orbit, to, began: performance.now() };
    ask();
  }

  function byHand(to: Orbit): void {
    named = "free";
    journey = null;
    orbit = to;
    ask();
  }

  /** The line of sight through a place of the picture, CSS pixels. */
  function sight(x: number, y: number): Ray {
    const [back, right, up] = axesOf(orbit);
    const high = Math.tan(viewAngle / 2);
    const across = ((2 * x) / Math.max(1, canvas.clientWidth) - 1) * high * aspect();
    const upward = (1 - (2 * y) / Math.max(1, canvas.clientHeight)) * high;
    return { from: eyeOf(orbit), way: add(times(back, -1), add(times(right, across), times(up, upward))) };
  }

  function tellMove(place: MovePlace, phase: MovePhase): void {
    if (held) options.onMove?.("piece", held.index, place, phase);
  }

  const letGo = watchHand(canvas, {
    grab(x, y) {
      if (chosen?.kind !== "piece" || stage.scene.pieces[chosen.index]?.locked !== false) return false;
      const ray = sight(x, y);
      const met = stage.meet(ray);
      if (met?.thing.kind !== "piece" || met.thing.index !== chosen.index) return false;
      const from = stage.middle(chosen.index);
      const hit: Vector = add(ray.from, times(ray.way, met.share));
      if (!from) return false;
      held = { index: chosen.index, at: [hit[0], hit[1]], from, z: hit[2], place: null };
      return true;
    },
    drag(x, y) {
      if (!held) return;
      const level = meetLevel(sight(x, y), held.z);
      const middle = stage.middle(held.index);
      if (!level || !middle) return;
      const { length, width } = stage.scene.tank;
      const [px, py] = [held.from[0] + level[0] - held.at[0], held.from[1] + level[1] - held.at[1]];
      // its middle stays within the panes
      const [mx, my] = [Math.min(length, Math.max(0, px)), Math.min(width, Math.max(0, py))];
      const place = { x: mx, y: my, dx: mx - held.from[0], dy: my - held.from[1] };
      held = { ...held, place };
      stage.lend(held.index, mx - middle[0], my - middle[1]);
      tellMove(place, "drag");
      ask();
    },
    drop(kept) {
      if (!held) return;
      const { index, from, place } = held;
      if (place) tellMove(kept ? place : { x: from[0], y: from[1], dx: 0, dy: 0 }, kept ? "end" : "cancel");
      held = null;
      stage.lend(index, 0, 0);
      ask();
    },
    press(x, y) {
      held = null;
      options.onSelect?.(stage.meet(sight(x, y))?.thing ?? null);
    },
    turn: (across, up) => byHand(turned(orbit, across * turnAcross, up * turnUp)),
    shift: (across, up) => byHand(panned(orbit, across, up, middleOf(stage.scene), extentOf(stage.scene))),
    near: (factor) => byHand(zoomed(orbit, factor, extentOf(stage.scene))),
    leave: () => options.onSelect?.(null),
    home: () => setView("corner"),
  });

  function setView(name: ViewName | "free"): void {
    named = name;
    if (name !== "free") go(orbitFor(stage.scene, name, aspect()));
  }

  const onLost = (event: Event): void => {
    event.preventDefault();
    lost = true;
    cancelAnimationFrame(asked);
    asked = 0;
    options.onLost?.(true);
  };
  const onBack = (): void => {
    lost = false;
    fit();
    options.onLost?.(false);
    ask();
  };
  canvas.addEventListener("webglcontextlost", onLost);
  canvas.addEventListener("webglcontextrestored", onBack);
  const sizes = new ResizeObserver(() => {
    if (lost || gone) return;
    fit();
    // at once: a resized canvas is empty until it is drawn
    draw();
  });

  stats = { ...stats, rebuilt: worked(() => stage.update(first)) };
  orbit = orbitFor(first, options.view ?? "corner", aspect());
  stage.light(options.light ?? true);
  fit();
  sizes.observe(canvas);
  ask();

  return {
    update(scene) {
      const before = stage.scene.tank;
      stats = { ...stats, rebuilt: worked(() => stage.update(scene)) };
      if (held) stage.lend(held.index, 0, 0);
      if (named !== "free" && before !== scene.tank) orbit = orbitFor(scene, named, aspect());
      ask();
    },
    select(thing) {
      chosen = thing;
      worked(() => stage.choose(thing));
      ask();
    },
    view: setView,
    dress(next) {
      theme = next;
      stage.dress(next);
      ask();
    },
    light(shown) {
      stage.light(shown);
      ask();
    },
    calm(reducedMotion) {
      calm = reducedMotion;
    },
    picture() {
      return new Promise((resolve, reject) => {
        if (lost || gone) {
          reject(new NoPicture("the picture is not there at the moment"));
          return;
        }
        draw();
        // read in the same turn: afterwards the browser may clear the canvas
        canvas.toBlob(
          (blob) => (blob ? resolve(blob) : reject(new NoPicture("the picture could not be written"))),
          "image/png",
        );
      });
    },
    stats: () => stats,
    dispose() {
      gone = true;
      cancelAnimationFrame(asked);
      letGo();
      sizes.disconnect();
      canvas.removeEventListener("webglcontextlost", onLost);
      canvas.removeEventListener("webglcontextrestored", onBack);
      stage.dispose();
      renderer.dispose();
    },
  };
}
