import { readFileSync, statSync } from "node:fs";
import { type RawPlan, readPlan } from "@lentic/core/plan";
import { faultLines, InputError } from "./fault.ts";

const largest = 1024 * 1024;

/** The text of a file, or of standard input for "-". */
export function readText(path: string): string {
  let bytes: Buffer;
  try {
    if (path !== "-") {
      const { size, isDirectory } = { size: statSync(path).size, isDirectory: statSync(path).isDirectory() };
      if (isDirectory) throw new InputError(`${path} is a folder; a plan is a file`);
      if (size > largest) throw new InputError(`${path} has ${size} bytes; a plan has at most 1 MiB`);
    }
    bytes = readFileSync(path === "-" ? 0 : path);
  } catch (error) {
    if (error instanceof InputError) throw error;
    const { code } = error as NodeJS.ErrnoException;
    if (code === "ENOENT") throw new InputError(`${path} is not there`);
    if (code === "EACCES") throw new InputError(`${path} may not be read`);
    throw new InputError(`${path} cannot be read: ${(error as Error).message}`);
  }
  if (bytes.length > largest) throw new InputError(`${path} has ${bytes.length} bytes; a plan has at most 1 MiB`);
  if (bytes.includes(0)) throw new InputError(`${path} is not a text file`);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw new InputError(`${path} is not text in UTF-8`);
  }
}

/** A plan that reads, or every fault at once. */
export function readRaw(path: string, alternative?: string): { text: string; raw: RawPlan } {
  const text = readText(path);
  const reading = readPlan(text, alternative === undefined ? {} : { alternative });
  if (!reading.ok) throw new InputError(faultLines(path, reading.faults));
  return { text, raw: reading.raw };
}
