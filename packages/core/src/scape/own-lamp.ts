/** An owner's photometric file of a lamp: whether a plan can keep it, and what it says. */
import {
  intensityAt,
  lightOutputRatio,
  type Photometry,
  type PhotometryFault,
  readPhotometry,
  zonalFlux,
} from "../light/index.ts";
import { type Change, changeAt, fields } from "../plan/index.ts";
import { type Board, pathOfTarget, type Target, targetName } from "./edits.ts";

/** What a photometric file says of its lamp. */
export interface LampFigures {
  /** Flux over all directions, lm. */
  readonly lumens: number;
  /** Share of the flux that leaves upwards, 0..1. */
  readonly upwards: number;
  /** Electrical power, W, and lm/W; null where the file gives none. */
  readonly watts: number | null;
  readonly efficacy: number | null;
  /** Flux over the rating of its light sources; null for absolute photometry. */
  readonly outputRatio: number | null;
  /** Intensity straight down, cd. */
  readonly down: number;
  /**
   * Full angle between the directions of half the intensity straight down, in the planes of 0 and of 90 degrees; null
   * where it gives no light straight down.
   */
  readonly beam: readonly [along: number, across: number] | null;
}

/** A file as a plan keeps it, or why it does not. */
export type LampFile =
  | { readonly ok: true; readonly text: string; readonly figures: LampFigures; readonly notes: readonly string[] }
  | { readonly ok: false; readonly faults: readonly PhotometryFault[] };

/** Most characters that a plan keeps. */
const longest = fields.reduce(
  (most, f) => (f.path === "light.photometry" && f.kind === "text" ? (f.longest ?? most) : most),
  0,
);

/** Reads a photometric file for a plan. Line ends become plain ones; all else stays as the file has it. */
export function readLampFile(file: string): LampFile {
  const text = file.replace(/\r\n?/g, "\n");
  if (text.length > longest) {
    const line = text.slice(0, longest).split("\n").length;
    const message = `the file holds ${text.length} characters and reaches here what a plan keeps`;
    return { ok: false, faults: [{ line, message, allowed: `at most ${longest} characters` }] };
  }
  const read = readPhotometry(text);
  return read.ok ? { ok: true, text, figures: lampFigures(read.photometry), notes: read.notes } : read;
}

/** The figures of a photometric file. */
function lampFigures(photometry: Photometry): LampFigures {
  const lumens = zonalFlux(photometry);
  const watts = photometry.watts > 0 ? photometry.watts : null;
  const down = photometry.vertical[0] === 0 ? intensityAt(photometry, 0, 0) : 0;
  const opening = (plane: number): number => halfAngle(photometry, plane) + halfAngle(photometry, plane + 180);
  return {
    lumens,
    upwards: zonalFlux(photometry, 90, 180) / lumens,
    watts,
    efficacy: watts === null ? null : lumens / watts,
    outputRatio: lightOutputRatio(photometry),
    down,
    beam: down > 0 ? [opening(0), opening(90)] : null,
  };
}

/** Angle from straight down at which a half-plane falls to half; its last angle where it does not. Degrees. */
function halfAngle(photometry: Photometry, plane: number): number {
  const { vertical } = photometry;
  const half = intensityAt(photometry, 0, plane) / 2;
  for (let i = 1; i < vertical.length; i++) {
    const [from, to] = [vertical[i - 1]!, vertical[i]!];
    const [before, after] = [intensityAt(photometry, from, plane), intensityAt(photometry, to, plane)];
    if (after < half) return from + ((to - from) * (before - half)) / (before - after);
  }
  return vertical.at(-1)!;
}

/** Gives a lamp its photometric file, or takes it out again. @param text as `readLampFile` gives it; null = none */
export function givePhotometry(board: Board, target: Target, text: string | null): readonly Change[] {
  const name = `${targetName(board, target)} ${text === null ? "without" : "with"} its photometric file`;
  return [changeAt(board.raw, [...pathOfTarget(target), "photometry"], text ?? undefined, name)];
}
