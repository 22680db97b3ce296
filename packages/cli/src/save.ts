import { writeFileSync } from "node:fs";
import { InputError } from "./fault.ts";

/** Writes a file. @throws InputError in words when that cannot be done */
export function save(file: string, content: string | Uint8Array): void {
  try {
    writeFileSync(file, content);
  } catch (error) {
    throw new InputError(`${file} cannot be written: ${(error as Error).message}`);
  }
}
