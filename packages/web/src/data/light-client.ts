import type { FollowedLight, RawPlan } from "@lentic/core/plan";
import { dayWorker } from "./day-client.ts";
import { load, store } from "./stored.ts";

const storedKey = (tank: string): string => `lentic.light.${tank}`;
/** A light whose plan's own forms make it longer than this is followed anew on each visit. */
const mostStored = 200_000;

const isLight = (value: unknown): value is FollowedLight =>
  typeof value === "object" &&
  value !== null &&
  typeof (value as FollowedLight).key === "string" &&
  Array.isArray((value as FollowedLight).lights);

async function give(light: FollowedLight): Promise<void> {
  await Promise.all([dayWorker().light(light), dayWorker("desk").light(light)]);
}

/** Hands the day the light that was followed on an earlier visit, if this browser kept one. */
export async function recallLight(tank: string): Promise<void> {
  const light = load(storedKey(tank), (value) => (isLight(value) ? value : null));
  if (light) await give(light);
}

/** Follows the light of a plan and hands it to the day. @returns false when there was none to follow */
export async function followForDay(tank: string, raw: RawPlan): Promise<boolean> {
  const light = await dayWorker("light").followForDay(raw);
  if (!light) return false;
  await give(light);
  if (light.key.length <= mostStored) store(storedKey(tank), light);
  return true;
}
