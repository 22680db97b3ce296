import { type DayDoubt, type DayReport, dayReport, type UnitSystem, valueAtHour } from "@lentic/core/design";
import { type FollowedLight, resolvePlan } from "@lentic/core/plan";
import { compile, runTank, setupOf } from "@lentic/core/tank";
import { dayChart } from "../chart.ts";
import { dayCsv } from "../day-csv.ts";
import { InputError } from "../fault.ts";
import { followed } from "../followed.ts";
import { fileWord } from "../input.ts";
import { type Paper, paperOf, plainText, styled, toJson, working, wrap } from "../paper.ts";
import { readRaw } from "../plan-file.ts";
import { extremeTable, type FailOn, figureTable, findingLines, findingsCode, workingLines } from "../report.ts";

export interface DayOptions {
  readonly alternative?: string;
  readonly units: UnitSystem;
  readonly json?: boolean;
  readonly csv?: boolean;
  readonly ascii?: boolean;
  readonly grid?: string;
  readonly working?: string;
  readonly at?: string;
  readonly roughLight?: boolean;
  readonly failOn: FailOn;
}

const usualGrid = 5;
const longestGrid = 120;

/** Minutes between points: they must divide the day, so that it closes. */
function gridOf(text: string | undefined): number {
  if (text === undefined) return usualGrid;
  const minutes = /^\d{1,4}$/.test(text) ? Number(text) : 0;
  if (minutes < 1 || minutes > longestGrid || 1440 % minutes !== 0) {
    throw new InputError(
      `--grid ${text}: allowed: whole minutes from 1 to ${longestGrid} that divide a day evenly, such as 1, 5, 10, 15, 30, 60`,
    );
  }
  return minutes;
}

/** Hours after midnight; now when left out. */
function hourOf(text: string | undefined): number {
  if (text === undefined) {
    const now = new Date();
    return now.getHours() + now.getMinutes() / 60;
  }
  const match = /^(\d{1,2}):(\d{2})$/.exec(text);
  const hour = match ? Number(match[1]) + Number(match[2]) / 60 : Number.NaN;
  if (!match || Number(match[2]) > 59 || hour > 24) {
    throw new InputError(`--at ${text}: allowed: a time of day such as 13:00, from 00:00 to 24:00`);
  }
  return hour;
}

interface Day {
  readonly report: DayReport;
  readonly doubt: DayDoubt;
}

/** The same day read at other points: run again from its own midnight, not drawn through fewer points. */
function regridded(day: Day, grid: number, light: readonly FollowedLight[]): Day {
  if (grid === usualGrid) return day;
  const { report, doubt } = day;
  const { hours, series } = runTank(compile(setupOf(report.plan, light)), report.curves.start, { grid });
  const moved = (values: Float64Array): Float64Array => hours.map((h) => valueAtHour(report.curves, values, h));
  const bands = Object.fromEntries(
    Object.entries(doubt.bands).map(([id, { low, high }]) => [id, { low: moved(low), high: moved(high) }]),
  ) as unknown as DayDoubt["bands"];
  return { report: { ...report, curves: { ...report.curves, hours, series } }, doubt: { ...doubt, bands } };
}

/** A file's name as a shell takes it. */
const quoted = (file: string): string => (/^[\w./:\\-]+$/.test(file) ? file : `"${file}"`);

function wholeReport(file: string, report: DayReport, options: DayOptions, paper: Paper): string {
  const invented = report.plan.invented ? " (invented example)" : "";
  const named = options.alternative === undefined ? "" : `, ${options.alternative}`;
  return [
    styled(paper, "bold", `${report.plan.name}${named}${invented}`),
    wrap(report.headline.map((p) => p.words).join(""), paper.width),
    `${wrap(report.aside, paper.width)}\n`,
    `${dayChart(report, paper, options.units)}\n`,
    `${extremeTable(report, options.units)}\n`,
    `${figureTable(report.figures, paper)}\n`,
    findingLines(report.findings, paper),
    `\nEvery figure has its working: lentic day ${quoted(file)} --working co2-at-lights-on`,
  ].join("\n");
}

/** The repeating day of a plan: drawn, in figures and findings, or as data. */
export function dayCommand(file: string, options: DayOptions): number {
  const grid = gridOf(options.grid);
  const hour = hourOf(options.at);
  const raw = readRaw(file, options.alternative);
  const { report, doubt } = working("Working out the day ...", () => {
    const resolved = resolvePlan(raw);
    const light = resolved.ok && !options.roughLight ? followed(fileWord(file), [resolved.plan]) : [];
    return regridded(dayReport(raw, { units: options.units, hour, light }), grid, light);
  });
  const code = findingsCode(report.findings, options.failOn);
  const paper: Paper = { ...paperOf(), ascii: options.ascii === true };
  const out = (text: string): void => {
    process.stdout.write(`${paper.ascii ? plainText(text) : text}\n`);
  };
  if (options.working !== undefined) {
    const figure = report.figures.find((f) => f.id === options.working);
    if (!figure) {
      const ids = report.figures.map((f) => f.id).join(", ");
      throw new InputError(`there is no figure ${options.working}; there are: ${ids}`);
    }
    out(options.json ? toJson(figure) : workingLines(figure, paper));
    return code;
  }
  if (options.json) out(toJson({ ...report, doubt }));
  else if (options.csv) process.stdout.write(`${dayCsv(report)}\r\n`);
  else out(wholeReport(file, report, options, paper));
  return code;
}
