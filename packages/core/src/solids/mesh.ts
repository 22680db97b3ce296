/**
 * A surface of triangles. Closed ones bound a solid: every edge is shared by two triangles that run through it in
 * opposite directions, and the triangles turn counter-clockwise when seen from outside.
 */
export interface Mesh {
  /** x, y, z of each corner, m; a tank's own: x from the left pane, y from the front pane, z up from the inside floor. */
  readonly positions: Float64Array;
  /** Three corners of each triangle, as positions in the list of corners. */
  readonly triangles: Uint32Array;
}
