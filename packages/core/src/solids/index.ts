export type { Mesh } from "./mesh.ts";
