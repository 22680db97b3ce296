import type { TankRecord } from "../data/api.ts";
import type { TankDoor } from "../data/use-tank.ts";
export function FilePage({ tank }: { tank: TankRecord; door: TankDoor }) { return <main id="main"><pre>{tank.text}</pre></main>; }
