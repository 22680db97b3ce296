import { co2Henry, waterVapourPressure } from "../../gas/index.ts";
import type { Process } from "../process.ts";
import { Q } from "../quantities.ts";

/** Rate at which oxygen above the bubble limit leaves, 1/s (design value: about once an hour). */
const rate = 1 / 3600;
/** Tension beyond what holds a bubble down that leaves let build up before they bubble freely, atm (design value: about 130 % oxygen). */
const onset = 0.06;
/** Softness of the limit, atm. */
const soft = 0.01;

/** Oxygen that leaves as bubbles once the dissolved gases together outweigh air and water pressure. */
export const pearling: Process = {
  id: "pearling",
  title: "Pearling",
  about:
    "Bubbles leave when the tensions of oxygen, nitrogen, carbon dioxide and vapour exceed air pressure, half the depth of water and a threshold; the excess leaves at a fixed rate.",
  sources: [],
  needs: ["temperature", "oxygen", "oxygenAtAir", "co2", "volume"],
  provides: [],
  flows: [{ id: "pearling.oxygen", label: "lost as bubbles", of: "oxygen", from: "oxygen", to: "room air" }],
  start: ({ pressure, depth }) => {
    const bearing = pressure + (9.81 * 997 * depth) / 2 / 101325 + onset;
    return {
      at(_t, _y, q, flow, first) {
        const t = q[Q.temperature]!;
        const dryAir = pressure - waterVapourPressure(t);
        const perPressure = q[Q.oxygenAtAir]! / (0.20946 * dryAir); // mol/(m3 atm)
        const tension =
          q[Q.oxygen]! / perPressure + 0.78 * dryAir + q[Q.co2]! / (co2Henry(t) * 1000) + (pressure - dryAir);
        const x = (tension - bearing) / soft;
        const excess = x > 30 ? x : Math.log1p(Math.exp(x)); // smooth max(0, x)
        flow[first] = rate * excess * soft * perPressure * q[Q.volume]!;
      },
    };
  },
};
