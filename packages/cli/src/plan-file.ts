import { type Plan, type RawPlan, readPlan } from "@lentic/core/plan";
import { faultLines, InputError } from "./fault.ts";
import { fileWord, readText } from "./input.ts";

/** A plan that reads, with the alternative asked for. @throws InputError with every fault at once */
export function readRaw(path: string, alternative?: string): RawPlan {
  return readingOf(path, alternative).raw;
}

/** The same with every default filled in. @throws InputError with every fault at once */
export function resolvedPlan(path: string, alternative?: string): Plan {
  return readingOf(path, alternative).plan;
}

function readingOf(path: string, alternative?: string) {
  const reading = readPlan(readText(path), alternative === undefined ? {} : { alternative });
  if (!reading.ok) throw new InputError(faultLines(fileWord(path), reading.faults));
  return reading;
}
