import { shown, type UnitSystem } from "@lentic/core/design";
import { resolvePlan, tankVolumes } from "@lentic/core/plan";
import { openWater, scapeOf } from "@lentic/core/scape";
import { exit, faultLines, InputError } from "../fault.ts";
import { fileWord } from "../input.ts";
import { paperOf, table, toJson, wrap } from "../paper.ts";
import { readRaw } from "../plan-file.ts";

export interface VolumesOptions {
  readonly units: UnitSystem;
  readonly json?: boolean;
}

const caution =
  "This is arithmetic, not a verdict on a floor, a stand or a pane: ask the maker, and for floors a structural engineer.";

/** How much water, how heavy: the arithmetic laid open. */
export function volumesCommand(file: string, options: VolumesOptions): number {
  const resolved = resolvePlan(readRaw(file));
  if (!resolved.ok) throw new InputError(faultLines(fileWord(file), resolved.faults));
  const v = tankVolumes(resolved.plan);
  const open = openWater(scapeOf(resolved.plan));
  if (options.json) {
    const unit = { volume: "m3", area: "m2", length: "m", mass: "kg", loadPerArea: "kg/m2" };
    process.stdout.write(`${toJson({ unit, ...v, openWater: open, caution })}\n`);
    return exit.fine;
  }
  const { width } = paperOf();
  const told = (value: number, unit: string, decimals: number): string[] => {
    const s = shown(value, unit, decimals, options.units);
    return [s.text, s.unit];
  };
  const volume = (sign: string, m3: number): string[] => [sign, ...told(m3 * 1000, "L", 1)];
  const mass = (sign: string, kg: number): string[] => [sign, ...told(kg, "kg", 1)];
  const rows = [
    [...volume("", v.nominal), "outside length x width x height"],
    [...volume("", v.brim), "inside to the edge"],
    [...volume("", v.toWaterLine), "inside to the water line"],
    [...volume("-", v.grains), "grains of the bed"],
    [...volume("-", v.solids), "stones and wood"],
    [...volume("=", v.net), "water in the tank: dose for this"],
    ["", "", "", `of it ${volume("", v.poreWater).slice(1).join(" ")} in the pores of the bed`],
    ["", ...told(100 * open.view, "%", 0), "of the front view is open water, plantings counted as closed"],
    ["", ...told(100 * open.volume, "%", 0), "of the room under the water line is free to swim in"],
    ["", "", "", ""],
    [...mass("", v.masses.glass), "glass"],
    [...mass("+", v.masses.water), "water"],
    [...mass("+", v.masses.substrate), "bed, dry"],
    [...mass("+", v.masses.solids), "stones and wood"],
    [...mass("=", v.masses.total), "filled tank, without stand, lamp and people leaning on it"],
  ];
  process.stdout.write(`${table(rows, { right: [false, true], width })}\n\n`);
  const load = told(v.loadPerArea, "kg/m2", 0).join(" ");
  process.stdout.write(`${wrap(`! ${load} on its footprint. ${caution}`, width, "  ")}\n`);
  return exit.fine;
}
