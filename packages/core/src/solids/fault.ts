/** A file or surface that cannot be taken as a mesh: where, what is wrong, and what would be allowed. */
export class MeshFault extends Error {
  /** "line 12", "byte 80", "mesh 2, primitive 0", "at 0.1, 0.2, 0.05", or "file". */
  readonly where: string;
  readonly allowed: string;

  constructor(where: string, problem: string, allowed: string) {
    super(`${where}: ${problem}; allowed: ${allowed}`);
    this.name = "MeshFault";
    this.where = where;
    this.allowed = allowed;
  }
}

/** Most bytes of a file, and most triangles in it. Design values. */
export const mostBytes = 100 * 1024 * 1024;
export const mostTriangles = 2_000_000;

export function checkTriangles(count: number, where: string): void {
  if (count > mostTriangles)
    throw new MeshFault(where, `${count} triangles or more`, `up to ${mostTriangles} triangles; simplify it first`);
}
