import type { Process } from "../process.ts";
import { Q } from "../quantities.ts";

/** Air bubbles exchange both gases on their way up; carbon dioxide soon fills a bubble, oxygen never does. */
export const airStoneProcess: Process = {
  id: "air-stone",
  title: "Air stone",
  about: "Flux = bubble exchange rate x volume x (in balance with air - dissolved), the rates from a plug-flow bubble.",
  sources: ["clift-1978"],
  needs: ["airOn", "co2", "oxygen", "co2AtAir", "oxygenAtAir", "volume"],
  provides: [],
  flows: [
    { id: "air.co2", label: "driven out by the air stone", of: "carbon", from: "dic", to: "room air" },
    { id: "air.oxygen", label: "brought by the air stone", of: "oxygen", from: "room air", to: "oxygen" },
  ],
  start: ({ air }) =>
    air && {
      at(_t, _y, q, flow, first) {
        const on = (q[Q.airOn]! * q[Q.volume]!) / 3600;
        flow[first] = on * air.kCo2 * (q[Q.co2]! - q[Q.co2AtAir]!);
        flow[first + 1] = on * air.kOxygen * (q[Q.oxygenAtAir]! - q[Q.oxygen]!);
      },
    },
};
