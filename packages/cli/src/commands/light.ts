import { scapeScene, type UnitSystem } from "@lentic/core/design";
import { planDrawing, standaloneSvg } from "@lentic/core/drawing";
import {
  fromWords,
  LampError,
  type LightBudget,
  type LightReport,
  lightFindings,
  lightReport,
  lightScene,
  type Scape,
  scapeOf,
} from "@lentic/core/scape";
import { createTrace, type TraceResult } from "@lentic/core/tracer";
import { exit, InputError } from "../fault.ts";
import { lampFault } from "../followed.ts";
import { fileWord } from "../input.ts";
import { paperOf, table, toJson, wrap } from "../paper.ts";
import { resolvedPlan } from "../plan-file.ts";
import { save } from "../save.ts";

export interface LightOptions {
  readonly units: UnitSystem;
  readonly alternative?: string;
  readonly photons: string;
  readonly seed: string;
  readonly leaves: boolean;
  readonly svg?: string;
  readonly csv?: boolean;
  readonly json?: boolean;
}

function wholeNumber(text: string, what: string, least: number, most: number): number {
  const value = Number(text);
  if (Number.isInteger(value) && value >= least && value <= most) return value;
  throw new InputError(`${what} ${text} will not do; allowed: a whole number from ${least} to ${most}`);
}

/** Follows the light, told how far on a terminal. */
function followed(light: NonNullable<ReturnType<typeof lightScene>>, photons: number, seed: number): TraceResult {
  const task = createTrace(light.scene, { photons, seed, directNoise: 0.006 });
  const told = process.stderr.isTTY === true;
  for (;;) {
    const { share, result } = task.step(20);
    if (told) process.stderr.write(`\rfollowing the light ... ${Math.round(100 * share)} % `);
    if (!result) continue;
    if (told) process.stderr.write("\r\u001b[K");
    return result;
  }
}

const percent = (share: number): string => `${(100 * share).toFixed(share < 0.1 ? 1 : 0)} %`;

const ends: readonly (readonly [keyof LightBudget, string])[] = [
  ["spill", "past the tank"],
  ["reflected", "thrown back by the surface"],
  ["top", "out again through the surface"],
  ["panes", "out through the panes"],
  ["water", "in the water"],
  ["leaves", "in leaves"],
  ["ground", "in the ground"],
  ["hardscape", "in stones and wood"],
  ["background", "in the back pane's cover"],
];

/** Its own name, else what it is made of. */
function pieceWord(scape: Scape, index: number): string {
  const { names, material } = scape.pieces[index]!;
  return names.length > 1 ? names[0]! : material;
}

/** What each lamp was taken to give, and where from; its channels below it. */
function lampWords({ lamps, daylight }: LightReport, width: number): string {
  const rows = lamps.flatMap((lamp) => {
    const span = `${lamp.low.toFixed(0)} to ${lamp.high.toFixed(0)}`;
    const name = lamps.length > 1 ? `lamp ${lamp.index + 1}` : "lamp";
    const own = [name, lamp.photons.toFixed(1), `${span}; from ${fromWords[lamp.from]}`];
    const parts = lamp.parts.length > 1 ? lamp.parts.map((p) => [`  ${p.name}`, p.photons.toFixed(1), ""]) : [];
    return [own, ...parts];
  });
  const sky = daylight && [
    `daylight, ${daylight.side}`,
    "",
    `${daylight.ppfd.toFixed(1)} umol/m2/s there at its brightest`,
  ];
  return table([["given at full", "umol/s", ""], ...rows, ...(sky ? [sky] : [])], { right: [false, true], width });
}

function words(scape: Scape, report: LightReport): string {
  const { width } = paperOf();
  const u = "umol/m2/s";
  const ground = table(
    [
      ["mean", report.mean.toFixed(0), u, `${report.level} light, as the trade counts it`],
      [
        "least and most",
        `${report.min.toFixed(0)} to ${report.max.toFixed(0)}`,
        u,
        `evenness ${report.evenness.toFixed(2)} (least over mean)`,
      ],
      ["in a day", report.daily.toFixed(1), "mol/m2", "on the mean"],
      ["noise", percent(report.noise), "", "standard error of the map"],
    ],
    { right: [false, true], width },
  );
  const zones = report.zones.map((z) => {
    const { key, fact } = scape.zones[z.index]!;
    return [key, fact.name, z.mean.toFixed(0), z.daily.toFixed(1), `${fact.ppfdMin} to ${fact.ppfdGood}`];
  });
  const plants =
    zones.length === 0
      ? ""
      : `\n\n${table([["", "on the plants", u, "mol/m2/d", "wants"], ...zones], { right: [false, false, true, true, true], width })}`;
  const pieces =
    report.pieces.length === 0
      ? ""
      : `\n\n${table([["", "on stones and wood", u], ...report.pieces.map((p) => [scape.pieces[p.index]!.key, pieceWord(scape, p.index), p.mean.toFixed(0)])], { right: [false, false, true], width })}`;
  const budget = table(
    ends.filter(([key]) => report.budget[key] > 0.0005).map(([key, what]) => [percent(report.budget[key]), what]),
    { right: [true], width },
  );
  const known =
    report.calibration === 1
      ? `The lamps' output is known to ${percent(report.span[0])} to ${percent(report.span[1])} of what is taken.`
      : `The reading in the plan sets the scale: the lamps count as ${percent(report.calibration)} of what is known of them.`;
  return `${lampWords(report, width)}\n\nlight on the ground\n${ground}${plants}${pieces}\n\nof the lamps' photons end\n${budget}\n\n${wrap(`${known} Left out: the lamp's own shadow, ripples, ${report.daylight ? "sunbeams, what the room throws back" : "light from the room"}.`, width)}\n`;
}

/** Where the light of the lamps goes: on the ground, on each planting, and the rest. */
export function lightCommand(file: string, options: LightOptions): number {
  const photons = wholeNumber(options.photons, "--photons", 0, 5_000_000);
  const seed = wholeNumber(options.seed, "--seed", 0, 2_147_483_647);
  const scape = scapeOf(resolvedPlan(file, options.alternative));
  try {
    const light = lightScene(scape, options.leaves);
    if (!light) {
      process.stdout.write(options.json ? `${toJson({ lamp: false })}\n` : `${fileWord(file)} has no lamp.\n`);
      return exit.fine;
    }
    const result = followed(light, photons, seed);
    const report = lightReport(scape, light, result);
    const findings = lightFindings(scape, report);
    if (options.svg) save(options.svg, map(scape, report));
    const { columns, rows, values } = report.ground;
    if (options.csv) {
      const place = (i: number, count: number, extent: number): string =>
        (((i + 0.5) * extent * 1000) / count).toFixed(1);
      const lines = Array.from(
        values,
        (v, i) =>
          `${place(i % columns, columns, scape.length)},${place(Math.floor(i / columns), rows, scape.width)},${v.toFixed(2)}`,
      );
      process.stdout.write(`x mm,y mm,umol/m2/s\n${lines.join("\n")}\n`);
    } else if (options.json) {
      const { lights: _lights, ...figures } = report;
      const told = { ...figures, ground: { columns, rows, values: Array.from(values) } };
      process.stdout.write(`${toJson({ lamp: true, unit: "umol/m2/s", ...told, findings })}\n`);
    } else {
      process.stdout.write(words(scape, report));
      const { width } = paperOf();
      for (const f of findings) {
        process.stdout.write(
          `\n${wrap(`${f.severity === "caution" ? "!" : "-"} ${f.title}. ${f.reason}`, width, "  ")}\n`,
        );
      }
    }
    return exit.fine;
  } catch (error) {
    if (error instanceof LampError) throw lampFault(fileWord(file), error);
    throw error;
  }
}

/** The plan of the scape with lines of equal light. */
function map(scape: Scape, { ground, max }: LightReport): string {
  const step = [5, 10, 20, 25, 50, 100, 200, 500].find((s) => max / s <= 7) ?? 1000;
  const levels = Array.from({ length: Math.floor(max / step) }, (_, i) => (i + 1) * step);
  const drawing = planDrawing(scapeScene(scape), { width: 900, light: { ...ground, levels } });
  return standaloneSvg(drawing.node);
}
