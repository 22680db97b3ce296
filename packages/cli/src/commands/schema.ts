import { jsonSchema } from "@lentic/core/plan";
import { exit } from "../fault.ts";
import { toJson } from "../paper.ts";

/** The JSON Schema of the plan file, for editors. */
export function schemaCommand(): number {
  process.stdout.write(`${toJson(jsonSchema())}\n`);
  return exit.fine;
}
