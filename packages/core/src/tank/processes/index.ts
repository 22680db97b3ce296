import type { Process } from "../process.ts";
import { airStoneProcess } from "./air-stone.ts";
import { animals } from "./animals.ts";
import { carbonate } from "./carbonate.ts";
import { heat } from "./heat.ts";
import { injection } from "./injection.ts";
import { lamps } from "./lamps.ts";
import { microbes } from "./microbes.ts";
import { pearling } from "./pearling.ts";
import { plants } from "./plants.ts";
import { room } from "./room.ts";
import { schedule } from "./schedule.ts";
import { surface } from "./surface.ts";
import { water } from "./water.ts";

/** The tank is this list. A new process is one file and one line; the order is found from what each needs and provides. */
export const processes: readonly Process[] = [
  schedule,
  lamps,
  room,
  water,
  carbonate,
  surface,
  airStoneProcess,
  injection,
  heat,
  plants,
  animals,
  microbes,
  pearling,
];
