import type { Fault } from "@lentic/core/plan";

/** Exit codes, the same for every verb. */
export const exit = { fine: 0, findings: 1, badInput: 2, ourFault: 3 } as const;

/** Something the user can mend: words, and exit code 2. */
export class InputError extends Error {
  constructor(message: string) {
    super(message);
    this.name = "InputError";
  }
}

/** Faults of a plan as a compiler tells them: file, line, column, field, what is wrong, what is allowed. */
export function faultLines(file: string, faults: readonly Fault[]): string {
  return faults
    .map((f) => {
      const place = f.line > 0 ? `${file}:${f.line}:${f.column}` : file;
      return `${place}: ${f.path || "the file"}: ${f.message}; allowed: ${f.allowed}`;
    })
    .join("\n");
}
