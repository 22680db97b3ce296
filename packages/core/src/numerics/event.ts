import type { EventFunction, Step } from "./ode.ts";

/** True when the function passes through zero between the two values in the direction asked for (0: any). */
export function crossing(before: number, after: number, direction: -1 | 0 | 1): boolean {
  if (before < 0 && after >= 0) return direction >= 0;
  if (before > 0 && after <= 0) return direction <= 0;
  return false;
}

/** Width of the final bracket, as a share of the step. */
const BRACKET = 1e-11;

/**
 * Share of the step at which `f` has just passed its zero between the shares `a` and `b`, given its values there. The
 * answer lies on the far side of the zero (or on it), less than 1e-10 of the step away, so that a run that starts
 * there does not meet the same zero again.
 */
export function locateCrossing(f: (share: number) => number, a: number, b: number, fa: number, fb: number): number {
  let near = a;
  let far = b;
  let fNear = fa;
  let fFar = fb;
  // Regula falsi with Illinois halving, kept honest by bisection whenever the bracket fails to halve in three trials.
  let trials = 0;
  let side = 0;
  let widthBefore = far - near;
  while (far - near > BRACKET && fFar !== 0) {
    let s = near + ((far - near) * fNear) / (fNear - fFar);
    if (++trials % 3 === 0) {
      if (far - near > 0.5 * widthBefore) s = 0.5 * (near + far);
      widthBefore = far - near;
    }
    s = Math.min(Math.max(s, near + 0.25 * BRACKET), far - 0.25 * BRACKET);
    const fs = f(s);
    if (fs !== 0 && fs > 0 === fa > 0) {
      near = s;
      fNear = fs;
      if (side < 0) fFar *= 0.5;
      side = -1;
    } else {
      far = s;
      fFar = fs;
      if (side > 0) fNear *= 0.5;
      side = 1;
    }
  }
  return far;
}

/**
 * Time within a step at which an event function passes through zero, to 1e-10 of the step's length, or NaN when its
 * values at the two ends show no such passage. For use inside `onStep`; runs stop by themselves at `options.events`.
 * @param y room for states and flows.
 */
export function locateEvent(step: Step, event: EventFunction, y: Float64Array): number {
  const value = (t: number): number => {
    step.at(t, y);
    return event.value(t, y);
  };
  const before = value(step.start);
  const after = value(step.end);
  if (!crossing(before, after, event.direction ?? 0)) return Number.NaN;
  const length = step.end - step.start;
  return step.start + length * locateCrossing((s) => value(step.start + s * length), 0, 1, before, after);
}
