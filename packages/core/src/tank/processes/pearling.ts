import { co2Henry, waterVapourPressure } from "../../gas/index.ts";
import type { Process } from "../process.ts";
import { Q } from "../quantities.ts";

/** Rate at which gas above the bubble limit leaves, 1/s (design value: oxygen about once an hour at its usual share). */
const rate = 4 / 3600;
/** Tension beyond what holds a bubble down that leaves let build up before they bubble freely, atm (design value: about 130 % oxygen). */
const onset = 0.06;
/** Softness of the limit, atm. */
const soft = 0.01;

/** Gas that leaves as bubbles once the dissolved gases together outweigh air and water pressure. */
export const pearling: Process = {
  id: "pearling",
  title: "Pearling",
  about:
    "Bubbles leave when the tensions of oxygen, nitrogen, carbon dioxide and vapour exceed air pressure, half the depth of water and a threshold; a bubble holds each gas by its share of the tension.",
  sources: [],
  needs: ["temperature", "oxygen", "oxygenAtAir", "co2", "volume"],
  provides: [],
  flows: [
    { id: "pearling.oxygen", label: "lost as bubbles", of: "oxygen", from: "oxygen", to: "room air" },
    { id: "pearling.co2", label: "carried off by bubbles", of: "carbon", from: "dic", to: "room air" },
  ],
  start: ({ pressure, depth }) => {
    const bearing = pressure + (9.81 * 997 * depth) / 2 / 101325 + onset;
    return {
      at(_t, _y, q, flow, first) {
        const t = q[Q.temperature]!;
        const dryAir = pressure - waterVapourPressure(t);
        const perOxygen = q[Q.oxygenAtAir]! / (0.20946 * dryAir); // mol/(m3 atm)
        const perCo2 = co2Henry(t) * 1000;
        const oxygen = q[Q.oxygen]! / perOxygen;
        const co2 = q[Q.co2]! / perCo2;
        const tension = oxygen + co2 + 0.78 * dryAir + (pressure - dryAir);
        const x = (tension - bearing) / soft;
        const excess = soft * (x > 30 ? x : Math.log1p(Math.exp(x))); // smooth max(0, x)
        const leaving = (rate * excess * q[Q.volume]!) / tension;
        flow[first] = leaving * oxygen * perOxygen;
        flow[first + 1] = leaving * co2 * perCo2;
      },
    };
  },
};
