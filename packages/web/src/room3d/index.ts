export type { ViewName } from "./orbit.ts";
export { Room3d } from "./room3d.tsx";
export type { Thing } from "./stage.ts";
export type { View } from "./view.ts";
