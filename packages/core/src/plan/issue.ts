import { type Fault, type Path, pathText } from "./plan.ts";

/** A fault before its place in the text is known. */
export interface Issue {
  readonly path: Path;
  /** Whether the key or the value is wrong. */
  readonly at: "key" | "value";
  readonly message: string;
  readonly allowed: string;
}

/** An issue as a fault; without a text the position is 0. */
export function faultOf(issue: Issue, place: { line: number; column: number } = { line: 0, column: 0 }): Fault {
  const { path, message, allowed } = issue;
  return { path: pathText(path), line: place.line, column: place.column, message, allowed };
}
