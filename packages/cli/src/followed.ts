import { type FollowedLight, lightKey, type Plan } from "@lentic/core/plan";
import { followedLightOf, LampError } from "@lentic/core/scape";
import { InputError } from "./fault.ts";

/** A lamp that cannot be followed, told with the place of its file in the plan. */
export function lampFault(file: string, error: LampError): InputError {
  const which = error.index === 0 ? "light" : `lamps[${error.index - 1}]`;
  return new InputError(`${file}: ${which}: ${error.message}`);
}

/** The light of plans followed through their scapes, for their days; plans that differ in timers alone share one. @param file how the plan's file is called */
export function followed(file: string, plans: readonly Plan[]): readonly FollowedLight[] {
  try {
    const different = [...new Map(plans.map((plan) => [lightKey(plan), plan])).values()];
    return different.map((plan) => followedLightOf(plan)).filter((light) => light !== null);
  } catch (error) {
    if (error instanceof LampError) throw lampFault(file, error);
    throw error;
  }
}
