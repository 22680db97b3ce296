/** Where the eye stands: turned round a place that it looks at. */
import type { ScapeScene } from "@lentic/core/drawing";
import { add, cross, dot, minus, times, type Vector } from "@lentic/core/model3d";

export type ViewName = "front" | "above" | "corner";

export interface Orbit {
  /** Looked at, m. */
  readonly target: Vector;
  /** rad; 0 = from the front, above 0 from the right. */
  readonly azimuth: number;
  /** rad over the level. */
  readonly elevation: number;
  /** m */
  readonly distance: number;
}

/** Upright angle of view, rad: long enough that upright lines stay nearly so. Design value. */
export const viewAngle = (26 * Math.PI) / 180;

const lowest = (-8 * Math.PI) / 180;
/** Straight down the eye would not know which way is up. */
const highest = (89.4 * Math.PI) / 180;

/** The way from what is looked at to the eye, and the picture's own right and up. */
export function axesOf({
  azimuth,
  elevation,
}: Pick<Orbit, "azimuth" | "elevation">): readonly [back: Vector, right: Vector, up: Vector] {
  const back: Vector = [
    Math.sin(azimuth) * Math.cos(elevation),
    -Math.cos(azimuth) * Math.cos(elevation),
    Math.sin(elevation),
  ];
  const right: Vector = [Math.cos(azimuth), Math.sin(azimuth), 0];
  return [back, right, cross(back, right)];
}

export const eyeOf = (orbit: Orbit): Vector => add(orbit.target, times(axesOf(orbit)[0], orbit.distance));

export function turned(orbit: Orbit, azimuth: number, elevation: number): Orbit {
  return {
    ...orbit,
    azimuth: orbit.azimuth + azimuth,
    elevation: Math.min(highest, Math.max(lowest, orbit.elevation + elevation)),
  };
}

/** Nearer (below 1) or further, between a tenth of the tank and eight times it. */
export function zoomed(orbit: Orbit, factor: number, extent: number): Orbit {
  return { ...orbit, distance: Math.min(8 * extent, Math.max(0.1 * extent, orbit.distance * factor)) };
}

/** Moved along the picture by shares of its height; never further from the tank's middle than its extent. */
export function panned(orbit: Orbit, across: number, up: number, middle: Vector, extent: number): Orbit {
  const [, right, upward] = axesOf(orbit);
  const high = 2 * orbit.distance * Math.tan(viewAngle / 2);
  const target = add(orbit.target, add(times(right, across * high), times(upward, up * high)));
  const away = minus(target, middle);
  const far = Math.hypot(...away);
  return { ...orbit, target: far > extent ? add(middle, times(away, extent / far)) : target };
}

const named: Readonly<Record<ViewName, readonly [azimuth: number, elevation: number]>> = {
  front: [0, 0.06],
  above: [0, highest],
  corner: [-0.52, 0.3],
};

/** Room left round the tank in a picture. Design value. */
const margin = 1.05;

/** The tank with its glass, and its lamps up to a good hand above the rim. */
function cornersOf({ tank, lamps }: ScapeScene, view: ViewName): readonly Vector[] {
  const { length, width, height, glass, base } = tank;
  const lampTop = Math.max(0, ...lamps.map((lamp) => lamp.z + 0.02));
  const top = view === "above" ? height : Math.max(height, Math.min(lampTop, height * 1.4));
  return [-glass, length + glass].flatMap((x) =>
    [-glass, width + glass].flatMap((y) => [-base, top].map((z): Vector => [x, y, z])),
  );
}

export function middleOf({ tank }: ScapeScene): Vector {
  return [tank.length / 2, tank.width / 2, tank.height / 2];
}

export function extentOf({ tank }: ScapeScene): number {
  return Math.hypot(tank.length, tank.width, tank.height);
}

/** A named view from which the whole tank fills a picture of a width against its height. */
export function orbitFor(scene: ScapeScene, view: ViewName, aspect: number): Orbit {
  const [azimuth, elevation] = named[view];
  const corners = cornersOf(scene, view);
  const [back, right, up] = axesOf({ azimuth, elevation });
  const high = Math.tan(viewAngle / 2) / margin;
  const wide = high * aspect;
  let target = middleOf(scene);
  let distance = 0;
  // the nearest distance for the place looked at, then the place that evens out the room at the edges
  for (let round = 0; round < 4; round++) {
    distance = 0;
    for (const corner of corners) {
      const away = minus(corner, target);
      const near = dot(away, back);
      distance = Math.max(distance, near + Math.abs(dot(away, right)) / wide, near + Math.abs(dot(away, up)) / high);
    }
    const seen = corners.map((corner) => {
      const away = minus(corner, target);
      const deep = distance - dot(away, back);
      return [dot(away, right) / deep, dot(away, up) / deep] as const;
    });
    const centre = (k: 0 | 1): number => (Math.max(...seen.map((s) => s[k])) + Math.min(...seen.map((s) => s[k]))) / 2;
    target = add(target, add(times(right, centre(0) * distance), times(up, centre(1) * distance)));
  }
  return { target, azimuth, elevation, distance };
}

/** A place on the way from one stand of the eye to another. */
export function between(from: Orbit, to: Orbit, share: number): Orbit {
  const mix = (a: number, b: number): number => a + (b - a) * share;
  const whole = 2 * Math.PI;
  const turn = ((((to.azimuth - from.azimuth + Math.PI) % whole) + whole) % whole) - Math.PI;
  return {
    target: [0, 1, 2].map((k) => mix(from.target[k]!, to.target[k]!)) as unknown as Vector,
    azimuth: from.azimuth + turn * share,
    elevation: mix(from.elevation, to.elevation),
    distance: mix(from.distance, to.distance),
  };
}
