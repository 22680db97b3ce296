import { shown, type UnitSystem } from "@lentic/core/design";
import { resolvePlan, tankVolumes } from "@lentic/core/plan";
import { exit, InputError } from "../fault.ts";
import { readRaw } from "../input.ts";
import { paperOf, table, wrap } from "../paper.ts";
import { toJson } from "./day.ts";

export interface VolumesOptions {
  readonly units: UnitSystem;
  readonly json?: boolean;
}

/** How much water, how heavy: the arithmetic laid open. */
export function volumesCommand(file: string, options: VolumesOptions): number {
  const resolved = resolvePlan(readRaw(file).raw);
  if (!resolved.ok) throw new InputError(`${file} has faults`);
  const v = tankVolumes(resolved.plan);
  if (options.json) {
    process.stdout.write(`${toJson({ unit: { volume: "m3", mass: "kg", length: "m" }, ...v })}\n`);
    return exit.fine;
  }
  const volume = (m3: number, sign = ""): string[] => {
    const s = shown(m3 * 1000, "L", 1, options.units);
    return [sign, s.text, s.unit];
  };
  const mass = (kg: number, sign = ""): string[] => {
    const s = shown(kg, "kg", 1, options.units);
    return [sign, s.text, s.unit];
  };
  const rows = [
    [...volume(v.nominal), "outside length x width x height"],
    [...volume(v.brim), "inside to the edge"],
    [...volume(v.toWaterLine), "inside to the water line"],
    [...volume(v.grains, "-"), "grains of the bed"],
    [...volume(v.solids, "-"), "stones and wood"],
    [...volume(v.net, "="), "water in the tank: dose for this"],
    ["", "", "", `of it ${volume(v.poreWater).slice(1).join(" ")} in the pores of the bed`],
    ["", "", "", ""],
    [...mass(v.masses.glass), "glass"],
    [...mass(v.masses.water, "+"), "water"],
    [...mass(v.masses.substrate, "+"), "bed, dry"],
    [...mass(v.masses.solids, "+"), "stones and wood"],
    [...mass(v.masses.total, "="), "filled tank, without stand, lamp and people leaning on it"],
  ];
  const width = paperOf().width;
  process.stdout.write(`${table(rows, [false, true])}\n\n`);
  process.stdout.write(
    `${wrap(`! ${Math.round(v.loadPerArea)} kg/m2 on its footprint. This is arithmetic, not a verdict on a floor, a stand or a pane: ask the maker, and for floors a structural engineer.`, width, "  ")}\n`,
  );
  return exit.fine;
}
