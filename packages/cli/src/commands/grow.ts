import type { UnitSystem } from "@lentic/core/design";
import { type GrowthWeek, growth, type Hold, mostWeeks, type Start } from "@lentic/core/growth";
import { LampError, type Scape, type ScapeFinding, scapeOf } from "@lentic/core/scape";
import { exit, InputError } from "../fault.ts";
import { fileWord } from "../input.ts";
import { paperOf, table, toJson, wrap } from "../paper.ts";
import { resolvedPlan } from "../plan-file.ts";

export interface GrowOptions {
  readonly units: UnitSystem;
  readonly alternative?: string;
  readonly weeks: string;
  readonly from: "planting" | "plan";
  readonly seed: string;
  readonly json?: boolean;
  readonly csv?: boolean;
}

export function wholeNumber(text: string, what: string, least: number, most: number): number {
  const value = Number(text);
  if (Number.isInteger(value) && value >= least && value <= most) return value;
  throw new InputError(`${what} ${text} will not do; allowed: a whole number from ${least} to ${most}`);
}

interface Course {
  readonly weeks: readonly GrowthWeek[];
  readonly findings: readonly ScapeFinding[];
}

/** The course of growth, told how far on a terminal. @throws InputError for a lamp that cannot be followed */
export function grownOver(file: string, scape: Scape, weeks: number, start: Start, seed: number): Course {
  const found: GrowthWeek[] = [];
  const told = process.stderr.isTTY === true;
  try {
    for (const step of growth(scape.plan, { weeks, start, seed })) {
      if (step.kind === "week") found.push(step.week);
      else if (step.kind === "findings") {
        if (told) process.stderr.write("\r\u001b[K");
        return { weeks: found, findings: step.findings };
      } else if (told) process.stderr.write(`\rgrowing ... week ${Math.min(step.week, weeks)} of ${weeks} `);
    }
  } catch (error) {
    if (!(error instanceof LampError)) throw error;
    const which = error.index === 0 ? "light" : `lamps[${error.index - 1}]`;
    throw new InputError(`${fileWord(file)}: ${which}: ${error.message}`);
  }
  return { weeks: found, findings: [] };
}

const holds: Readonly<Record<Hold, string>> = {
  light: "light",
  co2: "CO2",
  warmth: "warmth",
  room: "its own leaves",
  melt: "leaves from the air",
  nothing: "",
};

const leftOut =
  "A look ahead with wide doubt: growth rates are those of classes of species. Food is taken as enough; algae, animals' grazing and snails are left out.";

/** The planted scape week by week: mass, height and cover of each planting, cuts, and what holds it back. */
export function growCommand(file: string, options: GrowOptions): number {
  const weeks = wholeNumber(options.weeks, "--weeks", 1, mostWeeks);
  const seed = wholeNumber(options.seed, "--seed", 0, 2_147_483_647);
  const scape = scapeOf(resolvedPlan(file, options.alternative));
  if (scape.zones.length === 0) {
    process.stdout.write(options.json ? `${toJson({ plantings: 0 })}\n` : `${fileWord(file)} has no plants.\n`);
    return exit.fine;
  }
  const course = grownOver(file, scape, weeks, options.from, seed);
  if (options.json) {
    const plantings = scape.zones.map(({ key, fact }) => ({ key, species: fact.name }));
    const units = { mass: "g dry", biomass: "g/m2", height: "m", ppfd: "umol/m2/s", daily: "mol/m2", co2: "mg/L" };
    process.stdout.write(`${toJson({ from: options.from, units, plantings, ...course, leftOut })}\n`);
  } else if (options.csv) process.stdout.write(csv(scape, course.weeks));
  else process.stdout.write(words(scape, course, options));
  return exit.fine;
}

function csv(scape: Scape, weeks: readonly GrowthWeek[]): string {
  const head =
    "week,planting,species,g dry,g dry low,g dry high,mm high,cover %,cover % low,cover % high,leaf area m2/m2,leaves grown under water %,umol/m2/s,mol/m2/d,growth 1/d,held back by,cut to mm,cut out g dry";
  const lines = weeks.flatMap(({ week, plantings }) =>
    plantings.map((p) => {
      const { key, fact } = scape.zones[p.index]!;
      const percent = (share: number): string => (100 * share).toFixed(1);
      return [
        week,
        key,
        fact.name,
        p.mass.value.toFixed(3),
        p.mass.low.toFixed(3),
        p.mass.high.toFixed(3),
        (1000 * p.height.value).toFixed(0),
        percent(p.cover.value),
        percent(p.cover.low),
        percent(p.cover.high),
        p.leafArea.toFixed(2),
        percent(p.settled),
        p.ppfd.toFixed(1),
        p.daily.toFixed(2),
        p.rate.toFixed(4),
        holds[p.hold],
        p.cut ? (1000 * p.cut.to).toFixed(0) : "",
        p.cut ? p.cut.taken.toFixed(3) : "",
      ].join(",");
    }),
  );
  return `${head}\n${lines.join("\n")}\n`;
}

function words(scape: Scape, { weeks, findings }: Course, { units, from }: GrowOptions): string {
  const { width } = paperOf();
  const long = (metres: number): string =>
    units === "us" ? `${(metres / 0.0254).toFixed(1)} in` : `${Math.round(1000 * metres)} mm`;
  const percent = (share: number): string => `${Math.round(100 * share)} %`;
  const parts = scape.zones.map(({ index, key, fact }) => {
    const rows = weeks.map(({ week, plantings }) => {
      const p = plantings[index]!;
      const cut = p.cut ? `cut from ${long(p.cut.from)} to ${long(p.cut.to)}, ${p.cut.taken.toFixed(1)} g out` : "";
      const held = p.hold === "nothing" ? "" : `${holds[p.hold]} (${percent(p.held)})`;
      return [
        String(week),
        p.mass.value.toFixed(1),
        `${p.mass.low.toFixed(1)}-${p.mass.high.toFixed(1)}`,
        long(p.height.value),
        percent(p.cover.value),
        p.ppfd.toFixed(0),
        [held, cut].filter((text) => text !== "").join("; "),
      ];
    });
    const head = [
      "week",
      "g dry",
      "likely",
      "height",
      "cover",
      "umol/m2/s",
      "held back by (how far that lets it grow)",
    ];
    return `${key} ${fact.name}\n${table([head, ...rows], { right: [true, true, true, true, true, true], width })}`;
  });
  const told = findings
    .map((f) => `${wrap(`${f.severity === "caution" ? "!" : "-"} ${f.title}. ${f.reason}`, width, "  ")}\n`)
    .join("");
  const began =
    from === "planting"
      ? "Week 0 is planting day: portions as bought, leaves as they were raised."
      : "Week 0 is the plan as it stands.";
  return `${wrap(began, width)}\n\n${parts.join("\n\n")}\n\n${told}${told === "" ? "" : "\n"}${wrap(leftOut, width)}\n`;
}
