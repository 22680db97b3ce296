import { scapeScene, sceneGrown, type UnitSystem } from "@lentic/core/design";
import { elevationDrawing, planDrawing, standaloneSvg } from "@lentic/core/drawing";
import { mostWeeks } from "@lentic/core/growth";
import { scapeGlb } from "@lentic/core/model3d";
import { type Scape, scapeOf } from "@lentic/core/scape";
import { type PaperName, sheetsOf, whitePaper } from "@lentic/core/sheets";
import { exit, InputError } from "../fault.ts";
import { resolvedPlan } from "../plan-file.ts";
import { save } from "../save.ts";
import { grownOver, wholeNumber } from "./grow.ts";

export interface DrawOptions {
  readonly view: "plan" | "front";
  readonly out?: string;
  readonly width: string;
  readonly dark?: boolean;
  readonly gltf?: string;
  readonly sheet?: string;
  readonly paper?: PaperName;
  readonly units: UnitSystem;
  readonly week?: string;
  readonly from: "planting" | "plan";
  readonly alternative?: string;
}

/** Draws the scape to scale, or writes all of it as a model. */
export function drawCommand(file: string, options: DrawOptions): number {
  const width = Number(options.width);
  if (!(width >= 160 && width <= 2400)) {
    throw new InputError(`--width ${options.width} will not do; allowed: 160 to 2400 px`);
  }
  const scape = scapeOf(resolvedPlan(file, options.alternative));
  const scene = sceneOf(file, scape, options);
  if (options.gltf !== undefined) {
    save(options.gltf, scapeGlb(scene, scape.plan.name));
    const { pieces, zones, lamps } = scene;
    process.stdout.write(
      `${options.gltf}: the tank with ${pieces.length} pieces, ${zones.length} plantings and ${lamps.length} lamps, glTF 2.0\n`,
    );
  }
  if (options.sheet !== undefined) {
    const paper = options.paper ?? (options.units === "us" ? "letter" : "a4");
    const date = new Date().toISOString().slice(0, 10);
    const base = options.sheet.replace(/\.svg$/i, "");
    sheetsOf(scape, scene, { paper, units: options.units, date }).forEach((sheet, k) => {
      const name = `${base}-${k + 1}.svg`;
      save(name, standaloneSvg(sheet.node, { css: whitePaper }));
      process.stdout.write(`${name}: ${sheet.title}\n`);
    });
  }
  if (options.out === undefined && (options.gltf ?? options.sheet) !== undefined) return exit.fine;
  const { node } = options.view === "plan" ? planDrawing(scene, { width }) : elevationDrawing(scene, { width });
  const svg = standaloneSvg(node, { dark: options.dark === true });
  if (options.out === undefined) process.stdout.write(svg);
  else {
    save(options.out, svg);
    process.stdout.write(`${options.out}: the scape ${options.view === "plan" ? "from above" : "from the front"}\n`);
  }
  return exit.fine;
}

/** The scape as planned, or as grown in a week. */
function sceneOf(file: string, scape: Scape, { week, from }: DrawOptions): ReturnType<typeof scapeScene> {
  const scene = scapeScene(scape);
  if (week === undefined) return scene;
  const wanted = wholeNumber(week, "--week", 0, mostWeeks);
  const { weeks } = grownOver(file, scape, Math.max(1, wanted), from, 1);
  return sceneGrown(scene, weeks[wanted]!.plantings);
}
