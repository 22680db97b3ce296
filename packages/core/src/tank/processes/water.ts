import type { Process } from "../process.ts";
import { Q, S } from "../quantities.ts";

/** Amounts to concentrations: the only place where the one becomes the other. */
export const water: Process = {
  id: "water",
  title: "Water",
  about:
    "Temperature is heat over heat capacity (water, bed, glass); concentrations are amounts over the water there is.",
  sources: [],
  needs: [],
  provides: ["waterMass", "volume", "temperature", "dic", "alkalinity", "oxygen", "waste"],
  flows: [],
  start: ({ heatCapacity, density, bedHeatCapacity }) => ({
    at(_t, y, q) {
      const mass = y[S.water]!;
      const volume = mass / density;
      q[Q.waterMass] = mass;
      q[Q.volume] = volume;
      q[Q.temperature] = y[S.heat]! / (mass * heatCapacity + bedHeatCapacity);
      q[Q.dic] = y[S.dic]! / mass;
      q[Q.alkalinity] = y[S.alkalinity]! / mass;
      q[Q.oxygen] = y[S.oxygen]! / volume;
      q[Q.waste] = y[S.waste]!;
    },
  }),
};
