import { checkTriangles } from "./fault.ts";
import type { Mesh } from "./mesh.ts";

/** Lists of corners and triangles that grow as a file is read. */
export class MeshBuilder {
  private places = new Float64Array(3 * 4096);
  private list = new Uint32Array(3 * 4096);
  private placed = 0;
  private listed = 0;

  get corners(): number {
    return this.placed / 3;
  }

  get triangles(): number {
    return this.listed / 3;
  }

  corner(x: number, y: number, z: number): void {
    if (this.placed === this.places.length) {
      const more = new Float64Array(2 * this.placed);
      more.set(this.places);
      this.places = more;
    }
    this.places[this.placed] = x;
    this.places[this.placed + 1] = y;
    this.places[this.placed + 2] = z;
    this.placed += 3;
  }

  /** @throws MeshFault when there are too many; `where` tells the place in the file. */
  triangle(a: number, b: number, c: number, where: () => string): void {
    if (this.listed === this.list.length) {
      checkTriangles(this.triangles + 1, where());
      const more = new Uint32Array(2 * this.listed);
      more.set(this.list);
      this.list = more;
    }
    this.list[this.listed] = a;
    this.list[this.listed + 1] = b;
    this.list[this.listed + 2] = c;
    this.listed += 3;
  }

  mesh(): Mesh {
    return { positions: this.places.slice(0, this.placed), triangles: this.list.slice(0, this.listed) };
  }
}
