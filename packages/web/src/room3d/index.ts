export type { Theme } from "./look.ts";
export type { ViewName } from "./orbit.ts";
export { Room3d, type Room3dProps } from "./room3d.tsx";
export type { Rebuilt, Thing, ThingKind } from "./stage.ts";
export type { MovePhase, MovePlace, View, ViewOptions, ViewStats } from "./view.ts";

/** The engine without the component; its code is fetched when it is asked for. */
export const loadView = (): Promise<typeof import("./view.ts")> => import("./view.ts");
