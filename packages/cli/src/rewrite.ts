import { realpathSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { InputError } from "./fault.ts";

/** Writes beside and moves over, so that a crash leaves the old file whole; links and rights stay as they are. */
export function rewrite(file: string, text: string): void {
  const target = realpathSync(file);
  const beside = `${target}.new-${process.pid}`;
  try {
    writeFileSync(beside, text, { mode: statSync(target).mode });
    renameSync(beside, target);
  } catch (error) {
    rmSync(beside, { force: true });
    throw new InputError(`${file} cannot be written: ${(error as Error).message}`);
  }
}
