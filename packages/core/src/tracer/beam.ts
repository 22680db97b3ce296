import { uniform } from "./rapid-random.ts";
import type { IntensityTable, Lamp } from "./scene.ts";

/** A lamp's intensity, scaled to unit flux, and directions drawn from it. */
export interface Shine {
  /** Intensity in a direction of length 1, 1/sr. */
  value(dx: number, dy: number, dz: number): number;
  /** Draws a direction with a density that follows the intensity into the first three places. */
  sample(random: Int32Array, out: Float64Array): void;
}

interface Frame {
  readonly axis: Float64Array;
  readonly along: Float64Array;
  readonly across: Float64Array;
}

/** Right-angled directions from a lamp's axis and long side. */
function frameOf({ axis, along }: Lamp): Frame {
  const size = Math.hypot(axis[0], axis[1], axis[2]);
  const a = Float64Array.from(axis, (part) => part / size);
  const lean = along[0] * a[0]! + along[1] * a[1]! + along[2] * a[2]!;
  const l = Float64Array.from(along, (part, k) => part - lean * a[k]!);
  const length = Math.hypot(l[0]!, l[1]!, l[2]!);
  for (let k = 0; k < 3; k++) l[k] = l[k]! / length;
  const across = Float64Array.of(
    l[1]! * a[2]! - l[2]! * a[1]!,
    l[2]! * a[0]! - l[0]! * a[2]!,
    l[0]! * a[1]! - l[1]! * a[0]!,
  );
  return { axis: a, along: l, across };
}

export function shineOf(lamp: Lamp): Shine {
  const frame = frameOf(lamp);
  return lamp.beam.kind === "lobe" ? lobe(frame, lamp.beam.exponent) : table(frame, lamp.beam);
}

/** Sets a direction from its parts along the axis, the long side and across. */
function set(out: Float64Array, { axis, along, across }: Frame, c: number, u: number, v: number): void {
  out[0] = c * axis[0]! + u * along[0]! + v * across[0]!;
  out[1] = c * axis[1]! + u * along[1]! + v * across[1]!;
  out[2] = c * axis[2]! + u * along[2]! + v * across[2]!;
}

function lobe(frame: Frame, exponent: number): Shine {
  const [ax, ay, az] = [frame.axis[0]!, frame.axis[1]!, frame.axis[2]!];
  const peak = (exponent + 1) / (2 * Math.PI);
  return {
    value(dx, dy, dz) {
      const cosine = dx * ax + dy * ay + dz * az;
      if (cosine <= 0) return 0;
      return peak * (exponent === 1 ? cosine : cosine ** exponent);
    },
    sample(random, out) {
      // A place in the unit disc: its square is even on 0..1 and its angle even, without a sine.
      let u = 0;
      let v = 0;
      let square = 0;
      do {
        u = 2 * uniform(random) - 1;
        v = 2 * uniform(random) - 1;
        square = u * u + v * v;
      } while (square >= 1 || square === 0);
      if (exponent === 1) {
        set(out, frame, Math.sqrt(1 - square), u, v);
        return;
      }
      const cosine = (1 - square) ** (1 / (exponent + 1));
      const scale = Math.sqrt((1 - cosine * cosine) / square);
      set(out, frame, cosine, u * scale, v * scale);
    },
  };
}

const RAD = Math.PI / 180;

function table(frame: Frame, { vertical, horizontal, intensity }: IntensityTable): Shine {
  const { axis, along, across } = frame;
  const nv = vertical.length;
  // The planes all round, so that the symmetry needs no thought afterwards.
  const last = horizontal.at(-1)!;
  const planes: { angle: number; from: number }[] = [];
  const add = (angle: number, from: number): void => {
    if (planes.length === 0 || angle > planes.at(-1)!.angle + 1e-12) planes.push({ angle, from });
  };
  horizontal.forEach((angle, k) => {
    add(angle * RAD, k);
  });
  const mirror = (about: number): void => {
    for (const { angle, from } of [...planes].reverse()) add(2 * about - angle, from);
  };
  if (last === 0) add(2 * Math.PI, 0);
  if (last === 90) mirror(Math.PI / 2);
  if (last === 90 || last === 180) mirror(Math.PI);
  const np = planes.length;
  const polar = Float64Array.from(vertical, (angle) => angle * RAD);
  const turn = Float64Array.from(planes, (plane) => plane.angle);
  const values = new Float64Array(np * nv);
  planes.forEach(({ from }, p) => {
    for (let v = 0; v < nv; v++) values[p * nv + v] = intensity[from * nv + v]!;
  });

  // Flux of the surface that is straight both ways, in closed form.
  let flux = 0;
  for (let p = 0; p + 1 < np; p++) {
    for (let v = 0; v + 1 < nv; v++) {
      const [t0, t1] = [polar[v]!, polar[v + 1]!];
      const low = 0.5 * (values[p * nv + v]! + values[(p + 1) * nv + v]!);
      const high = 0.5 * (values[p * nv + v + 1]! + values[(p + 1) * nv + v + 1]!);
      const slope = (high - low) / (t1 - t0);
      const ramp = Math.sin(t1) - Math.sin(t0) - (t1 - t0) * Math.cos(t1);
      flux += (turn[p + 1]! - turn[p]!) * (low * (Math.cos(t0) - Math.cos(t1)) + slope * ramp);
    }
  }
  for (let k = 0; k < values.length; k++) values[k] = values[k]! / flux;

  function at(theta: number, phi: number): number {
    if (theta > polar[nv - 1]!) return 0;
    let v = 0;
    while (v + 2 < nv && theta > polar[v + 1]!) v++;
    let p = 0;
    while (p + 2 < np && phi > turn[p + 1]!) p++;
    const s = Math.min(1, (theta - polar[v]!) / (polar[v + 1]! - polar[v]!));
    const t = Math.min(1, (phi - turn[p]!) / (turn[p + 1]! - turn[p]!));
    const near = values[p * nv + v]! * (1 - s) + values[p * nv + v + 1]! * s;
    const far = values[(p + 1) * nv + v]! * (1 - s) + values[(p + 1) * nv + v + 1]! * s;
    return near * (1 - t) + far * t;
  }

  // Patches are drawn by their greatest intensity and kept by the share of it that a place has.
  const patches = (np - 1) * (nv - 1);
  const most = new Float64Array(patches);
  const sums = new Float64Array(patches);
  let sum = 0;
  for (let k = 0; k < patches; k++) {
    const [p, v] = [Math.floor(k / (nv - 1)), k % (nv - 1)];
    const corner = p * nv + v;
    most[k] = Math.max(values[corner]!, values[corner + 1]!, values[corner + nv]!, values[corner + nv + 1]!);
    sum += most[k]! * (turn[p + 1]! - turn[p]!) * (Math.cos(polar[v]!) - Math.cos(polar[v + 1]!));
    sums[k] = sum;
  }
  return {
    value(dx, dy, dz) {
      const c = dx * axis[0]! + dy * axis[1]! + dz * axis[2]!;
      const u = dx * along[0]! + dy * along[1]! + dz * along[2]!;
      const v = dx * across[0]! + dy * across[1]! + dz * across[2]!;
      const phi = np > 2 ? Math.atan2(v, u) : 0;
      return at(Math.atan2(Math.sqrt(u * u + v * v), c), phi < 0 ? phi + 2 * Math.PI : phi);
    },
    sample(random, out) {
      for (;;) {
        const goal = uniform(random) * sum;
        let low = 0;
        let high = patches - 1;
        while (low < high) {
          const middle = (low + high) >> 1;
          if (sums[middle]! > goal) high = middle;
          else low = middle + 1;
        }
        const [p, v] = [Math.floor(low / (nv - 1)), low % (nv - 1)];
        const from = Math.cos(polar[v]!);
        const cosine = from + (Math.cos(polar[v + 1]!) - from) * uniform(random);
        const phi = turn[p]! + (turn[p + 1]! - turn[p]!) * uniform(random);
        if (uniform(random) * most[low]! >= at(Math.acos(cosine), phi)) continue;
        const sine = Math.sqrt(Math.max(0, 1 - cosine * cosine));
        set(out, frame, cosine, sine * Math.cos(phi), sine * Math.sin(phi));
        return;
      }
    },
  };
}
