/** A tint for each planting: the same species wears the same everywhere. */
import { type Tone, tonesOf } from "./plants.ts";
import type { ScapeZone } from "./scape-scene.ts";

export function zoneTones(zones: readonly ScapeZone[]): Tone[] {
  const kinds = new Map<string, ScapeZone>();
  const name = (zone: ScapeZone): string => `${zone.key}/${zone.label}/${zone.form}/${zone.leaf}`;
  for (const zone of zones) if (!kinds.has(name(zone))) kinds.set(name(zone), zone);
  const tones = tonesOf([...kinds.values()]);
  const worn = new Map([...kinds.keys()].map((kind, i) => [kind, tones[i] ?? "fresh"] as const));
  return zones.map((zone) => worn.get(name(zone)) ?? "fresh");
}
