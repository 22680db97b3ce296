import type { TankRecord } from "../data/api.ts";
import type { TankDoor } from "../data/use-tank.ts";
import type { AppPlace } from "./places.ts";
export function PlacePage({ place }: { tank: TankRecord; door: TankDoor; place: AppPlace }) { return <main id="main"><h1>{place.label}</h1></main>; }
