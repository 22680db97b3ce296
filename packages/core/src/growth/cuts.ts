/** When plantings are cut and to what height. */
import type { Zone } from "../scape/index.ts";

export interface CutRule {
  /** Height at which it is cut, and to which, m. */
  readonly at: number;
  readonly to: number;
}

/** Stems under this share of the water count as at the surface. */
export const atSurface = 0.98;
/** A carpet is cut when it stands this much higher than it is meant to. Common practice, no source. */
const carpetOver = 1.5;
/** A cut takes a stand down to this share where the plan does not say. Common practice: stems are halved, no source. */
const half = 0.5;

/**
 * The rule by which a planting is cut: as the plan says, else as its form usually is: stems are halved that reach the surface
 * or their usual height, carpets are cut back before they lift from the ground, mosses halved at their usual height. Others are left alone.
 * A height above the water means that it is never cut.
 * Cuts fall on the week's day of upkeep. Common practice, no source.
 * @param room water above its foot, m
 * @returns null where it is not cut
 */
export function cutRule({ planting, fact, afloat }: Zone, room: number): CutRule | null {
  if (afloat) return null;
  const [at, to] = [planting.cutAt?.value, planting.cutTo?.value];
  if (at !== undefined) return at > room ? null : { at: Math.min(at, atSurface * room), to: to ?? half * at };
  const usual = usualRule();
  if (to === undefined) return usual;
  return { at: Math.min(atSurface * room, Math.max(usual?.at ?? 2 * to, 1.2 * to)), to };

  function usualRule(): CutRule | null {
    if (fact.form === "stem") {
      const at = Math.min(atSurface * room, fact.heightMax);
      return { at, to: half * at };
    }
    if (fact.form === "carpet") {
      const meant = Math.max(fact.heightMin, planting.height.text === undefined ? 0 : planting.height.value);
      return { at: carpetOver * meant, to: meant };
    }
    if (fact.form === "moss") return { at: Math.min(fact.heightMax, room), to: half * fact.heightMax };
    return null;
  }
}
