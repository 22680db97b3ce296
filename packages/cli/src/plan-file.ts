import { type RawPlan, readPlan } from "@lentic/core/plan";
import { faultLines, InputError } from "./fault.ts";
import { fileWord, readText } from "./input.ts";

/** A plan that reads, with the alternative asked for. @throws InputError with every fault at once */
export function readRaw(path: string, alternative?: string): RawPlan {
  const reading = readPlan(readText(path), alternative === undefined ? {} : { alternative });
  if (!reading.ok) throw new InputError(faultLines(fileWord(path), reading.faults));
  return reading.raw;
}
